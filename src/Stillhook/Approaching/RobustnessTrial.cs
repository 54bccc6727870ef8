using Stillhook.Physics.Load;
using Stillhook.Simulating;

namespace Stillhook.Approaching;

/// <summary>Flies a path thousands of times with drawn line, load, wind, timing and hand, and says how it comes out.</summary>
public sealed class RobustnessTrial
{
    /// <summary>Step of the simulated flights, s.</summary>
    public const double StepS = 0.1;

    /// <summary>Departure from a gate that counts as broken: 20 ft of height, 5 kt of speed. The instruments' steps.</summary>
    public const double HeightToleranceM = 20 * 0.3048, SpeedToleranceMs = 5 * 1852.0 / 3600;

    private const int PlacesShown = 1000, LeastFlights = 20;

    private readonly ApproachSituation s;
    private readonly FlightSpread spread;

    /// <summary>Trials in a situation.</summary>
    public RobustnessTrial(ApproachSituation situation, FlightSpread? spread = null) => (s, this.spread) = (situation, spread ?? new());

    /// <summary>The outcome of a number of flights.</summary>
    /// <param name="way">The way in.</param>
    /// <param name="gateDistancesM">Hook's distances to go at which gates are judged, m.</param>
    /// <param name="flights">How many; never fewer than 20, of which no share could be told.</param>
    /// <param name="seed">Same seed, same flights.</param>
    public Robustness Fly(WayIn way, IReadOnlyList<double> gateDistancesM, int flights, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(way);
        ArgumentNullException.ThrowIfNull(gateDistancesM);
        LoadPath path = LoadPath.Of(way.Path.Shape, way.Path.Hanging, s.SinkLimit, StepS);
        BatchApproach plan = Columns(path);
        int[] gates = [.. gateDistancesM.Select(d => SampleAt(path, d))];
        BatchDraws draws = Draws(way, Math.Max(LeastFlights, flights), seed);
        BatchOutcome o = ApproachBatches.Fly(plan, [Late(path, plan), Faster(path, plan), Higher(path, plan)], draws, gates);
        return Summed(path, gates, draws, o);
    }

    /// <summary>First sample from the start mark on at which the hook is within a distance of the spot.</summary>
    public static int SampleAt(LoadPath path, double distanceM)
    {
        ArgumentNullException.ThrowIfNull(path);
        for (int i = path.StartIndex; i < path.Count; i++)
            if (-path.Hook[i].East <= distanceM)
                return i;
        return path.StopIndex;
    }

    private static BatchApproach Columns(LoadPath path)
    {
        int n = path.Count;
        BatchApproach plan = new(path.StepS, new double[n], new double[n], new double[n], new double[n], new double[n], new double[n]);
        for (int i = 0; i < n; i++)
        {
            (plan.AlongM[i], plan.UpM[i]) = (path.Hook[i].East, path.Hook[i].Up);
            (plan.AlongMs[i], plan.UpMs[i]) = (path.HookVelocity(i).East, path.HookVelocity(i).Up);
            (plan.AlongMs2[i], plan.UpMs2[i]) = (path.HookAcceleration(i).East, path.HookAcceleration(i).Up);
        }
        return plan;
    }

    /// <summary>A slow-down begun a second late and made up by eye: first order in the delay δ, s(t; δ) = s₁ + V₀δ + k·S((t − t₁ − δ)/k), k = 1 − g·V₀δ/D.</summary>
    private BatchMode Late(LoadPath path, BatchApproach plan) => Hastened(path, plan, (u, way, v, a, j, v0, d) =>
    {
        double c = spread.EyeGain * v0 / d;
        return (v0 - v - c * (way - v * u), -a * (1 - c * u), -j * (1 - c * u) + c * a);
    }, (_, _) => (0, 0));

    /// <summary>One m/s more brought in and made up by eye: s(t; Δ) = Δt₁ + (1 + Δ/V₀)·k·S(u/k).</summary>
    private BatchMode Faster(LoadPath path, BatchApproach plan)
    {
        double before = (path.Shape.StartM - path.Shape.SlowDownM) / path.Shape.EntryMs;
        return Hastened(path, plan, (u, way, v, a, j, v0, d) =>
        {
            double c = spread.EyeGain * (before + d / v0) / d;
            return (before + way / v0 - c * (way - u * v), v / v0 + c * u * a, a / v0 + c * (a + u * j));
        }, (t, _) => (t, 1));
    }

