using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Findings grouped by code: the first place and wording are kept, further ones are counted.</summary>
/// <param name="added">Told the first finding of each code as soon as it is met.</param>
internal sealed class FindingLog(Action<Finding>? added = null)
{
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
        _findings.Add(new Finding(severity, code, line, count, what, done));
        added?.Invoke(_findings[^1]);
    }

    public void Note(string code, long? line, string what, string done, long count = 1) => Add(Severity.Note, code, line, what, done, count);

    public void Warn(string code, long? line, string what, string done, long count = 1) => Add(Severity.Warning, code, line, what, done, count);

    public void Error(string code, long? line, string what, string done) => Add(Severity.Error, code, line, what, done);
}
