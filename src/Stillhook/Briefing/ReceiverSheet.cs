using Stillhook.Planning;
using Stillhook.Reporting.Printing;

namespace Stillhook.Briefing;

/// <summary>What the people at one delivery site read: where to stand, where to go, what comes in which order. No figure that they can't use.</summary>
public sealed record ReceiverSheet
{
    /// <summary>Delivery site.</summary>
    public required string Site { get; init; }

    /// <summary>Loads in the order in which they come here.</summary>
    public required IReadOnlyList<ReceiverRow> Loads { get; init; }

    /// <summary>Who stands where, as entered.</summary>
    public required IReadOnlyList<StandingSpot> People { get; init; }

    /// <summary>Distance from the spot to keep until the load has touched, m, rounded up; null when it was not worked out.</summary>
    public double? StandOffM { get; init; }

    /// <summary>True when <see cref="StandOffM"/> is a default that no operator set.</summary>
    public bool StandOffIsDefault { get; init; }

    /// <summary>True bearing from the spot of the side kept clear for the crew, degrees; null when not entered.</summary>
    public double? EscapeSideDeg { get; init; }

    /// <summary>Ways in that may be flown, the planned one first.</summary>
    public required IReadOnlyList<ReceiverWay> Ways { get; init; }

    /// <summary>Who or what stands where the aircraft goes when it rejects, or where a load goes that comes too far.</summary>
    public IReadOnlyList<UnderAWay> UnderAWay { get; init; } = [];

    /// <summary>The site from above, north up.</summary>
    public required PrintedPicture Sketch { get; init; }
}

/// <summary>A load as the receiver needs it.</summary>
/// <param name="Turn">Place among the loads of this site, from 1.</param>
/// <param name="Number">Number on the load.</param>
/// <param name="Name">What it is.</param>
/// <param name="MassKg">Mass as entered, kg.</param>
/// <param name="HowKnown">How it is known.</param>
/// <param name="Note">Which way round it is set down, and whatever else must be known; null when nothing was entered.</param>
/// <param name="CrewNeeded">People needed; null when not entered.</param>
/// <param name="Proving">First of its kind.</param>
public sealed record ReceiverRow(int Turn, string Number, string? Name, double MassKg, MassKnownBy HowKnown, string? Note, int? CrewNeeded, bool Proving);

/// <summary>Somebody's place.</summary>
/// <param name="Label">Number in the sketch.</param>
/// <param name="Name">Who.</param>
/// <param name="DistanceM">From the spot, m.</param>
/// <param name="BearingDeg">True bearing from the spot, degrees.</param>
/// <param name="TooNear">Nearer than is to be kept until the load has touched.</param>
public sealed record StandingSpot(string Label, string Name, double DistanceM, double BearingDeg, bool TooNear);

/// <summary>A way in as it is seen from the ground.</summary>
/// <param name="Reason">Why it may be flown.</param>
/// <param name="FromDeg">Where the aircraft comes from, true bearing seen from the spot, degrees.</param>
/// <param name="OutDeg">Where it goes when it rejects, true course, degrees; null when not judged.</param>
/// <param name="WindFromDeg">Where the wind of this way comes from, degrees; null when not given.</param>
public sealed record ReceiverWay(ApproachReason Reason, double FromDeg, double? OutDeg, double? WindFromDeg);

/// <summary>A place on the ground that lies under a way of the load.</summary>
/// <param name="Person">Whose place; null for the escape side.</param>
/// <param name="Way">The way in.</param>
/// <param name="WhenItRejects">True when it lies under the way out; false when it lies straight on beyond the spot.</param>
public sealed record UnderAWay(StandingSpot? Person, ReceiverWay Way, bool WhenItRejects);
