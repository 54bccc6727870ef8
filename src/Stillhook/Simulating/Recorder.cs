using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Simulating;

/// <summary>Turns a flown day into what a recorder would have written.</summary>
public static class Recorder
{
    /// <summary>The record. Noise depends on this seed only, never on the day's.</summary>
    public static FlightRecord Record(SimulatedDay day, RecorderModel model, ulong seed)
    {
        List<Fix> fixes = Fixes(day, model, seed);
        Spoil(fixes, model, new(seed, "spoil"));
        int n = fixes.Count;
        FlightRecord record = new()
        {
            Name = day.Scenario.Name,
            Format = "simulated",
            TimeS = Column(fixes, f => f.TimeS),
            LatitudeDeg = Column(fixes, f => f.LatitudeDeg),
            LongitudeDeg = Column(fixes, f => f.LongitudeDeg),
            AltitudeM = Column(fixes, f => f.AltitudeM),
            GroundSpeedMs = model.Speed ? Column(fixes, f => Math.Round(f.SpeedMs, 2)) : [],
            CourseDeg = model.Speed ? Column(fixes, f => Math.Round(f.CourseDeg, 1)) : [],
            ClimbMs = model.Climb ? Column(fixes, f => Math.Round(f.ClimbMs, 2)) : [],
            SegmentStarts = n > 0 ? [0] : [],
            Channels = Channels(day, model, seed),
        };
        return record;
    }

    private readonly record struct Fix(
        double TimeS, double LatitudeDeg, double LongitudeDeg, double AltitudeM, double SpeedMs, double CourseDeg, double ClimbMs);

    private static double[] Column(List<Fix> fixes, Func<Fix, double> of)
    {
        double[] column = new double[fixes.Count];
        for (int i = 0; i < column.Length; i++)
            column[i] = of(fixes[i]);
        return column;
    }

    private static List<Fix> Fixes(SimulatedDay day, RecorderModel model, ulong seed)
    {
        SimulationRandom random = new(seed, "fixes");
        double tau = double.IsNaN(model.SlowTimeS) ? random.Between(120, 400) : model.SlowTimeS;
        double step = 1 / model.RateHz, slowSigma = Math.Sqrt(model.SlowShare) * model.PositionErrorM;
        double fastSigma = Math.Sqrt(1 - model.SlowShare) * model.PositionErrorM;
        double keep = Math.Exp(-step / tau), kick = slowSigma * Math.Sqrt(1 - keep * keep);
        Enu Noise(double sigma) => new(sigma * random.Normal(), sigma * random.Normal(), 1.5 * sigma * random.Normal());
        Enu slow = Noise(slowSigma), antenna = new(0, 0, model.AntennaAboveHookM);
        ScenarioFrame frame = new(day.Scenario);
        List<Fix> fixes = new((int)(day.Motion.Count * SimulatedDay.StepS * model.RateHz) + 1);
        for (double at = 0; Math.Round(at / SimulatedDay.StepS) < day.Motion.Count; at += step)
        {
            MotionSample truth = day.Motion[(int)Math.Round(at / SimulatedDay.StepS)];
            Enu seen = truth.Hook + antenna + slow + Noise(fastSigma), velocity = truth.HookVelocity + Noise(model.VelocityErrorMs);
            (double lat, double lon, double altitude) = frame.ToGeodetic(seen);
            double course = double.RadiansToDegrees(Math.Atan2(velocity.East, velocity.North));
            fixes.Add(new(day.Scenario.StartTimeS + Math.Round(at, 3), RoundDegrees(lat, model.Rounding), RoundDegrees(lon, model.Rounding),
                Math.Round(altitude, model.Rounding switch { Rounding.Igc => 0, Rounding.FineMinutes => 1, _ => 2 }),
                velocity.Horizontal, course < 0 ? course + 360 : course, velocity.Up));
            slow = keep * slow + Noise(kick);
        }
        return fixes;
    }

    private static double RoundDegrees(double degrees, Rounding rounding) => rounding switch
    {
        Rounding.Igc => Math.Round(degrees * 60_000) / 60_000,
        Rounding.FineMinutes => Math.Round(degrees * 6_000_000) / 6_000_000,
        _ => Math.Round(degrees, 7),
    };

    /// <summary>Gaps, wild fixes, altitude steps, repeated and shuffled fixes, in that order.</summary>
    private static void Spoil(List<Fix> fixes, RecorderModel model, SimulationRandom random)
    {
        if (fixes.Count < 2)
            return;
        double hours = (fixes[^1].TimeS - fixes[0].TimeS) / 3600;
        for (int i = Drawn(random, model.GapsPerHour * hours); i > 0; i--)
        {
            double from = random.Between(fixes[0].TimeS, fixes[^1].TimeS), length = random.Between(6, 40);
            fixes.RemoveAll(f => f.TimeS > from && f.TimeS < from + length);
        }
        for (int i = Drawn(random, model.SpikesPerHour * hours); i > 0; i--)
        {
            int at = random.Whole(1, fixes.Count - 2);
            double off = random.Between(40, 400) / 111_000;
            fixes[at] = fixes[at] with { LatitudeDeg = fixes[at].LatitudeDeg + random.Sign() * off, AltitudeM = fixes[at].AltitudeM + random.Between(-60, 60) };
        }
        for (int i = Drawn(random, model.AltitudeStepsPerHour * hours); i > 0; i--)
        {
            double jump = random.Sign() * random.Between(3, 12);
            for (int at = random.Whole(1, fixes.Count - 1); at < fixes.Count; at++)
                fixes[at] = fixes[at] with { AltitudeM = fixes[at].AltitudeM + jump };
        }
        List<Fix> written = new(fixes.Count);
        foreach (Fix fix in fixes)
        {
            written.Add(fix);
            if (random.Chance(model.Repeats))
                written.Add(fix);
        }
        for (int i = 0; i + 1 < written.Count; i++)
        {
            if (random.Chance(model.Shuffles))
                (written[i], written[i + 1]) = (written[i + 1], written[i]);
        }
        fixes.Clear();
        fixes.AddRange(written);
    }

