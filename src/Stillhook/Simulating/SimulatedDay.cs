using Stillhook.Physics.Earth;

namespace Stillhook.Simulating;

/// <summary>A flown day: the true motion of hook and load, and each rotation's truth.</summary>
public sealed record SimulatedDay
{
    /// <summary>Step between stored samples, s. The motion itself is integrated at 0.02 s.</summary>
    public const double StepS = 0.1;

    /// <summary>What was flown.</summary>
    public required DayScenario Scenario { get; init; }

    /// <summary>Seed it was flown with.</summary>
    public required ulong Seed { get; init; }

    /// <summary>True motion, one sample a step from <see cref="DayScenario.StartTimeS"/> on.</summary>
    public required IReadOnlyList<MotionSample> Motion { get; init; }

    /// <summary>What truly happened, rotation by rotation.</summary>
    public required IReadOnlyList<TruthRotation> Rotations { get; init; }

    /// <summary>Time of a sample, s since 1970 UTC.</summary>
    public double TimeS(int sample) => Scenario.StartTimeS + sample * StepS;

    /// <summary>Latitude, longitude (degrees) and altitude (m) of a point of the scenario's level frame: heights count from the level surface, not from a tangent plane.</summary>
    public (double LatitudeDeg, double LongitudeDeg, double AltitudeM) ToGeodetic(Enu point) => new ScenarioFrame(Scenario).ToGeodetic(point);
}

/// <summary>The scenario's frame on the Earth.</summary>
internal readonly struct ScenarioFrame(DayScenario scenario)
{
    private readonly LocalFrame frame = new(scenario.LatitudeDeg, scenario.LongitudeDeg, scenario.AltitudeM);
    private readonly double altitudeM = scenario.AltitudeM;

    /// <summary>Geodetic position; altitude follows the level surface.</summary>
    public (double LatitudeDeg, double LongitudeDeg, double AltitudeM) ToGeodetic(Enu point)
    {
        (double lat, double lon, _) = frame.ToGeodetic(new(point.East, point.North, 0));
        return (lat, lon, altitudeM + point.Up);
    }
}

/// <summary>Hook and load at one time; metres and m/s in the scenario's frame.</summary>
/// <param name="Hook">Belly hook.</param>
/// <param name="HookVelocity">Its velocity.</param>
/// <param name="HookAcceleration">Its acceleration, m/s².</param>
/// <param name="LoadFromHook">Load's middle from the hook; straight down when nothing is hooked on.</param>
/// <param name="LoadFromHookVelocity">Its rate.</param>
/// <param name="HookLoadN">Pull of the line on the hook, N, without the line's own weight.</param>
/// <param name="Hooked">A load is hooked on.</param>
/// <param name="OnGround">The load stands on the ground.</param>
public readonly record struct MotionSample(
    Enu Hook, Enu HookVelocity, Enu HookAcceleration, Enu LoadFromHook, Enu LoadFromHookVelocity, double HookLoadN, bool Hooked, bool OnGround);

/// <summary>Times of one rotation as flown (s since 1970 UTC), before anything is measured.</summary>
internal sealed record FlownRotation(
    PlannedRotation Plan, double PickupTimeS, double DeliveryTimeS, double ReleaseTimeS, Enu PickupEnu, Enu DeliveryEnu, int GoArounds);
