using Stillhook.Debriefing;
using Stillhook.Files.Pictures;

namespace Stillhook.App.Pages;

/// <summary>One line of the table of numbers: what it is called, how it is read, and why it can be said.</summary>
/// <param name="Name">What the crew calls it.</param>
/// <param name="Text">Value with unit, or null when not assessable.</param>
/// <param name="Definition">How it is worked out, in one or two sentences.</param>
/// <param name="Uses">Keys of the crew's figures that go in.</param>
/// <param name="Page">Page of the documentation.</param>
internal sealed record Measure(string Name, Func<Rotation, Delivery, DisplayUnits, SiteClock, string?> Text, string Definition, string[] Uses, string Page = "docs/method/delivery.md")
{
    private static readonly string[] Heights = ["antenna", "line", "rigging", "load-height"];
    private static readonly string[] Swings = ["line", "rigging", "load-height", "load", "drag-area", "wind", "aircraft"];
    private const string SwingPage = "docs/method/swing.md";

    /// <summary>All numbers of a delivery, in the order in which they happen.</summary>
    public static IReadOnlyList<Measure> All { get; } =
    [
        new("Delivered at", (r, _, u, c) => r.DeliveryTimeS is { } t ? c.Clock(t) + Within(r.DeliveryTimeErrorS, u) : null,
            "When the load touched the ground for good. From the load cell where there is one, else from the height and speed of the hook.", Heights),
        new("Start mark: height", (_, d, u, _) => d.StartHeightM is { } h ? u.Height(h) : null,
            "Height of the belly hook over the contact ground where the approach began.", ["antenna"]),
        new("Start mark: distance", (_, d, u, _) => Distance(d.StartDistanceM, u),
            "Horizontal distance from hook to contact point where the approach began.", []),
        new("Start mark: ground speed", (_, d, u, _) => d.EntrySpeedMs is { } v ? u.SpeedText(v) : null,
            "Ground speed averaged over 1 s where the approach began. Ground speed, not airspeed: wind is not taken off.", []),
        new("Glide", (_, d, u, _) => d.GlideDeg is { } g ? u.Number(g, 1) + "°" : null,
            "Slope of the inner of two straight lines fitted to height against distance.", ["antenna"]),
        new("Peak slow-down", (_, d, u, _) => d.PeakDecelMs2 is { } a ? $"{u.Number(a, 2)}\u00A0m/s²" + (d.PeakDecelDistanceM is { } at ? ", " + u.Along(at).Replace(' ', '\u00A0') + "\u00A0out" : "") : null,
            "Largest slow-down averaged over 2 s between start mark and stop, and how far out it was.", []),
        new("Went past the spot", (_, d, u, _) => Distance(d.OvershootM, u),
            "Largest distance of the hook past the contact point along the approach course before contact.", []),
        new("Stopped short", (_, d, u, _) => Distance(d.StopShortM, u),
            "Distance short of the contact point when ground speed first stayed under 1.5 m/s near the spot; negative is past it.", []),
        new("Off to the side", (_, d, u, _) => Distance(d.LineUpErrorM, u),
            "Largest sideways offset from the approach course after the stop; right is positive.", []),
        new("Contact off the target", (_, d, u, _) => Distance(d.LateralMissM, u),
            "Contact point against the named target, right of the course positive. Needs a target from the job.", []),
        new("Stop to contact", (_, d, u, _) => Seconds(d.HoverTimeS, u),
            "Seconds from the stop near the spot until the load touched.", Heights),
        new("Sink in the last 1.5 m", (_, d, u, _) => d.SinkLast15Ms is { } s ? u.Sink(s) : null,
            "1.5 m divided by the time the load took for its last 1.5 m of height.", Heights),
        new("Swing, largest from 50 m out", (_, d, u, _) => Band(d.SwingShownM, u),
            "Largest offset of the load from where it would hang at rest, from 50 m out to contact. Steady trail and the lean of slowing down are taken off. Worked from the hook's motion; the range holds the true value nine times in ten.", Swings, SwingPage),
        new("Load off plumb at 50 m out", (_, d, u, _) => Band(d.Swing50m, u),
            "How far the load can reach from straight below the hook, trail included, when 50 m out was last passed.", Swings, SwingPage),
        new("Load off plumb after the stop", (_, d, u, _) => Band(d.SwingAfterStopM, u),
            "Largest offset of the load from straight below the hook within one swing after the stop, trail and lean included.", Swings, SwingPage),
        new("Load off plumb at contact", (_, d, u, _) => Band(d.SwingContactM, u),
            "How far the load could reach from straight below the hook just before it touched.", Swings, SwingPage),
        new("Tries", (r, d, _, _) => d.Tries is { } t ? t.ToString(System.Globalization.CultureInfo.InvariantCulture) + (r.GoArounds > 0 ? $", went around {r.GoArounds}×" : "") : null,
            "Set-downs tried in this rotation, the last included; approaches given up with a climb are counted apart.", []),
        new("Corrections", (_, d, _, _) => d.Corrections?.ToString(System.Globalization.CultureInfo.InvariantCulture),
            "How often the acceleration along the course changed sign beyond the dead band, start mark to contact.", []),
        new("Smoothness", (_, d, u, _) => d.Smoothness is { } s ? u.Number(s, 2) : null,
            "Spectral arc length of the ground speed from start mark to stop. Nearer zero is smoother; no unit. Only for comparing the same pilot's approaches to the same spot.", []),
        new("Load over people", (_, d, u, _) => Seconds(d.SecondsOverPeople, u),
            "Seconds with the load over a person entered in the job. Should be zero.", ["line"]),
        new("Rotation time", (_, d, _, _) => d.CycleTimeS is { } s ? MinutesAndSeconds(s) : null,
            "Lift-off to the next lift-off.", Heights),
    ];

    /// <summary>A value with the range that holds the truth nine times in ten.</summary>
    public static string? Band(Banded? banded, DisplayUnits u) => banded is { } b && double.IsFinite(b.Value)
        ? $"{u.Number(b.Value, 1)} m ({u.Number(Math.Max(0, b.Low), 1)}\u00A0to\u00A0{u.Number(b.High, 1)})"
        : null;

    private static string? Distance(double? metres, DisplayUnits u) => metres is { } m ? u.Along(m) : null;

    private static string? Seconds(double? seconds, DisplayUnits u) => seconds is { } s ? u.Number(s, s < 10 ? 1 : 0) + " s" : null;

    private static string MinutesAndSeconds(double seconds) => $"{(int)(seconds / 60)} min {(int)(seconds % 60):00} s";

    private static string Within(double? standardErrorS, DisplayUnits u) => standardErrorS is { } e ? $" ± {u.Number(1.645 * e, 1)} s" : "";
}
