using System.Globalization;
using Stillhook.Debriefing;

namespace Stillhook.Adjusting;

/// <summary>The words for the next load: one breath, instrument units, direction and size.</summary>
public static class NextApproachText
{
    private const double Foot = 0.3048, StandardGravity = 9.80665;

    /// <summary>One sentence that says what the last delivery showed and what to do with the next load.</summary>
    /// <param name="last">The delivery just flown.</param>
    /// <param name="next">The next approach as worked out from it and the ones before.</param>
    public static string Sentence(Delivery last, NextApproach next)
    {
        ArgumentNullException.ThrowIfNull(last);
        ArgumentNullException.ThrowIfNull(next);
        return next.ConditionsMoved ? next.Line : $"Last load {Showed(last)}. Next: {char.ToLowerInvariant(next.Line[0])}{next.Line[1..]}";
    }

    /// <summary>What a delivery showed, without a verb of praise or blame.</summary>
    internal static string Showed(Delivery d) => d.MainFault switch
    {
        Fault.Overshoot => $"went {Number(d.OvershootM, "0")} m past{Swing(d)}",
        Fault.Undershoot => $"stopped {Number(d.StopShortM, "0")} m short",
        Fault.AbruptSlowdown => $"slowed at {Number(d.PeakDecelMs2 / StandardGravity, "0.00")} g{Swing(d)}",
        Fault.FastEntry => $"came in at {Number(d.EntrySpeedMs / TradeStep.Knot, "0")} kt",
        Fault.HighStart or Fault.LowStart => $"crossed the start mark at {Number(d.StartHeightM / Foot / 10, "0")}0 ft",
        Fault.LateralOffset => d.LineUpErrorM is { } off ? $"ended {Number(Math.Abs(off), "0")} m {(off > 0 ? "right" : "left")} of the line" : "ended beside the line",
        Fault.HoverWait => $"hung {Number(d.HoverTimeS, "0")} s over the spot",
        Fault.LateSink => $"sank at {Number(d.SinkLast15Ms / TradeStep.SinkMs * 5, "0")}0 ft/min in the last 1.5 m",
        Fault.GoAround => "took a go-around",
        _ => Miss.Stop(d) is { } stop ? $"stopped within {Number(Math.Abs(stop), "0")} m{Swing(d)}" : $"is measured in part{Swing(d)}",
    };

    private static string Swing(Delivery d) => d.SwingAfterStopM is { Value: > 0.5 } s ? $" with {Number(s.Value, "0.0")} m of swing" : "";

    internal static NextApproach Compose(IReadOnlyList<Delivery> all, List<Advice> advice, List<(Knob Knob, double Change, string Limit)> stopped,
        bool moved, AdjustLimits limits, AdjustSettings settings, ApproachKnobs reference)
    {
        if (moved)
            return new("Conditions moved. Land and re-brief.", [], [], "last two deliveries far off what the ones before them showed, on the same side", true);
        Adjustment[] changes = [.. advice.Select(a => new Adjustment(a.Knob, a.Change, Say(a.Knob, a.Change, a.Evidence, all, limits, settings), Figures(a.Evidence, all, limits, settings, reference)))];
        string line = changes.Length == 0 ? "Same again." : string.Join(" ", changes.Select(c => c.Sentence));
        string[] dropped = [.. stopped.Select(s => $"{Say(s.Knob, s.Change, Evidence.Stop, all, limits, settings).TrimEnd('.')}: stopped by {s.Limit}.").Distinct()];
        string evidence = changes.Length == 0 ? Usual(all, limits, settings, reference) : string.Join("; ", changes.Select(c => c.Evidence).Distinct());
        return new(line, changes, dropped, evidence, false);
    }

