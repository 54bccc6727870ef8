using System.Text;
using Stillhook.Files.Days;
using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Planning.Checking;
using Stillhook.Recording;

namespace Stillhook.Fuzz.Targets;

/// <summary>What people type: job files, pasted tables, quantities, the crew's sheet.</summary>
public static class JobTargets
{
    public static FuzzTarget JobFile { get; } = new("job", ReadJob,
    [
        "\"loads\"", "\"sites\"", "\"aircraft\"", "\"massKg\"", "\"lengthM\"", "\"line\"", "\"number\"", "\"after\"", "\"howKnown\"", "\"label\"", "\"latitudeDeg\"", "\"timeZone\"", "\"Europe/Zurich\"", "\"day\"", "\"date\"", "\"2026-06-01\"", "\"rigging\"", "\"crew\"", "\"policy\"", "\"approach\"", "\"weather\"", "\"wind\"",
        "null", "true", "1e308", "-1", "[]", "{}", "//", "/*", "*/", "\\u0000", "\\ud83d", ",", ":", "\"hoverTorque\"", "\"chart\"", "\"quote\"", "\"fuel\"", "\"use\"", "\"pickUp\"", "\"delivery\"",
    ], 16_384);

    public static FuzzTarget Pasted { get; } = new("pasted-table", bytes =>
    {
        string text = Encoding.UTF8.GetString(bytes);
        Lines(PastedTable.AddLoads(JobDocument.New("a"), text));
        Lines(PastedTable.SetChart(JobDocument.New("a"), "aircraft.hoverOutOfGroundEffect", text, feet: true, pounds: false));
        Lines(PastedTable.SetTorque(JobDocument.New("a"), text, feet: false, pounds: true));
    }, ["\t", ";", "\n", "number", "mass", "Mass (kg)", "lb", "12,5", "1e308", "°C", "ft", "-20", "howKnown", "weighed", "delivery"], 1024);

    public static FuzzTarget Quantity { get; } = new("quantity", bytes =>
    {
        string text = Encoding.UTF8.GetString(bytes);
        if (QuantityText.TryLength(text, out UnitsNet.Length length, out _)) Rules.Must(double.IsFinite(length.Meters), $"{length.Meters} m");
        if (QuantityText.TryMass(text, out UnitsNet.Mass mass, out _)) Rules.Must(double.IsFinite(mass.Kilograms), $"{mass.Kilograms} kg");
        if (QuantityText.TryPressure(text, out UnitsNet.Pressure pressure, out _)) Rules.Must(double.IsFinite(pressure.Pascals), $"{pressure.Pascals} Pa");
        if (QuantityText.TrySpeed(text, out UnitsNet.Speed speed, out _)) Rules.Must(double.IsFinite(speed.MetersPerSecond), $"{speed.MetersPerSecond} m/s");
        QuantityText.TryArea(text, out _, out _);
        QuantityText.TryTemperature(text, out _, out _);
        QuantityText.TryAngle(text, out _, out _);
        QuantityText.TryClock(text, out _, out _);
        QuantityText.TryWind(text, out _, out _);
    }, ["ft", "m", "kg", "lb", "hPa", "inHg", "kt", "km/h", "°", "C", "F", "/", "240/15", "G25", "14:05", "1e308", "-", ".", ",", "'"], 128);

    public static FuzzTarget CrewSheet { get; } = new("crew-sheet", bytes =>
    {
        string text = Encoding.UTF8.GetString(bytes);
        CrewSheet sheet = Stillhook.Files.Days.CrewSheet.Read(new StringReader(text), t => t.Hour == 3 ? null : t.ToTimeSpan().TotalSeconds);
        int taken = sheet.Tally.Count + sheet.Times.Count + sheet.Events.Count + sheet.Fuel.Count;
        int rows = text.Split('\n').Skip(1).Count(r => r.Any(char.IsAsciiLetterOrDigit));
        Rules.Must(taken + sheet.Findings.Count >= rows || sheet.Findings.Any(f => f.Severity == Severity.Error), $"{rows} rows, {taken} taken, {sheet.Findings.Count} findings");
        foreach (Finding finding in sheet.Findings) Rules.Must(finding.Line >= 1 && finding.What.Length > 0 && finding.Done.Length > 0, $"{finding}");
    }, [Stillhook.Files.Days.CrewSheet.Heading + "\n", "delivery,08:35,,1,725.5,,\n", "weather,09:00,09:20,,,,\n", "break", "gauge", "uplift", "snag", ";", "\t", "24:00", "1e9", "99999999999999999999", "-"], 2048);

    private static void ReadJob(byte[] bytes)
    {
        JobFile job = Stillhook.Files.Jobs.JobFile.Read(new MemoryStream(bytes));
        Rules.Worded(job.Findings);
        Rules.Must(job.IsUsable || job.Findings.Any(f => f.Severity == Severity.Error && f.Line is not null), $"an error without any line");
        RequestCheck.ForPlan(job.Request);
        job.LineOf("loads[1].mass");
        if (!job.IsUsable || job.Findings.Count > 0) return;
        // What was understood whole can be written and is the same when read again.
        string text = JobWriter.Text(job.Request);
        JobFile again = Stillhook.Files.Jobs.JobFile.Read(text);
        Rules.Must(again.IsUsable, $"written and read again: {string.Join(" ", again.Findings)}");
        Rules.Must(JobWriter.Text(again.Request) == text, $"written and read again it is another job");
    }

    private static void Lines(IReadOnlyList<string> wrong) => Rules.Must(wrong.All(w => w.Length > 0 && !w.Contains('\n', StringComparison.Ordinal)), $"{string.Join("|", wrong)}");
}
