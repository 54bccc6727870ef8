using Stillhook.Debriefing;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>The approach planned for one wind.</summary>
/// <param name="Wind">The wind.</param>
/// <param name="Plan">The plan; it may be refused.</param>
public sealed record ApproachInWind(Wind Wind, ApproachPlan Plan);

/// <summary>Alternatives planned beforehand: the same approach for winds from all round, so that nobody has to invent one in the air.</summary>
public static class ApproachesInWinds
{
    private const int Directions = 8, FlightsEach = 500;

    /// <summary>The approach for a wind speed from each of eight directions.</summary>
    /// <param name="request">The job.</param>
    /// <param name="lift">Its lift plan; null when none could be made. Wind does not enter it.</param>
    /// <param name="options">Which load and site.</param>
    /// <param name="speed">Wind speed.</param>
    public static IReadOnlyList<ApproachInWind> Plan(LiftRequest request, LiftPlan? lift, ApproachOptions options, Speed speed) =>
    [
        .. Enumerable.Range(0, Directions).Select(i => new Wind(i * 360.0 / Directions, speed))
            .Select(wind => new ApproachInWind(wind, ApproachPlanner.Plan(new ApproachShift(Wind: wind).Applied(request), lift, options with { Flights = FlightsEach, Shift = options.Shift with { Wind = wind } }))),
    ];
}