    private static string Say(Knob knob, double change, Evidence why, IReadOnlyList<Delivery> all, AdjustLimits limits, AdjustSettings settings) => knob switch
    {
        Knob.StartHeight => $"Cross {settings.StartMark} {Number(Math.Abs(change) / Foot, "0")} ft {(change < 0 ? "lower" : "higher")}{Altimeter(change, all, settings)}.",
        Knob.StartDistance => $"Start down {Number(Math.Abs(change), "0")} m {(change > 0 ? "sooner" : "later")}.",
        Knob.EntrySpeed => Speed(change, all, settings),
        Knob.PowerIn => $"Have hover power coming on {Number(Math.Abs(change) / Foot, "0")} ft {(change > 0 ? "higher" : "lower")}.",
        Knob.SlowDownStart => $"Begin slowing {Number(Math.Abs(change), "0")} m {(change > 0 ? "sooner, and ease it" : "later")}.",
        Knob.LineUp when why == Evidence.People => "Clear the people from under the line before the next load.",
        Knob.LineUp => $"Line up {Number(Math.Abs(change), "0")} m further {(change > 0 ? "right" : "left")}.",
        Knob.Sink => $"Sink {Number(Math.Abs(change) / TradeStep.SinkMs * 50, "0")} ft/min less; the gate is {Number(limits.SinkGateMs / TradeStep.SinkMs * 50, "0")}.",
        Knob.Wait when change > 0 => settings.SwingPeriodS is null ? "Let one swing pass before setting down." : $"Let one swing pass, about {Number(change, "0")} s, before setting down.",
        _ => "Set down as soon as the load hangs still.",
    };

    // Airspeed is advised above 40 kt only; below that there is nothing to read, but a walk can be seen.
    private static string Speed(double change, IReadOnlyList<Delivery> all, AdjustSettings settings)
    {
        double flown = all.TakeLast(3).Select(d => d.EntrySpeedMs).OfType<double>().DefaultIfEmpty(settings.Plan?.Knobs.EntrySpeedMs ?? 0).Average();
        if (change < 0 && flown + change < TradeStep.ReadableSpeedMs)
            return "Slow to a walk by 50 m to go.";
        return $"{Number(Math.Abs(change) / TradeStep.Knot, "0")} kt {(change < 0 ? "slower" : "faster")} at {settings.StartMark}.";
    }

    // The reading was taken with the load on the ground, the hook a contact length up. Rounded up to the next 20 ft.
    private static string Altimeter(double change, IReadOnlyList<Delivery> all, AdjustSettings settings)
    {
        if (settings.Recon is not { } recon || change == 0)
            return "";
        double[] flown = [.. all.TakeLast(3).Select(d => d.StartHeightM).OfType<double>()];
        if (flown.Length == 0)
            return "";
        double height = flown.Average() + change;
        // A change that comes to the planned mark is told with that mark's reading, not with one beside it.
        if (settings.Plan?.Gates is [var start, ..] && Math.Abs(height - start.HeightAboveTargetM) < TradeStep.HeightM / 2)
            height = start.HeightAboveTargetM;
        double feet = (recon.AltimeterReading.Meters + height - settings.ContactLengthM) / Foot;
        return FormattableString.Invariant($", {Math.Ceiling(feet / 20) * 20:0} ft on QNH {recon.QnhHPa:0} read at {settings.Clock.Minute(recon.TimeS)}{(settings.Clock == SiteClock.Utc ? " UTC" : "")}");
    }

    private static string Usual(IReadOnlyList<Delivery> all, AdjustLimits limits, AdjustSettings settings, ApproachKnobs reference)
    {
        if (all.TakeLast(3).Any(d => Miss.Stop(d) is not null))
            return Figures(Evidence.Stop, all, limits, settings, reference);
        return Figures(Evidence.StartHeight, all, limits, settings, reference);
    }

