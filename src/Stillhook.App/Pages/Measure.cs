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
        new("Delivered at", (r, _, _, c) => r.DeliveryTimeS is { } t ? c.Clock(t) + Within(r.DeliveryTimeErrorS) : null,
            "When the load touched the ground for good. From the load cell where there is one, else from the height and speed of the hook.", Heights),
        new("Start mark: height", (_, d, u, _) => d.StartHeightM is { } h ? u.Height(h) : null,
            "Height of the belly hook over the contact ground where the approach began.", ["antenna"]),
        new("Start mark: distance", (_, d, _, _) => Distance(d.StartDistanceM),
            "Horizontal distance from hook to contact point where the approach began.", []),
        new("Start mark: ground speed", (_, d, u, _) => d.EntrySpeedMs is { } v ? u.SpeedText(v) : null,
            "Ground speed averaged over 1 s where the approach began. Ground speed, not airspeed: wind is not taken off.", []),
        new("Glide", (_, d, _, _) => d.GlideDeg is { } g ? DisplayUnits.Text(g, 1) + "°" : null,
            "Slope of the inner of two straight lines fitted to height against distance.", ["antenna"]),
        new("Peak slow-down", (_, d, _, _) => d.PeakDecelMs2 is { } a ? $"{DisplayUnits.Text(a, 2)}\u00A0m/s²" + (d.PeakDecelDistanceM is { } at ? ", " + DisplayUnits.Distance(at).Replace(' ', '\u00A0') + "\u00A0out" : "") : null,
            "Largest slow-down averaged over 2 s between start mark and stop, and how far out it was.", []),
        new("Went past the spot", (_, d, _, _) => Distance(d.OvershootM),
            "Largest distance of the hook past the contact point along the approach course before contact.", []),
        new("Stopped short", (_, d, _, _) => Distance(d.StopShortM),
            "Distance short of the contact point when ground speed first stayed under 1.5 m/s near the spot; negative is past it.", []),
        new("Off to the side", (_, d, _, _) => Distance(d.LineUpErrorM),
            "Largest sideways offset from the approach course after the stop; right is positive.", []),
        new("Contact off the target", (_, d, _, _) => Distance(d.LateralMissM),
            "Contact point against the named target, right of the course positive. Needs a target from the job.", []),
        new("Stop to contact", (_, d, _, _) => Seconds(d.HoverTimeS),
            "Seconds from the stop near the spot until the load touched.", Heights),
        new("Sink in the last 1.5 m", (_, d, u, _) => d.SinkLast15Ms is { } s ? u.Sink(s) : null,
            "1.5 m divided by the time the load took for its last 1.5 m of height.", Heights),
        new("Swing, largest from 50 m out", (_, d, _, _) => Band(d.SwingShownM),
            "Largest offset of the load from where it would hang at rest, from 50 m out to contact. Steady trail and the lean of slowing down are taken off. Worked from the hook's motion; the range holds the true value nine times in ten.", Swings, SwingPage),
        new("Load off plumb at 50 m out", (_, d, _, _) => Band(d.Swing50m),
            "How far the load can reach from straight below the hook, trail included, when 50 m out was last passed.", Swings, SwingPage),
        new("Load off plumb after the stop", (_, d, _, _) => Band(d.SwingAfterStopM),
            "Largest offset of the load from straight below the hook within one swing after the stop, trail and lean included.", Swings, SwingPage),
        new("Load off plumb at contact", (_, d, _, _) => Band(d.SwingContactM),
            "How far the load could reach from straight below the hook just before it touched.", Swings, SwingPage),
        new("Tries", (r, d, _, _) => d.Tries is { } t ? t.ToString(System.Globalization.CultureInfo.InvariantCulture) + (r.GoArounds > 0 ? $", went around {r.GoArounds}×" : "") : null,
            "Set-downs tried in this rotation, the last included; approaches given up with a climb are counted apart.", []),
        new("Corrections", (_, d, _, _) => d.Corrections?.ToString(System.Globalization.CultureInfo.InvariantCulture),
            "How often the acceleration along the course changed sign beyond the dead band, start mark to contact.", []),
        new("Smoothness", (_, d, _, _) => d.Smoothness is { } s ? DisplayUnits.Text(s, 2) : null,
            "Spectral arc length of the ground speed from start mark to stop. Nearer zero is smoother; no unit. Only for comparing the same pilot's approaches to the same spot.", []),
        new("Load over people", (_, d, _, _) => Seconds(d.SecondsOverPeople),
            "Seconds with the load over a person entered in the job. Should be zero.", ["line"]),
        new("Rotation time", (_, d, _, _) => d.CycleTimeS is { } s ? UtcMinutes(s) : null,
            "Lift-off to the next lift-off.", Heights),
    ];

    /// <summary>A value with the range that holds the truth nine times in ten.</summary>
    public static string? Band(Banded? banded) => banded is { } b && double.IsFinite(b.Value)
        ? $"{DisplayUnits.Text(b.Value, 1)} m ({DisplayUnits.Text(Math.Max(0, b.Low), 1)}\u00A0to\u00A0{DisplayUnits.Text(b.High, 1)})"
        : null;

    private static string? Distance(double? metres) => metres is { } m ? DisplayUnits.Distance(m) : null;

    private static string? Seconds(double? seconds) => seconds is { } s ? DisplayUnits.Text(s, s < 10 ? 1 : 0) + " s" : null;

    private static string UtcMinutes(double seconds) => $"{(int)(seconds / 60)} min {(int)(seconds % 60):00} s";

    private static string Within(double? standardErrorS) => standardErrorS is { } e ? $" ± {DisplayUnits.Text(1.645 * e, 1)} s" : "";
}
