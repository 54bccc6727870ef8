using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Files.Jobs;

/// <summary>The findings of one job file: all of them, but at most so many of a kind in full.</summary>
internal sealed class JobFindings
{
    private const int InFull = 20;
    private readonly List<Finding> findings = [];
    private readonly List<(string Path, Finding Finding)> atPaths = [];
    private readonly Dictionary<string, (Severity Severity, long? Line, int Count)> kinds = [];

    /// <summary>Whether another finding of this kind would be kept in full; lets the caller save the work of wording it.</summary>
    public bool HasRoom(string code) => kinds.GetValueOrDefault(code).Count < InFull;

    /// <summary>An error: the file can't be used before it is mended.</summary>
    public void Error(string code, long? line, string what, string mend, string? path = null) => Add(new(Severity.Error, code, line, 1, what, mend), path);

    /// <summary>A warning: the file can be used without what is reported.</summary>
    public void Warning(string code, long? line, string what, string mend) => Add(new(Severity.Warning, code, line, 1, what, mend));

    /// <summary>The findings about one value each, by its path; all of them, however many of a kind.</summary>
    public ILookup<string, Finding> ByPath => atPaths.ToLookup(f => f.Path, f => f.Finding);

    /// <summary>Keeps the finding, or counts it when there are enough of its kind.</summary>
    public void Add(Finding finding, string? path = null)
    {
        if (path is not null)
            atPaths.Add((path, finding));
        (_, _, int count) = kinds.GetValueOrDefault(finding.Code);
        kinds[finding.Code] = (finding.Severity, finding.Line, count + 1);
        if (count < InFull)
            findings.Add(finding);
    }

    /// <summary>All in the order of the file; where there were too many of a kind, one more that says how many.</summary>
    public IReadOnlyList<Finding> InOrder() =>
    [
        .. findings.OrderBy(f => f.Line ?? 0),
        .. from kind in kinds
           where kind.Value.Count > InFull
           let more = kind.Value.Count - InFull
           select new Finding(kind.Value.Severity, kind.Key, kind.Value.Line, 1,
               string.Create(CultureInfo.InvariantCulture, $"And {more} more of the kind '{kind.Key}', the last on this line."), "Mend those above first."),
    ];
}
