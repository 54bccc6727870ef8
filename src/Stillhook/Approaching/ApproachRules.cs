using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>The rules an approach is planned by, every gap filled by a stated default: careful ones, each to be set by the operator.</summary>
/// <remarks>Defaults without a source key are common practice, no source, or own choice; docs/method/load-path.md says why each.</remarks>
public sealed class ApproachRules
{
    private const double Knot = 1852.0 / 3600;
    private const double StandardGravity = 9.80665;

    /// <summary>The rules of a request.</summary>
    public ApproachRules(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        ApproachGiven a = request.Approach ?? new();
        SteepestGlideDeg = Choose(a.SteepestGlide?.Degrees, 12, "steepestGlide");
        EntrySpeedMs = Choose(a.EntrySpeed?.MetersPerSecond, 40 * Knot, "entrySpeed");
        if (request.Policy?.Advice?.HighestSpeed is { } highest && highest.MetersPerSecond < EntrySpeedMs.Value)
            EntrySpeedMs = new(highest.MetersPerSecond, InputFrom.JobFile, "policy.advice.highestSpeed");
        SlowDownMs2 = Choose(a.SlowDownLimit?.DecimalFractions * StandardGravity, 0.08 * StandardGravity, "slowDownLimit");
        TauRate = a.TauRate ?? PathShape.EvenTauRate;
        NoseUpDeg = Choose(a.NoseUpLimit?.Degrees, 12, "noseUpLimit");
        SlowSinkMs = Choose(a.SlowSinkLimit?.MetersPerSecond, 1.5, "slowSinkLimit");
        HighestSinkMs = request.Policy?.Advice?.HighestSink is { } sink ? new(sink.MetersPerSecond, InputFrom.JobFile, "policy.advice.highestSink") : new(5, InputFrom.Default, "policy.advice.highestSink");
        TouchDownSinkMs = Choose(a.TouchDownSink?.MetersPerSecond, 0.4, "touchDownSink");
        LetDownM = Choose(a.LetDown?.Meters, 2, "letDown");
        ClearanceM = a.ObstacleClearance is null && request.Policy?.Advice?.LowestLoadHeight is { } lowest
            ? new(lowest.Meters, InputFrom.JobFile, "policy.advice.lowestLoadHeight") : Choose(a.ObstacleClearance?.Meters, 5, "obstacleClearance");
        PeopleClearanceM = Choose(a.PeopleClearance?.Meters, 10, "peopleClearance");
        CrosswindMs = Choose(a.CrosswindLimit?.MetersPerSecond, 15 * Knot, "crosswindLimit");
        ReactionS = Choose(a.Reaction?.Seconds, 1.0, "reaction");
        LagS = Choose(a.EngineLag?.Seconds, 1.5, "engineLag");
        GustSpreadMs = Choose(a.GustSpread?.MetersPerSecond, 5 * Knot, "gustSpread");
        HoverReservePercent = request.Policy?.PowerMargin is { Percent: > 0 } margin ? new(margin.Percent, InputFrom.JobFile, "policy.powerMargin") : new(10, InputFrom.Default, "policy.powerMargin");
    }

    /// <summary>Steepest path, degrees: 12, the upper end of a normal approach [FAA-H-8083-21].</summary>
    public Chosen<double> SteepestGlideDeg { get; }

    /// <summary>Air speed brought to the start mark, m/s: 40 kt, the least that an air speed indicator shows well.</summary>
    public Chosen<double> EntrySpeedMs { get; }

    /// <summary>Largest slow-down of the hook, m/s²: 0.08 g.</summary>
    public Chosen<double> SlowDownMs2 { get; }

    /// <summary>Tau-dot of the slow-down; even when nobody asked for another.</summary>
    public double TauRate { get; }

    /// <summary>Most that the nose may come up against level flight, degrees: 12.</summary>
    public Chosen<double> NoseUpDeg { get; }

    /// <summary>Highest sink below 20 kt of air speed, m/s: 1.5 (300 ft/min) [FAA-H-8083-21].</summary>
    public Chosen<double> SlowSinkMs { get; }

    /// <summary>Highest sink at any speed, m/s: 5.</summary>
    public Chosen<double> HighestSinkMs { get; }

    /// <summary>Sink at which the load touches, m/s: 0.4.</summary>
    public Chosen<double> TouchDownSinkMs { get; }

    /// <summary>Height of the load when it has come to rest over the spot, m: 2.</summary>
    public Chosen<double> LetDownM { get; }

    /// <summary>Height kept between the load and what is under it, m: 5.</summary>
    public Chosen<double> ClearanceM { get; }

    /// <summary>Distance kept from people beyond the reach of a falling load, m: 10.</summary>
    public Chosen<double> PeopleClearanceM { get; }

    /// <summary>Strongest wind from the side, m/s: 15 kt.</summary>
    public Chosen<double> CrosswindMs { get; }

    /// <summary>Pilot's reaction, s: 1.0.</summary>
    public Chosen<double> ReactionS { get; }

    /// <summary>Lag of engine and rotor, s: 1.5.</summary>
    public Chosen<double> LagS { get; }

    /// <summary>Wind beyond the mean to be ready for, m/s: 5 kt.</summary>
    public Chosen<double> GustSpreadMs { get; }

    /// <summary>Power in hand over the spot under which a reject must be planned, %: 10 [NZ-135.95].</summary>
    public Chosen<double> HoverReservePercent { get; }

    private static Chosen<T> Choose<T>(T? given, T otherwise, string member)
        where T : struct => given is { } value ? new(value, InputFrom.JobFile, "approach." + member) : new(otherwise, InputFrom.Default, "approach." + member);
}
