using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Pages.Deliveries;

/// <summary>One line of two deliveries side by side, as read.</summary>
internal sealed record PairRow(string Name, string Before, string After, string Change);

/// <summary>Two deliveries to one spot in words and the reader's units.</summary>
/// <param name="Before">Number of the earlier one.</param>
/// <param name="After">Number of the later one.</param>
/// <param name="Cost">The difference in time in a sentence.</param>
/// <param name="Parts">Times, part by part.</param>
/// <param name="Rows">What differed.</param>
/// <param name="Paths">Both, ready to be drawn.</param>
internal sealed record PairView(int Before, int After, string Cost, IReadOnlyList<PairRow> Parts, IReadOnlyList<PairRow> Rows, IReadOnlyList<DeliveryPath> Paths)
{
    /// <summary>The two, the earlier first; null when they can't be set against each other.</summary>
    public static PairView? Of(OpenFlight flight, IReadOnlyDictionary<int, CorrectedLift> lifts, int[] pair, DisplayUnits units)
    {
        if (WhyNot(lifts, pair, units) is not null)
            return null;
        KeptLift[] two = [.. pair.Select(n => lifts[n].Lift).OrderBy(l => l.DeliveryTimeS ?? l.Number)];
        SameSpotPair found = SameSpotPair.Compare(two[0], two[1]);
        List<DeliveryPath> paths = [.. two.Select(l => flight.Debrief.Rotations.FirstOrDefault(r => r.Number == l.Number)).OfType<Rotation>().Select(r => DeliveryPath.Of(flight.Debrief, r)).OfType<DeliveryPath>()];
        return new(two[0].Number, two[1].Number, CostOf(found), PartsOf(found), [.. Circumstances(two[0], two[1], units), .. MeasuresOf(found, units)], paths);
    }

    /// <summary>Why two can't be set against each other, and what to choose instead; null when they can.</summary>
    public static string? WhyNot(IReadOnlyDictionary<int, CorrectedLift> lifts, int[] pair, DisplayUnits units)
    {
        if (pair[0] == pair[1])
            return "That is the same delivery twice: choose another one.";
        if (pair.Any(n => lifts.GetValueOrDefault(n)?.Lift is not { Measures: not null, Delivery: not null }))
            return "One of them was not measured: choose two that the table above has figures for.";
        double apart = SameSpotPair.ApartM(lifts[pair[0]].Lift.Delivery!.Value, lifts[pair[1]].Lift.Delivery!.Value);
        return apart > SameSpotPair.SameSpotM
            ? $"Their loads touched {units.Along(apart)} apart, so these are two spots: choose two within {units.Along(SameSpotPair.SameSpotM)}."
            : null;
    }

    private static string CostOf(SameSpotPair pair)
    {
        if (pair.TimeChangeS is not { } change)
            return "What it cost in time is not known: a time of one of them is missing.";
        string parts = string.Join(", ", pair.Parts.Select(p => $"{Amount(p.ChangeS)} {p.Name switch { "approach to stop" => "to the stop", "stop to contact" => "from stop to contact", _ => "from contact to clear" }}"));
        return $"From approach start to clear, delivery {Number(pair.Later.Number)} took {Amount(change)} than delivery {Number(pair.Earlier.Number)}: {parts}.".Replace("the same time than", "the same time as", StringComparison.Ordinal);
    }

    private static string Amount(double seconds) => Math.Abs(seconds) < 0.5 ? "the same time" : DisplayUnits.Text(Math.Abs(seconds), 0) + (seconds > 0 ? " s longer" : " s shorter");

    private static IReadOnlyList<PairRow> PartsOf(SameSpotPair pair) => pair.Parts.Count == 0 ? [] :
    [
        .. pair.Parts.Select(p => new PairRow(Capital(p.Name), Seconds(p.BeforeS), Seconds(p.AfterS), Signed(p.ChangeS, Seconds))),
        new("Approach start to clear", Seconds(pair.Parts.Sum(p => p.BeforeS)), Seconds(pair.Parts.Sum(p => p.AfterS)), Signed(pair.TimeChangeS!.Value, Seconds)),
    ];

    // What was different before anything was flown.
    private static IEnumerable<PairRow> Circumstances(KeptLift a, KeptLift b, DisplayUnits units)
    {
        if (a.Family != b.Family)
            yield return new("Kind of load", a.Family ?? "not told", b.Family ?? "not told", "another kind");
        if (a.LoadKg is { } before && b.LoadKg is { } after)
            yield return new("Weight of the load", units.Mass(before), units.Mass(after), Signed(after - before, v => units.Mass(v)));
        if (a.LineM is { } line && b.LineM is { } other && line != other)
            yield return new("Line", units.Along(line), units.Along(other), Signed(other - line, units.Along));
    }

    private static IEnumerable<PairRow> MeasuresOf(SameSpotPair pair, DisplayUnits units)
    {
        foreach (MeasureChange change in pair.Differences)
            yield return Row(pair, change, units);
        if (pair.Smoothness is { } smooth)
            yield return Row(pair, smooth, units) with { Name = "Smoothness (nearer zero is smoother)" };
    }

    private static PairRow Row(SameSpotPair pair, MeasureChange change, DisplayUnits units)
    {
        string[] name = change.Name.Split(", ");
        (Banded? before, Banded? after) = name[0] switch
        {
            "swing after the stop" => (pair.Earlier.Measures!.SwingAfterStopM, pair.Later.Measures!.SwingAfterStopM),
            "swing at contact" => (pair.Earlier.Measures!.SwingContactM, pair.Later.Measures!.SwingContactM),
            _ => (null, null),
        };
        if (before is { } a && after is { } b)
            return new(Capital(name[0]).Replace("Swing", "Load off plumb", StringComparison.Ordinal), Measure.Band(a, units)!, Measure.Band(b, units)!, a.Low <= b.High && b.Low <= a.High ? "less than can be told apart" : Signed(change.Change, units.Along));
        Func<double, string> text = name switch
        {
            ["start height", _] => units.Height,
            ["entry speed", _] => units.SpeedText,
            ["sink at set-down", _] => units.Sink,
            [_, "m"] => units.Along,
            [_, string unit] => v => units.Number(v, 1) + " " + unit,
            ["corrections"] => v => DisplayUnits.Text(v, 0),
            _ => v => units.Number(v, 2),
        };
        return new(Capital(name[0]), text(change.Before), text(change.After), Signed(change.Change, text));
    }

    // A plus is written out; what rounds to nothing has no sign.
    private static string Signed(double value, Func<double, string> text) =>
        text(value) is var shown && shown.StartsWith('−') || text(Math.Abs(value)) == text(0) ? shown : "+" + shown;

    private static string Seconds(double s) => DisplayUnits.Text(s, 0) + " s";

    private static string Number(int n) => DisplayUnits.Text(n, 0);

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