    private delegate (double Along, double Speed, double Acceleration) Ramp(double sinceS, double wayM, double speedMs, double accelerationMs2, double jerkMs3, double entryMs, double slowDownM);

    private static BatchMode Hastened(LoadPath path, BatchApproach plan, Ramp inRamp, Func<double, double, (double Along, double Speed)> before)
    {
        int n = path.Count;
        BatchMode mode = new(new double[n], new double[n], new double[n], new double[n], new double[n], new double[n]);
        double v0 = path.Shape.EntryMs, d = path.Shape.SlowDownM, begin = (path.Shape.StartM - d) / v0;
        int first = Math.Clamp((int)((begin + LoadPath.LeadS) / path.StepS), 1, n - 2);
        double at = plan.AlongM[first];
        for (int i = 0; i < n; i++)
        {
            double t = path.TimeS(i), u = t - path.TimeS(first);
            if (u <= 0)
            {
                (mode.AlongM[i], mode.AlongMs[i]) = before(t, v0);
                continue;
            }
            double jerk = i + 1 < n ? (plan.AlongMs2[i + 1] - plan.AlongMs2[i - 1]) / (2 * path.StepS) : 0;
            (mode.AlongM[i], mode.AlongMs[i], mode.AlongMs2[i]) = inRamp(u, plan.AlongM[i] - at, plan.AlongMs[i], plan.AlongMs2[i], jerk, v0, d);
        }
        return mode;
    }

    /// <summary>A metre higher at the start mark, taken out along the glide.</summary>
    private static BatchMode Higher(LoadPath path, BatchApproach plan)
    {
        int n = path.Count;
        BatchMode mode = new(new double[n], new double[n], new double[n], new double[n], new double[n], new double[n]);
        double over = plan.UpM[path.StopIndex], height = plan.UpM[0] - over;
        for (int i = 0; i < path.StopIndex; i++)
            (mode.UpM[i], mode.UpMs[i], mode.UpMs2[i]) = ((plan.UpM[i] - over) / height, plan.UpMs[i] / height, plan.UpMs2[i] / height);
        return mode;
    }

    private BatchDraws Draws(WayIn way, int flights, ulong seed)
    {
        SimulationRandom random = new(seed, "robustness");
        double k = FlatMap.Of(s.Load).DragPerMassPerM, length = FlatMap.Of(s.Load).LengthM;
        CourseFrame course = new(way.CourseDeg);
        double[] Column() => new double[flights];
        BatchDraws draws = new()
        {
            Flights = flights,
            LengthM = Column(),
            DragPerMassPerM = Column(),
            WindAlongMs = Column(),
            WindAcrossMs = Column(),
            GustMs = Column(),
            HandSlowM = Column(),
            HandFastM = Column(),
            Modes = [Column(), Column(), Column()],
            Seed = seed,
        };
        for (int i = 0; i < flights; i++)
        {
            draws.LengthM[i] = Math.Max(0.5 * length, length * (1 + spread.LineShare * random.Normal()) + 0.15 * random.Normal());
            draws.DragPerMassPerM[i] = k * Math.Max(0.2, 1 + spread.DragShare * random.Normal()) / Math.Max(0.5, 1 + spread.MassShare * random.Normal());
            (draws.WindAlongMs[i], draws.WindAcrossMs[i]) = Wind(course, random);
            (draws.GustMs[i], draws.HandSlowM[i], draws.HandFastM[i]) = (s.GustMs / 2, spread.HandSlowM, spread.HandFastM); // a gust stands about two of its spreads over the mean
            (draws.Modes[0][i], draws.Modes[1][i], draws.Modes[2][i]) = (spread.TimingS * random.Normal(), spread.EntryMs * random.Normal(), spread.StartHeightM * random.Normal());
        }
        return draws;
    }

    private (double Along, double Right) Wind(CourseFrame course, SimulationRandom random)
    {
        if (s.Wind is not { } wind)
            return (s.Rules.GustSpreadMs.Value * random.Normal(), s.Rules.GustSpreadMs.Value * random.Normal());
        double from = wind.FromDeg + spread.WindDeg * random.Normal(), speed = Math.Max(0, wind.Speed.MetersPerSecond + spread.WindMs * random.Normal());
        Physics.Earth.Enu air = course.FromEnu(new Debriefing.Wind(from, UnitsNet.Speed.FromMetersPerSecond(speed)).VelocityEnu);
        return (air.East, air.North);
    }

