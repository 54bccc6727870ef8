using System.Globalization;

namespace Stillhook.Files.Jobs;

/// <summary>Notices kg beside lb, °C beside °F, hPa beside inHg in one file.</summary>
internal sealed class UnitsMixed
{
    private readonly SortedDictionary<string, List<(string Ending, string Key, long Line)>> firsts = new(StringComparer.Ordinal);

    public void Note(UnitForm unit, string key, long line)
    {
        if (unit.Rival.Length == 0)
            return;
        if (!firsts.TryGetValue(unit.Rival, out List<(string, string, long)>? met))
            firsts[unit.Rival] = met = [];
        string system = unit.Ending[..1];
        if (!met.Exists(m => m.Item1 == system))
            met.Add((system, key, line));
    }

    /// <summary>One warning for each kind of quantity written in two units.</summary>
    public void Report(JobFindings findings)
    {
        foreach ((string rival, List<(string Ending, string Key, long Line)> met) in firsts.Where(f => f.Value.Count > 1))
            findings.Warning("job-mixed-units", met[1].Line, string.Create(CultureInfo.InvariantCulture,
                $"The file writes {rival} in two units: {met[0].Key} on line {met[0].Line}, {met[1].Key} on line {met[1].Line}."),
                "Read each as its key says; check that no figure was copied under the wrong key, and better keep to one unit.");
    }
}