    /// <summary>A whole number whose mean is as given.</summary>
    private static int Drawn(SimulationRandom random, double mean) => (int)Math.Floor(mean + random.NextUnit());

    private static List<Channel> Channels(SimulatedDay day, RecorderModel model, ulong seed)
    {
        List<Channel> channels = [];
        int every = Math.Max(1, (int)Math.Round(1 / (model.RateHz * SimulatedDay.StepS)));
        if (model.LoadCell)
        {
            SimulationRandom random = new(seed, "load cell");
            channels.Add(Sampled(day, ChannelKind.LoadKg, every, m => random.Chance(model.LoadCellDropouts) ? double.NaN
                : Math.Round(m.HookLoadN / Gravity.Standard + model.LoadCellErrorKg * random.Normal())));
        }
        if (model.Torque)
            channels.Add(TorqueChannel(day, every, new(seed, "torque")));
        if (model.Attitude)
            channels.AddRange(AttitudeChannels(day, every, new(seed, "attitude")));
        if (model.ReleaseEvent)
            channels.Add(Sampled(day, ChannelKind.HookOpen, every, IsOpen(day)));
        return channels;
    }

    private static Channel Sampled(SimulatedDay day, ChannelKind kind, int every, Func<int, double> value)
    {
        List<double> times = [], values = [];
        for (int i = 0; i < day.Motion.Count; i += every)
        {
            double v = value(i);
            if (double.IsNaN(v))
                continue;
            times.Add(day.TimeS(i));
            values.Add(v);
        }
        return new(kind, [.. times], [.. values]);
    }

    private static Channel Sampled(SimulatedDay day, ChannelKind kind, int every, Func<MotionSample, double> value) =>
        Sampled(day, kind, every, i => value(day.Motion[i]));

    /// <summary>The hook reads open for two seconds after each release.</summary>
    private static Func<int, double> IsOpen(SimulatedDay day)
    {
        int next = 0;
        return i =>
        {
            while (next < day.Rotations.Count && day.TimeS(i) > day.Rotations[next].ReleaseTimeS + 2)
                next++;
            return next < day.Rotations.Count && day.TimeS(i) >= day.Rotations[next].ReleaseTimeS ? 1 : 0;
        };
    }

    /// <summary>Torque by momentum theory in coarse strokes: weight to the power 1.5 in the hover, less with speed, more in climb; through a 1 s lag.</summary>
    private static Channel TorqueChannel(SimulatedDay day, int every, SimulationRandom random)
    {
        double aircraft = day.Scenario.AircraftKg, lagged = double.NaN;
        double heaviest = aircraft + day.Scenario.Rotations.Max(r => r.LoadKg);
        return Sampled(day, ChannelKind.TorquePercent, every, m =>
        {
            double thrust = (aircraft + m.HookLoadN / Gravity.Standard) * (1 + m.HookAcceleration.Up / Gravity.Standard) / heaviest;
            double through = (m.HookVelocity - day.Scenario.ExactSetup().Wind!.Value.Value.VelocityEnu).Horizontal, v = through / 11;
            double induced = Math.Pow(Math.Max(0, thrust), 1.5) * Math.Sqrt(Math.Sqrt(v * v * v * v / 4 + 1) - v * v / 2);
            double power = 68 * induced + 20 * (1 + 0.0004 * through * through) + 9 * thrust * m.HookVelocity.Up / 5;
            lagged = double.IsNaN(lagged) ? power : lagged + every * SimulatedDay.StepS / (1 + every * SimulatedDay.StepS) * (power - lagged);
            return Math.Round(Math.Max(5, lagged) + 0.5 * random.Normal(), 1);
        });
    }

    /// <summary>Attitude that the hook's acceleration and the airframe's drag ask for; heading along the course, or as it was when slow.</summary>
    private static IEnumerable<Channel> AttitudeChannels(SimulatedDay day, int every, SimulationRandom random)
    {
        List<double> times = [], rolls = [], pitches = [], headings = [];
        double heading = 0;
        for (int i = 0; i < day.Motion.Count; i += every)
        {
            MotionSample m = day.Motion[i];
            if (m.HookVelocity.Horizontal > 4)
            {
                double wanted = Math.Atan2(m.HookVelocity.East, m.HookVelocity.North);
                heading += 0.3 * Math.IEEERemainder(wanted - heading, 2 * Math.PI);
            }
            (double s, double c) = Math.SinCos(heading);
            double ahead = s * m.HookAcceleration.East + c * m.HookAcceleration.North, right = c * m.HookAcceleration.East - s * m.HookAcceleration.North;
            times.Add(day.TimeS(i));
            pitches.Add(Math.Round(double.RadiansToDegrees(-Math.Atan(ahead / Gravity.Standard)) - 0.002 * m.HookVelocity.Horizontal * m.HookVelocity.Horizontal + 2 + 0.3 * random.Normal(), 1));
            rolls.Add(Math.Round(double.RadiansToDegrees(Math.Atan(right / Gravity.Standard)) - 1.5 + 0.3 * random.Normal(), 1));
            headings.Add(Math.Round((double.RadiansToDegrees(heading) % 360 + 360) % 360, 1));
        }
        double[] t = [.. times];
        return [new(ChannelKind.PitchDeg, t, [.. pitches]), new(ChannelKind.RollDeg, t, [.. rolls]), new(ChannelKind.HeadingDeg, t, [.. headings])];
    }
}
