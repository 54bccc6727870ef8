using System.Text.RegularExpressions;

namespace Stillhook.Tests.Shape;

/// <summary>Whoever reads an expected figure must see where it is from (docs/method/testing.md).</summary>
public partial class ExpectedValueKindTests
{
    // Closed form: the sources of the tests themselves.
    [Fact]
    public void Figures_OfEveryTest_NameTheirKind()
    {
        string[] files = Directory.GetFiles(Repository.File("tests"), "*Tests.cs", SearchOption.AllDirectories);
        Assert.NotEmpty(files);
        Assert.Empty(files.SelectMany(f => Unlabelled(File.ReadAllText(f)).Select(test => $"{Path.GetFileName(f)}: {test}")));
    }

    // Closed form: three small sources, the second without a label.
    [Theory]
    [InlineData("    // Published: a table.\n    [Fact]\n    public void A_B_C() => Assert.Equal(1.5, x);\n", 0)]
    [InlineData("    [Fact]\n    public void A_B_C() => Assert.Equal(1.5, x);\n", 1)]
    [InlineData("// Closed form: all of it.\npublic class T\n{\n    [Fact]\n    public void A_B_C() => Assert.Equal(1.5, x);\n}\n", 0)]
    public void Unlabelled_SmallSource_IsCounted(string source, int count) => Assert.Equal(count, Unlabelled(source).Count());

    private static IEnumerable<string> Unlabelled(string source)
    {
        source = source.ReplaceLineEndings("\n");
        if (ClassKind().Matches(source).Any(m => KindOfAll().IsMatch(m.Value)))
            yield break;
        foreach (Match test in Test().Matches(source))
            if (Figure().IsMatch(test.Value) && !Kind().IsMatch(test.Value))
                yield return TestName().Match(test.Value).Groups[1].Value;
    }

    [GeneratedRegex("Published|Closed form|Real record|Simulated truth|Common practice, no source|From memory|Pinned")]
    private static partial Regex Kind();

    [GeneratedRegex("published|closed form|real record|simulated truth|common practice, no source|from memory|pinned", RegexOptions.IgnoreCase)]
    private static partial Regex KindOfAll();

    /// <summary>A figure with decimals as the expected value.</summary>
    [GeneratedRegex(@"Assert\.(?:Equal|InRange)\(-?\d[\d_]*\.\d")]
    private static partial Regex Figure();

    /// <summary>A test with the comments and attributes above it, up to what stands after it.</summary>
    [GeneratedRegex(@"(?:^ {4}(?://|\[)[^\n]*\n)*^ {4}\[(?:Fact|Theory)[^\n]*\n(?:(?! {4}(?:private|internal|//|\[)|\}).*\n)*(?:(?! {4}//).*\n)?", RegexOptions.Multiline)]
    private static partial Regex Test();

    [GeneratedRegex(@"(?:^//[^\n]*\n)+(?:^\[[^\n]*\n)*^(?:public|internal)[^\n]*class", RegexOptions.Multiline)]
    private static partial Regex ClassKind();

    [GeneratedRegex(@"(?:void|Task)\s+(\w+)\(")]
    private static partial Regex TestName();
}
