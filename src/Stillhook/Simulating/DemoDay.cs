using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Simulating;

/// <summary>The demonstration day: stone and timber for a path repair above a mountain hut. Invented, not for flight: no such hut, path, aircraft or work site.</summary>
/// <remarks>
/// The day in order: a look at the site with the empty line; the first approaches high and fast, one of them past the target with a swing and one
/// given up; then a settled stretch with a wide line-up, a wait on the ground crew and a late power; a landing for fuel, after which the first
/// load comes in fast; a quiet end. Stone and timber follow each other as in the plan of the example job.
/// </remarks>
public static class DemoDay
{
    /// <summary>Seed the demonstration is flown with.</summary>
    public const ulong Seed = 20250916;

    /// <summary>The scenario.</summary>
    public static DayScenario Scenario { get; } = new()
    {
        Name = "Path repair above the Grauschrofen hut (invented, not for flight)",
        PickupName = "Alp road turning place (invented)",
        TargetName = "Path bend above the hut (invented)",
        StartTimeS = 1_758_004_200, // 2025-09-16T06:30:00Z
        LatitudeDeg = 46.8713,
        LongitudeDeg = 10.1894,
        AltitudeM = 1640,
        TargetEnu = new(640, 760, 185),
        BaseEnu = new Enu(-19, -16, 0),
        LineM = 30,
        RiggingM = 2,
        AircraftKg = 1520,
        AirDensityKgM3 = 1.02,
        WindFromDeg = 250,
        WindMs = 2.8,
        GustMs = 0.4,
        LooksAtSiteFirst = true,
        Pilot = new()
        {
            EntrySpeedMs = 17,
            EmptySpeedMs = 25,
            PeakDecelMs2 = 1.02,
            Shape = DecelerationShape.Even,
            SofteningS = 5.5,
            GlideDeg = 9,
            StartDistanceM = 360,
            CruiseSlope = -0.02,
            CarryHeightM = 2.5,
            PlacingSinkMs = 0.5,
            SwingDamping = 0.22,
            AcceptedSwingM = 1.2,
            WanderM = 0.45,
            ControlActivityMs2 = 0.07,
            StopScatterM = 1,
            Scatter = 0.06,
            Yielding = 0.06,
        },
        Rotations =
        [
            Stone(720, Fault.HighStart, 0.7, 1.4), Stone(735, Fault.FastEntry, 0.8, 1.4), Stone(728, Fault.HighStart, 0.3, 1.3),
            Stone(742, Fault.Overshoot, 0.6, 1.3), Stone(731, Fault.None, 0, 1.2), Timber(465, Fault.GoAround, 0.5, 1.2),
            Stone(725, Fault.None, 0, 1.1), Timber(472, Fault.AbruptSlowdown, 0.4, 1.1), Stone(738, Fault.None, 0, 1), Stone(744, Fault.LateralOffset, 0.4, 1),
            Stone(729, Fault.None, 0, 0.9), Stone(751, Fault.LateSink, 0.4, 0.9) with { WaitBeforeS = 35 }, Stone(726, Fault.None, 0, 0.8),
            Stone(736, Fault.HoverWait, 0.3, 0.8), Stone(733, Fault.FastEntry, 0.4, 0.9) with { FuelBefore = true }, Timber(490, Fault.None, 0, 0.8),
            Stone(740, Fault.None, 0, 0.7), Stone(747, Fault.LateSink, 0.1, 0.7), Stone(730, Fault.None, 0, 0.6), Timber(483, Fault.None, 0, 0.6),
            Timber(468, Fault.None, 0, 0.5), Timber(480, Fault.None, 0, 0.5), Stone(741, Fault.None, 0, 0.5), Timber(476, Fault.None, 0, 0.5),
        ],
    };

    /// <summary>A good recorder: 5 Hz, 1 m, with speed.</summary>
    public static RecorderModel RecorderModel { get; } = RecorderModel.WithError(1);

    /// <summary>The day flown.</summary>
    public static SimulatedDay Fly() => DaySimulator.Fly(Scenario, Seed);

    private static PlannedRotation Stone(double kg, Fault fault, double severity, double unsettled) =>
        new(kg, 1.1, 0.8, fault) { Severity = severity, Unsettled = unsettled };

    private static PlannedRotation Timber(double kg, Fault fault, double severity, double unsettled) =>
        new(kg, 2.2, 0.8, fault) { Severity = severity, Unsettled = unsettled };
}
