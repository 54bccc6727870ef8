using System.Reflection;
using System.Text;

namespace Stillhook.Tests.App.Security;

/// <summary>What a test tries from outside, and what comes of it, in words; together they are the table in docs/method/security.md.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class TriedAttribute(string what, string then) : Attribute
{
    /// <summary>What is tried.</summary>
    public string What => what;

    /// <summary>What comes of it.</summary>
    public string Then => then;
}

/// <summary>The list of what was tried is the list of the tests.</summary>
public class TriedTests
{
    private const string Page = "docs/method/security.md", Begin = "<!-- tried -->\n", End = "<!-- /tried -->";

    [Fact]
    public void EveryTestHere_SaysWhatItTries() =>
        Assert.Empty(Tests().Where(m => m.DeclaringType != typeof(TriedTests) && m.GetCustomAttribute<TriedAttribute>() is null).Select(m => $"{m.DeclaringType!.Name}.{m.Name}"));

    // Pinned: the page, read by a person; STILLHOOK_APPROVE=1 writes its table anew.
    [Fact]
    public void Page_ListsWhatIsTried()
    {
        StringBuilder table = new("| tried | what comes of it |\n|---|---|\n");
        foreach (MethodInfo test in Tests())
            if (test.GetCustomAttribute<TriedAttribute>() is { } tried)
                table.Append($"| {tried.What} | {tried.Then} |\n");
        string file = Repository.File(Page), text = File.ReadAllText(file).ReplaceLineEndings("\n");
        int from = text.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, to = text.IndexOf(End, StringComparison.Ordinal);
        if (Environment.GetEnvironmentVariable("STILLHOOK_APPROVE") == "1")
            File.WriteAllText(file, text = text[..from] + table + text[to..]);
        Assert.Equal(table.ToString(), text[from..text.IndexOf(End, StringComparison.Ordinal)]);
    }

    private static IEnumerable<MethodInfo> Tests() => typeof(TriedTests).Assembly.GetTypes().Where(t => t.Namespace == typeof(TriedTests).Namespace)
        .OrderBy(t => t.Name, StringComparer.Ordinal).SelectMany(t => t.GetMethods().OrderBy(m => m.MetadataToken)).Where(m => m.GetCustomAttribute<FactAttribute>() is not null);
}
