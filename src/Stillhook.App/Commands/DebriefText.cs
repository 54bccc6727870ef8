using System.Globalization;
using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Files.Reports;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary>The debrief as a person reads it in a terminal: the next approach first, then what the record can carry, the deliveries, what was assumed, the findings.</summary>
internal static class DebriefText
{
    private const string NotAssessable = "-";

    public static void Write(TextWriter output, Debrief debrief, NextApproach next)
    {
        bool measured = debrief.Rotations.Any(r => r.Delivery is not null);
        if (measured)
            WriteNext(output, next, debrief.Setup.Marks);
        WriteQuality(output, debrief);
        if (debrief.Rotations.Count > 0)
            WriteDeliveries(output, debrief);
        else
            output.WriteLine($"No deliveries: {debrief.NoRotationsBecause}");
        WriteNotJudged(output, debrief);
        WriteSetup(output, debrief.Setup);
        foreach (Finding finding in debrief.Findings)
            output.WriteLine(FindingText.Line(debrief.RecordName, finding));
        output.WriteLine(Cautions.Debrief);
    }

    private static void WriteNext(TextWriter output, NextApproach next, MarksFrom marks)
    {
        output.WriteLine($"Next approach: {next.Line}");
        if (next.Evidence.Length > 0)
            output.WriteLine($"  Evidence: {next.Evidence}");
        foreach (string stopped in next.Stopped)
            output.WriteLine($"  Held back: {stopped}");
        output.WriteLine(marks.Of == MarksOf.Nobody ? "  Held against no marks: no approach is planned." : $"  Held against the {marks.Words}.");
        output.WriteLine();
    }

    private static void WriteQuality(TextWriter output, Debrief debrief)
    {
        QualityVerdict q = debrief.Quality;
        string day = debrief.Track is { Count: > 0 } track ? $"{debrief.Setup.Clock.Day(track.TimeS[0])}, times of {debrief.Setup.Clock.Zone}, " : "";
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"Record: {debrief.RecordName}, {day}{q.DurationS / 60:0} min, a fix every {q.MedianStepS:0.##} s, {(q.HasSpeed ? "with" : "without")} speed, {(q.HasLoadCell ? "with" : "without")} load cell."));
        foreach (string cannot in q.CannotJudge)
            output.WriteLine($"  Cannot be judged: {cannot}");
        output.WriteLine();
    }

    private static readonly (string Name, string Unit, int Width)[] Columns =
    [
        ("No", "", 3), ("Down", "local", 9), ("Cycle", "s", 6), ("Start", "ft", 6), ("at", "m", 5), ("Glide", "deg", 6), ("Entry", "kt", 6),
        ("Slowing", "g", 8), ("Past", "m", 6), ("Short", "m", 6), ("Swing", "m, 90 % band", 19), ("Hover", "s", 6), ("Sink", "ft/min", 7),
    ];

    private static void WriteDeliveries(TextWriter output, Debrief debrief)
    {
        output.WriteLine(string.Concat(Columns.Select(c => c.Name.PadLeft(c.Width))) + "  Remark");
        output.WriteLine(string.Concat(Columns.Select(c => c.Unit.PadLeft(c.Width))));
        foreach (Rotation rotation in debrief.Rotations)
            output.WriteLine((string.Concat(Cells(rotation, debrief.Setup.Clock).Zip(Columns, (cell, c) => cell.PadLeft(c.Width))) + "  " + Remark(rotation)).TrimEnd());
        output.WriteLine();
    }

    private static IEnumerable<string> Cells(Rotation r, SiteClock clock)
    {
        Delivery? d = r.Delivery;
        return
        [
            Number(r.Number, "0"),
            r.DeliveryTimeS is { } t ? clock.Clock(t) : NotAssessable,
            Number(d?.CycleTimeS, "0"),
            Number(d?.StartHeightM is { } h ? Length.FromMeters(h).Feet : null, "0", step: 10),
            Number(d?.StartDistanceM, "0", step: 10),
            Number(d?.GlideDeg, "0.0"),
            Number(d?.EntrySpeedMs is { } v ? Speed.FromMetersPerSecond(v).Knots : null, "0"),
            Number(d?.PeakDecelMs2 / Physics.Earth.Gravity.Standard, "0.00"),
            Number(d?.OvershootM, "0.0"),
            Number(d?.StopShortM, "0"),
            d?.SwingShownM is { } s ? string.Create(CultureInfo.InvariantCulture, $"{s.Value:0.0} ({s.Low:0.0} to {s.High:0.0})") : NotAssessable,
            Number(d?.HoverTimeS, "0"),
            Number(d?.SinkLast15Ms is { } w ? Speed.FromMetersPerSecond(w).FeetPerMinute : null, "0", step: 10),
        ];
    }

    private static string Remark(Rotation rotation)
    {
        List<string> words = [];
        if (rotation.Delivery is { MainFault: not Fault.None } d)
            words.Add(FaultText.Name(d.MainFault));
        if (rotation.GoArounds > 0 && rotation.Delivery?.MainFault != Fault.GoAround)
            words.Add(string.Create(CultureInfo.InvariantCulture, $"{rotation.GoArounds} go-around{(rotation.GoArounds > 1 ? "s" : "")}"));
        if (rotation.Confidence == Confidence.Low)
            words.Add("unsure");
        return string.Join(", ", words);
    }

    private static void WriteNotJudged(TextWriter output, Debrief debrief)
    {
        IEnumerable<(string Reason, string Numbers)> grouped = debrief.Rotations
            .SelectMany(r => r.NotJudged.Select(reason => (reason, r.Number)))
            .GroupBy(x => x.reason, x => x.Number)
            .Select(g => (g.Key, string.Join(", ", g.Select(n => n.ToString(CultureInfo.InvariantCulture)))));
        foreach ((string reason, string numbers) in grouped)
            output.WriteLine($"Not judged in {numbers}: {reason}");
    }

    private static void WriteSetup(TextWriter output, LiftSetup s)
    {
        List<string> assumed = [];
        Say(s.Line.From, $"line {Text(s.Line.Value.Meters, "0.#")} m");
        Say(s.Rigging.From, $"rigging {Text(s.Rigging.Value.Meters, "0.#")} m");
        Say(s.LoadHeight.From, $"load height {Text(s.LoadHeight.Value.Meters, "0.#")} m");
        Say(s.Load.From, $"load {Text(s.Load.Value.Kilograms, "0")} kg");
        Say(s.DragArea.From, $"drag area {Text(s.DragArea.Value.SquareMeters, "0.0")} m²");
        Say(s.Aircraft.From, $"aircraft {Text(s.Aircraft.Value.Kilograms, "0")} kg");
        Say(s.AntennaAboveHook.From, $"antenna {Text(s.AntennaAboveHook.Value.Meters, "0.#")} m above the hook");
        if (s.Wind is null)
            assumed.Add("wind not given");
        if (assumed.Count > 0)
            output.WriteLine($"Assumed, because nobody said: {string.Join(", ", assumed)}.");

        void Say(Origin from, string what)
        {
            if (from == Origin.Assumed)
                assumed.Add(what);
        }
    }

    private static string Number(double? value, string format, double step = 0) =>
        value is { } v && double.IsFinite(v) ? Text(step > 0 ? Math.Round(v / step) * step : v, format) : NotAssessable;

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
