using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Simulating;

/// <summary>How often things go wrong in a drawn mission.</summary>
public enum FaultMix
{
    /// <summary>No injected fault.</summary>
    Clean,

    /// <summary>About a third of the rotations.</summary>
    Usual,

    /// <summary>About seven in ten.</summary>
    Hard,
}

/// <summary>Draws missions for calibrating and testing: line 15-60 m, legs 0.5-3 km, target −100..+300 m, load 100-2000 kg, wind 0-12 kt.</summary>
public static class ScenarioDraw
{
    private static readonly Fault[] Faults = [.. Enum.GetValues<Fault>().Where(f => f != Fault.None)];

    /// <summary>A mission with distractors: the same seed gives the same mission.</summary>
    /// <param name="seed">Which mission.</param>
    /// <param name="rotations">Number of rotations.</param>
    /// <param name="mix">How often a fault is put in.</param>
    public static DayScenario Random(ulong seed, int rotations = 5, FaultMix mix = FaultMix.Usual)
    {
        SimulationRandom random = new(seed, "mission");
        double leg = random.Between(500, 3000), course = random.Between(0, 2 * Math.PI);
        double up = Math.Clamp(random.Between(-100, 300), -0.07 * leg, 0.22 * leg);
        double aircraft = random.Between(1200, 3000), baseLoad = Math.Clamp(aircraft * random.Between(0.12, 0.65), 100, 2000);
        double line = Math.Round(random.Between(15, 60), 1);
        double wind = random.Between(0, 12) * 0.514444, density = random.Between(0.95, 1.2);
        Enu target = new(leg * Math.Sin(course), leg * Math.Cos(course), up);
        double side = random.Between(0, 2 * Math.PI), apart = random.Between(18, 32);
        Enu? landing = random.Chance(0.6) ? new Enu(apart * Math.Sin(side), apart * Math.Cos(side), 0) : null;
        return new()
        {
            Name = FormattableString.Invariant($"mission {seed}"),
            LatitudeDeg = random.Between(-60, 68),
            LongitudeDeg = random.Between(-170, 170),
            AltitudeM = random.Between(0, 2200),
            TargetEnu = target,
            BaseEnu = landing,
            LineM = line,
            AircraftKg = aircraft,
            AirDensityKgM3 = density,
            WindFromDeg = random.Between(0, 360),
            WindMs = wind,
            GustMs = wind * random.Between(0.05, 0.25),
            Pilot = Style(random, leg, line),
            LooksAtSiteFirst = random.Chance(0.4),
            Rotations = Rotations(random, rotations, mix, baseLoad, landing is not null),
        };
    }

    /// <summary>A pilot with his own habits.</summary>
    private static PilotStyle Style(SimulationRandom random, double legM, double lineM)
    {
        double speed = Math.Min(random.Between(13, 23), Math.Sqrt(0.4 * legM));
        return new()
        {
            EntrySpeedMs = speed,
            EmptySpeedMs = random.Between(20, 32),
            PeakDecelMs2 = random.Between(0.8, 1.25),
            Shape = (DecelerationShape)random.Whole(0, 2),
            SofteningS = random.Between(0.35, 0.8) * 2 * Math.PI * Math.Sqrt(lineM / 9.81),
            GlideDeg = random.Between(6, 13),
            StartDistanceM = Math.Min(random.Between(180, 500), 0.55 * legM),
            GlideBend = random.Between(0.97, 1.12),
            CruiseSlope = random.Between(0, 0.05),
            CarryHeightM = random.Between(2.1, 4),
            PlacingSinkMs = random.Between(0.35, 0.72),
            SwingDamping = random.Between(0.14, 0.34),
            AcceptedSwingM = random.Between(0.7, 1.1) + 0.02 * lineM,
            WanderM = random.Between(0.3, 0.9),
            ControlActivityMs2 = random.Between(0.04, 0.14),
            StopScatterM = random.Between(0.4, 1.4),
            Scatter = random.Between(0.03, 0.09),
            Pace = random.Between(0.6, 1.5),
            Yielding = random.Between(0.03, 0.12),
        };
    }

    private static PlannedRotation[] Rotations(SimulationRandom random, int count, FaultMix mix, double loadKg, bool canRefuel)
    {
        double share = mix switch { FaultMix.Clean => 0, FaultMix.Usual => 0.35, _ => 0.7 };
        double density = random.Between(300, 2000); // kg/m³ of the load's outline
        PlannedRotation[] drawn = new PlannedRotation[count];
        for (int i = 0; i < count; i++)
        {
            double mass = Math.Max(100, loadKg * (1 + 0.03 * random.Normal()));
            double area = 1.1 * Math.Pow(mass / density, 2.0 / 3) * random.Between(0.9, 1.3);
            Fault fault = random.Chance(share) ? Faults[random.Whole(0, Faults.Length - 1)] : Fault.None;
            double wait = i > 0 && random.Chance(0.12) ? random.Between(15, 70) : 0;
            bool fuel = canRefuel && i > 0 && random.Chance(0.12);
            drawn[i] = new(mass, area, 0, fault) { WaitBeforeS = wait, FuelBefore = fuel, Severity = random.NextUnit() };
        }
        return drawn;
    }
}
