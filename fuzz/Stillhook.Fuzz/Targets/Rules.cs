using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Fuzz.Targets;

/// <summary>What every reader promises, whatever it is given.</summary>
public static class Rules
{
    public static void Must(bool holds, FormattableString what)
    {
        ArgumentNullException.ThrowIfNull(what);
        if (!holds) throw new BrokenRuleException(what.ToString(CultureInfo.InvariantCulture));
    }

    /// <summary>Findings say where, what and what to do, in one line each.</summary>
    public static void Worded(IReadOnlyList<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        foreach (Finding finding in findings)
        {
            Must(finding.Code.Length > 0 && finding.Code.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'), $"code '{finding.Code}'");
            Must(IsLine(finding.What) && IsLine(finding.Done), $"{finding.Code}: no plain line of words: '{finding.What}' '{finding.Done}'");
            Must(finding.Count >= 1 && finding.Line is null or >= 1, $"{finding.Code}: count {finding.Count}, line {finding.Line}");
        }
    }

    /// <summary>A record's columns fit each other, its places are on earth, and it has fixes or an error.</summary>
    public static void Whole(FlightRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        Worded(record.Findings);
        Must(record.Count > 0 || record.Findings.Any(f => f.Severity == Severity.Error), $"no fix and no error");
        int n = record.Count;
        Must(record.LatitudeDeg.Length == n && record.LongitudeDeg.Length == n && record.AltitudeM.Length == n, $"columns of different length");
        foreach (double[] column in (double[][])[record.PressureAltitudeM, record.GroundSpeedMs, record.CourseDeg, record.ClimbMs])
            Must(column.Length == 0 || column.Length == n, $"a column of {column.Length} values beside {n} fixes");
        foreach (double[] column in (double[][])[record.TimeS, record.AltitudeM, record.PressureAltitudeM, record.GroundSpeedMs, record.CourseDeg, record.ClimbMs])
            Must(!Array.Exists(column, double.IsInfinity), $"an infinite value");
        for (int i = 0; i < n; i++)
            Must(Math.Abs(record.LatitudeDeg[i]) <= 90 && Math.Abs(record.LongitudeDeg[i]) <= 180, $"fix {i} is at {record.LatitudeDeg[i]}, {record.LongitudeDeg[i]}");
        Segments(record.SegmentStarts, n);
        foreach (Channel channel in record.Channels)
            Must(channel.TimeS.Length == channel.Value.Length && channel.Value.All(double.IsFinite) && !Array.Exists(channel.TimeS, double.IsInfinity), $"channel {channel.Kind}");
    }

    /// <summary>Never a silently shorter flight: where the text holds more points than were read, a warning or an error says so.</summary>
    public static void NoneLostInSilence(FlightRecord record, int inText)
    {
        ArgumentNullException.ThrowIfNull(record);
        Must(record.Count >= inText || record.Findings.Any(f => f.Severity > Severity.Note), $"{inText} points in the text, {record.Count} read, and no word about it");
    }

    private static void Segments(int[] starts, int fixes)
    {
        Must(fixes == 0 ? starts.Length == 0 : starts.Length > 0 && starts[0] == 0, $"the first segment does not start with the first of {fixes} fixes");
        for (int i = 1; i < starts.Length; i++)
            Must(starts[i] > starts[i - 1] && starts[i] < fixes, $"segment {i} starts at {starts[i]}");
    }

    private static bool IsLine(string text) => text.Length is > 0 and < 1000 && !text.Any(char.IsControl);
}
