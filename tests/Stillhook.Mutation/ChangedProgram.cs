using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Emit;
using Microsoft.CodeAnalysis.Text;

namespace Stillhook.Mutation;

/// <summary>One project of the program, compiled anew with one change at a time.</summary>
internal sealed partial class ChangedProgram
{
    private readonly CSharpCompilation _whole;
    private readonly Dictionary<string, SyntaxTree> _trees;

    /// <summary>Reads a project's sources and what the build made for it.</summary>
    /// <param name="root">The repository.</param>
    /// <param name="project">The project's name.</param>
    /// <param name="built">The folder of built tests, with the libraries the project refers to.</param>
    public ChangedProgram(string root, string project, string built)
    {
        var parse = new CSharpParseOptions(LanguageVersion.Latest, DocumentationMode.None);
        string made = Path.Combine(root, "artifacts", "obj", project, "release");
        _trees = Directory.EnumerateFiles(Path.Combine(root, "src", project), "*.cs", SearchOption.AllDirectories)
            .Concat(Directory.EnumerateFiles(made, "*.GlobalUsings.g.cs")).Concat(Directory.EnumerateFiles(made, "*.AssemblyInfo.cs"))
            .ToDictionary(f => f, f => CSharpSyntaxTree.ParseText(SourceText.From(GeneratedPatterns().Replace(File.ReadAllText(f), "$2private static Regex $3() => new($1);")), parse, f));
        string framework = Path.GetDirectoryName(typeof(object).Assembly.Location)!;
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator).Where(f => Path.GetDirectoryName(f) == framework)
            .Concat(new[] { "Stillhook.Physics", "MathNet.Numerics", "UnitsNet" }.Where(n => n != project).Select(n => Path.Combine(built, n + ".dll")))
            .Select(f => MetadataReference.CreateFromFile(f));
        _whole = CSharpCompilation.Create(project, _trees.Values, references, new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary,
            optimizationLevel: OptimizationLevel.Release, checkOverflow: true, nullableContextOptions: NullableContextOptions.Enable, deterministic: true));
    }

    /// <summary>The changes of the files in one folder of the project, in a fixed order.</summary>
    /// <param name="folder">The folder's full path.</param>
    public IEnumerable<Change> Changes(string folder) =>
        _trees.Where(t => t.Key.StartsWith(folder + Path.DirectorySeparatorChar, StringComparison.Ordinal)).OrderBy(t => t.Key, StringComparer.Ordinal).SelectMany(t => ChangeFinder.Of(t.Value));

    /// <summary>Writes the library, with a change or without.</summary>
    /// <param name="to">The file to write.</param>
    /// <param name="change">The change; none compiles the sources as they are.</param>
    /// <returns>Whether it could be compiled.</returns>
    public bool Write(string to, Change? change)
    {
        CSharpCompilation compilation = _whole;
        if (change is not null)
        {
            SyntaxTree tree = _trees[change.File];
            compilation = compilation.ReplaceSyntaxTree(tree, tree.WithChangedText(tree.GetText().WithChanges(new TextChange(change.Span, change.Became))));
        }
        File.Delete(to);
        using FileStream file = File.Create(to);
        EmitResult result = compilation.Emit(file);
        if (change is null)
            foreach (Diagnostic d in result.Diagnostics.Where(d => d.Severity is DiagnosticSeverity.Error)) Console.Error.WriteLine(d);
        return result.Success;
    }

    // The build's generator isn't at hand here: a pattern is made when it is asked for instead, in the same lines.
    [GeneratedRegex(@"\[GeneratedRegex\((.*?)\)\](\r?\n\s*)private static partial Regex (\w+)\(\);", RegexOptions.Singleline)]
    private static partial Regex GeneratedPatterns();
}