    private static string Figures(Evidence evidence, IReadOnlyList<Delivery> all, AdjustLimits limits, AdjustSettings settings, ApproachKnobs reference)
    {
        string aim = settings.Plan is null ? "usual" : "plan";
        PlanGate? gate = settings.Plan?.Gates.LastOrDefault();
        return evidence switch
        {
            Evidence.StartHeight => List(all, "start heights", d => StartHeight(d, settings) / Foot, 10, "ft") + $"; {aim} {Number(Math.Round(reference.StartHeightM / Foot / 10) * 10, "0")}",
            Evidence.StartDistance => List(all, "start distances", d => d.StartDistanceM, 10, "m") + $"; {aim} {Number(reference.StartDistanceM, "0")}",
            Evidence.EntrySpeed => List(all, "entry speeds", d => d.EntrySpeedMs / TradeStep.Knot, 1, "kt") + $"; {aim} {Number(reference.EntrySpeedMs / TradeStep.Knot, "0")}",
            Evidence.Stop => List(all, "stops, past the spot", Miss.Stop, 1, "m") + "; aim 0",
            Evidence.ArrivalHeight => List(all, "heights on arrival", d => d.Gates.FirstOrDefault(g => Math.Abs(g.DistanceM - gate!.DistanceM) < 1)?.HeightAboveTargetM / Foot, 5, "ft") + $"; plan {Number(gate!.HeightAboveTargetM / Foot, "0")}",
            Evidence.PeakDecel => List(all, "largest slow-downs", d => d.PeakDecelMs2 / StandardGravity, 0.01, "g") + (settings.Plan?.PeakDecelMs2 is { } p ? $"; plan {Number(p / StandardGravity, "0.00")}" : ""),
            Evidence.LineUp => List(all, "offsets, right of the line", d => d.LineUpErrorM, 1, "m") + "; aim 0",
            Evidence.Sink => List(all, "sinks in the last 1.5 m", d => d.SinkLast15Ms / TradeStep.SinkMs * 50, 10, "ft/min"),
            Evidence.GateSink => List(all, "largest gate sinks", d => d.Gates.Count == 0 ? null : d.Gates.Max(g => g.SinkMs) / TradeStep.SinkMs * 50, 10, "ft/min") + $"; gate {Number(limits.SinkGateMs / TradeStep.SinkMs * 50, "0")}",
            Evidence.Hover => List(all, "hovers", d => d.HoverTimeS, 1, "s"),
            Evidence.SwingAtContact => List(all, "swings at contact", d => d.SwingContactM?.Value, 0.1, "m"),
            Evidence.Overshoot => List(all, "overshoots", d => d.OvershootM, 1, "m") + "; " + List(all, "swings after the stop", d => d.SwingAfterStopM?.Value, 0.1, "m"),
            Evidence.People => List(all, "seconds over people", d => d.SecondsOverPeople, 1, "s") + "; aim 0",
            _ => $"go-arounds in {all.TakeLast(3).Count(d => d.Faults.Contains(Fault.GoAround))} of the last {Math.Min(3, all.Count)}",
        };
    }

    private static double? StartHeight(Delivery d, AdjustSettings settings) =>
        (settings.Plan?.Gates is [var start, ..] ? d.Gates.FirstOrDefault(g => Math.Abs(g.DistanceM - start.DistanceM) < 1)?.HeightAboveTargetM : null) ?? d.StartHeightM;

    private static string List(IReadOnlyList<Delivery> all, string name, Func<Delivery, double?> measure, double round, string unit)
    {
        string format = round < 0.1 ? "0.00" : round < 1 ? "0.0" : "0";
        string count = Math.Min(3, all.Count) switch { 1 => "", 2 => "two ", _ => "three " };
        IEnumerable<string> values = all.TakeLast(3).Select(d => measure(d) is { } v && double.IsFinite(v) ? Number(Math.Round(v / round) * round, format) : "not measured");
        return $"last {count}{name}: {string.Join(", ", values)} {unit}";
    }

    private static string Number(double? value, string format)
    {
        if (value is not { } v || !double.IsFinite(v))
            return "some";
        string text = v.ToString(format, CultureInfo.InvariantCulture);
        return text.Trim('-', '0', '.').Length == 0 ? text.TrimStart('-') : text;
    }
}
