using UnitsNet;

namespace Stillhook.Following;

/// <summary>When the cockpit page may be lit, and how a flight is followed. The first three are the operator's.</summary>
public sealed record FollowSettings
{
    /// <summary>Least height of the belly hook over the straight line between the two sites' grounds for the page to be lit in flight. Common practice, no source; set yours.</summary>
    public Length LitAbove { get; init; } = Length.FromFeet(200);

    /// <summary>Least ground speed for the page to be lit in flight. Common practice, no source; set yours.</summary>
    public Speed LitOver { get; init; } = Speed.FromKnots(40);

    /// <summary>
    /// Whether the page may be lit in flight when neither a load cell nor a hook event tells that the hook is empty, from the motion alone. Off as
    /// shipped: a hook that came down over the spot and climbed away again may still carry its load.
    /// </summary>
    public bool LitByMotionAlone { get; init; }

    /// <summary>The newest position may be this old, s.</summary>
    public double StaleS { get; init; } = 3;

    /// <summary>How long all conditions hold before the page is lit in flight, s. It goes dark at once.</summary>
    public double HoldS { get; init; } = 3;

    /// <summary>How long the aircraft stands before the page is lit on the ground, s.</summary>
    public double StandS { get; init; } = 30;

    /// <summary>How much of the flight is kept to find rotations in, s; what is older lies on the disk.</summary>
    public double KeepS { get; init; } = 2700;

    /// <summary>How long after a delivery was first measured it is measured again with what came since, s.</summary>
    public IReadOnlyList<double> MeasureAgainAfterS { get; init; } = [5, 20, 60];
}
