using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Findings grouped by code: the first place and wording are kept, further ones are counted.</summary>
/// <remarks>Words of an input may stand in a finding: control characters, which a terminal would obey, come out as '?', and what is long is cut.</remarks>
/// <param name="added">Told the first finding of each code as soon as it is met.</param>
internal sealed class FindingLog(Action<Finding>? added = null)
{
    private const int LongestWords = 400;

    private readonly List<Finding> _findings = [];
    private readonly Dictionary<string, int> _indexByCode = [];

    public IReadOnlyList<Finding> Findings => _findings;

    public bool Has(string code) => _indexByCode.ContainsKey(code);

    /// <summary>Counts another occurrence of a code that is already there; false when it is the first, which the caller then words.</summary>
    public bool CountedAgain(string code)
    {
        if (!_indexByCode.TryGetValue(code, out int index)) return false;
        Finding known = _findings[index];
        _findings[index] = known with { Count = known.Count + 1 };
        return true;
    }

    public void Add(Severity severity, string code, long? line, string what, string done, long count = 1)
    {
        if (_indexByCode.TryGetValue(code, out int index))
        {
            _findings[index] = _findings[index] with { Count = _findings[index].Count + count };
            return;
        }

        _indexByCode[code] = _findings.Count;
        _findings.Add(new Finding(severity, code, line, count, OneLine(what), OneLine(done)));
        added?.Invoke(_findings[^1]);
    }

    public void Note(string code, long? line, string what, string done, long count = 1) => Add(Severity.Note, code, line, what, done, count);

    public void Warn(string code, long? line, string what, string done, long count = 1) => Add(Severity.Warning, code, line, what, done, count);

    public void Error(string code, long? line, string what, string done) => Add(Severity.Error, code, line, what, done);

    /// <summary>Words of an input fit to stand in a finding: cut when long.</summary>
    public static string Shown(string words) => words.Length <= 60 ? words : words[..60] + "...";

    private static string OneLine(string words)
    {
        if (words.Length > LongestWords) words = words[..LongestWords] + "...";
        return words.AsSpan().IndexOfAnyInRange('\0', '\u001f') < 0 && words.AsSpan().IndexOfAnyInRange('\u007f', '\u009f') < 0 ? words : string.Concat(words.Select(c => char.IsControl(c) ? '?' : c));
    }
}