    private Robustness Summed(LoadPath path, int[] gates, BatchDraws draws, BatchOutcome o)
    {
        int n = draws.Flights;
        double[] miss = new double[n], rank = new double[n];
        for (int i = 0; i < n; i++)
        {
            miss[i] = Math.Sqrt(o.LoadAlongM[i] * o.LoadAlongM[i] + o.LoadAcrossM[i] * o.LoadAcrossM[i]);
            rank[i] = miss[i] + o.SwingM[i];
        }
        Array.Sort(rank);
        return new(n, Percentiles(miss), Spread(o.LoadAlongM), Spread(o.LoadAcrossM), Percentiles(o.SwingM), rank.Skip(n - Math.Max(1, n / 10)).Average(),
            [.. gates.Select((step, g) => Broken(path, step, g, o))], Causes(draws, o), o.LeastTensionRatio.Count(t => t <= 0) / (double)n,
            [.. Enumerable.Range(0, Math.Min(n, PlacesShown)).Select(i => (o.LoadAlongM[i], o.LoadAcrossM[i]))]);
    }

    /// <summary>Share of the flights that pass a gate more than 20 ft or 5 kt off, or sinking over the limit.</summary>
    private double Broken(LoadPath path, int step, int gate, BatchOutcome o)
    {
        double speed = Math.Max(0.1, path.HookVelocity(step).East), sink = path.SinkMs(step), slope = -sink / speed, slowing = path.HookAcceleration(step).East / speed;
        double limit = s.SinkLimit.At(path.Hanging.AirspeedMs(path.SpeedMs[step]));
        int broken = 0;
        for (int i = 0; i < o.LoadAlongM.Length; i++)
        {
            // The errors are at the planned time; at the planned place the path's own slopes are taken off.
            double past = o.GateAlongErrorM[gate][i];
            bool high = Math.Abs(o.GateUpErrorM[gate][i] - slope * past) > HeightToleranceM, fast = Math.Abs(o.GateAlongSpeedErrorMs[gate][i] - slowing * past) > SpeedToleranceMs;
            if (high || fast || sink - o.GateUpSpeedErrorMs[gate][i] > limit)
                broken++;
        }
        return broken / (double)o.LoadAlongM.Length;
    }

    private static List<(string Cause, double Share)> Causes(BatchDraws draws, BatchOutcome o)
    {
        double total = Spread(o.LoadAlongM).Variance + Spread(o.LoadAcrossM).Variance;
        List<(string Cause, double Share)> causes =
        [
            ("timing of the slow-down", Explained(draws.Modes[0], o) / total), ("speed brought in", Explained(draws.Modes[1], o) / total), ("line length", Explained(draws.LengthM, o) / total),
            ("drag and mass of the load", Explained(draws.DragPerMassPerM, o) / total), ("wind", (Explained(draws.WindAlongMs, o) + Explained(draws.WindAcrossMs, o)) / total),
        ];
        causes.Add(("the pilot's hand and gusts", Math.Max(0, 1 - causes.Sum(c => c.Share))));
        return [.. causes.OrderByDescending(c => c.Share)];
    }

    /// <summary>Variance of the place that goes in proportion with a draw: cov²/var, along and across.</summary>
    private static double Explained(double[] draw, BatchOutcome o)
    {
        double variance = Spread(draw).Variance;
        return variance < 1e-12 ? 0 : (Square(Covariance(draw, o.LoadAlongM)) + Square(Covariance(draw, o.LoadAcrossM))) / variance;
    }

    private static double Square(double x) => x * x;

    private static double Covariance(double[] a, double[] b)
    {
        double meanA = a.Average(), meanB = b.Average(), sum = 0;
        for (int i = 0; i < a.Length; i++)
            sum += (a[i] - meanA) * (b[i] - meanB);
        return sum / a.Length;
    }

    private static MeanSigma Spread(double[] values)
    {
        double mean = values.Average();
        return new(mean, Math.Sqrt(Covariance(values, values)));
    }

    private static Half95 Percentiles(double[] values)
    {
        double[] sorted = [.. values.Order()];
        return new(sorted[sorted.Length / 2], sorted[(int)(0.95 * (sorted.Length - 1))]);
    }
}
