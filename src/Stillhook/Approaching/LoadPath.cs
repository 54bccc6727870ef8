using Stillhook.Physics.Earth;
using Stillhook.Physics.Line;
using Stillhook.Physics.Load;
using Stillhook.Physics.Motion;

namespace Stillhook.Approaching;

/// <summary>Where the load goes on the way in, and where the hook must be for that: sampled on an even time grid from a little before the start mark to contact.</summary>
/// <remarks>
/// Frame: along the course with the spot at 0 (negative before it), right of it, up from the spot's ground; m, s. Along: <see cref="SpeedRamp"/>, or <see cref="TauRamp"/> when a tau-dot is asked for. Height: a law of
/// <see cref="HeightLaw"/> its sink setting in round the start mark, rounded off over the spot, then the touch-down sink. Hook: <see cref="FlatMap"/>, exact with drag, wind and
/// vertical acceleration. Hook speed and acceleration are central differences on the grid (fourth order; 0.05 s: under 1e-3 m/s²). docs/method/load-path.md.
/// </remarks>
public sealed class LoadPath
{
    /// <summary>Time flown before the start mark, s.</summary>
    public const double LeadS = 8;

    private const double SpotSoftM = 1.5;

    private readonly Enu[] hook, load;

    private LoadPath(PathShape shape, in HangingLoad hanging, double stepS, int count)
    {
        (Shape, Hanging, StepS) = (shape, hanging, stepS);
        SinkOnsetS = OnsetS(shape, hanging);
        (hook, load) = (new Enu[count], new Enu[count]);
        (DistanceM, SpeedMs, DecelerationMs2, LoadHeightM) = (new double[count], new double[count], new double[count], new double[count]);
    }

    /// <summary>The numbers it follows from.</summary>
    public PathShape Shape { get; }

    /// <summary>What hangs there.</summary>
    public HangingLoad Hanging { get; }

    /// <summary>Time over which the sink sets in round the start mark, s: 0.6 of the swing's period, 5 to 10 s; up to 15 s where the load trails so far that the hook would have to jerk.</summary>
    public double SinkOnsetS { get; }

    /// <summary>Step of the grid, s.</summary>
    public double StepS { get; }

    /// <summary>Samples.</summary>
    public int Count => hook.Length;

    /// <summary>Load's distance to go, m.</summary>
    public double[] DistanceM { get; }

    /// <summary>Load's ground speed, m/s.</summary>
    public double[] SpeedMs { get; }

    /// <summary>Load's loss of speed, m/s².</summary>
    public double[] DecelerationMs2 { get; }

    /// <summary>Height of the load's underside over the spot's ground, m.</summary>
    public double[] LoadHeightM { get; }

    /// <summary>Hook as (along, right, up).</summary>
    public IReadOnlyList<Enu> Hook => hook;

    /// <summary>Load's middle as (along, right, up).</summary>
    public IReadOnlyList<Enu> Load => load;

    /// <summary>Time of a sample from the start mark, s.</summary>
    public double TimeS(int i) => i * StepS - LeadS;

    /// <summary>Sample at the start mark.</summary>
    public int StartIndex => (int)Math.Round(LeadS / StepS);

    /// <summary>First sample at rest over the spot.</summary>
    public int StopIndex => Math.Min(Count - 1, (int)Math.Ceiling((Shape.StopS + LeadS) / StepS));

    /// <summary>The path of a shape.</summary>
    /// <param name="shape">Its slow-down fits between start mark and spot.</param>
    /// <param name="hanging">Load, line and wind.</param>
    /// <param name="limit">Sink limit that <see cref="HeightLaw.AllowedSink"/> follows.</param>
    /// <param name="stepS">Step of the grid.</param>
    public static LoadPath Of(PathShape shape, in HangingLoad hanging, SinkLimit limit, double stepS)
    {
        ArgumentNullException.ThrowIfNull(shape);
        ArgumentNullException.ThrowIfNull(limit);
        if (shape.SlowDownM > shape.StartM * (1 + 1e-9))
            throw new ArgumentException("The slow-down fits between start mark and spot.", nameof(shape));
        double settle = FinalOnsetS(shape), onGround = shape.StopS + (shape.LetDownM + SpotSoftM) / shape.TouchDownSinkMs + 1;
        LoadPath path = new(shape, hanging, stepS, (int)Math.Ceiling((onGround + LeadS) / stepS) + 1);
        path.Along();
        path.Height(limit, settle);
        path = path.UntilContact();
        path.MapToHook();
        return path;
    }

    /// <summary>Hook velocity at a sample, m/s.</summary>
    public Enu HookVelocity(int i) => (1 / StepS) * Derivative(hook, i);

    /// <summary>Hook acceleration at a sample, m/s².</summary>
    public Enu HookAcceleration(int i) => (1 / (StepS * StepS)) * SecondDerivative(hook, i);

    /// <summary>Sink of the hook, m/s.</summary>
    public double SinkMs(int i) => -HookVelocity(i).Up;

    /// <summary>Largest slow-down of the hook along the course, m/s².</summary>
    public double PeakHookSlowDownMs2()
    {
        double peak = 0;
        for (int i = 0; i < StopIndex; i++)
            peak = Math.Max(peak, -SecondDerivative(hook, i).East / (StepS * StepS));
        return peak;
    }

    /// <summary>Largest forward surge of the hook, m/s².</summary>
    public double PeakHookSurgeMs2()
    {
        double peak = 0;
        for (int i = 0; i < StopIndex; i++)
            peak = Math.Max(peak, SecondDerivative(hook, i).East / (StepS * StepS));
        return peak;
    }

    // A load that trails by t moves its hook by −t·z″/g; with a sink w setting in by the smooth step of T seconds that takes at most 60·t·w/(g·T³) of slow-down, kept to 0.02 g.
    private static double OnsetS(PathShape shape, in HangingLoad hanging)
    {
        const double shareOfG = 0.02;
        double trailM = Math.Abs(FlatMap.Of(hanging.Load).HookFromLoad(default, new Enu(shape.EntryMs, 0, 0) - hanging.Wind).East), sinkMs = shape.EntryMs * shape.StartHeightM / shape.StartM;
        double jerk = Math.Cbrt(60 * trailM * Math.Max(0, sinkMs) / (shareOfG * Gravity.Standard * Gravity.Standard));
        return Math.Clamp(Math.Max(0.6 * Swing.PeriodS(hanging.Load.LengthM), jerk), 5, jerk > 10 ? 15 : 10);
    }

    private static double FinalOnsetS(PathShape shape) => Math.Min(4, (shape.BoxS + shape.SoftS) / 3);

    private void Along()
    {
        StopProfile stop = Shape.Stop;
        double begin = (Shape.StartM - Shape.SlowDownM) / Shape.EntryMs;
        for (int i = 0; i < Count; i++)
        {
            (double way, double speed, double rate) = stop.At(TimeS(i) - begin);
            DistanceM[i] = Shape.SlowDownM - Shape.EntryMs * way;
            SpeedMs[i] = Shape.EntryMs * speed;
            DecelerationMs2[i] = -Shape.EntryMs * rate;
        }
    }

    private void Height(SinkLimit limit, double settleS)
    {
        double sink = Shape.TouchDownSinkMs, over = Shape.LetDownM + sink * settleS / 2;
        double[] law = Shape.Law == HeightLaw.Glide ? Glide(over) : Sinking(limit, over);
        for (int i = 0; i < Count; i++)
            LoadHeightM[i] = law[i] - sink * settleS * SmoothIntegral((TimeS(i) - Shape.StopS) / settleS + 1);
    }

    private double[] Glide(double overM)
    {
        double[] fallen = Fallen(i => SpeedMs[i] * Shape.Bend * Shape.StartHeightM / Shape.StartM * Math.Pow(Math.Max(0, DistanceM[i] / Shape.StartM), Shape.Bend - 1));
        return [.. fallen.Select(f => Upper(Shape.StartHeightM - f, overM, SpotSoftM))];
    }

    private double[] Sinking(SinkLimit limit, double overM)
    {
        double[] fallen = Fallen(i => SmoothLimit(limit, Hanging.AirspeedMs(SpeedMs[i])) * (1 - Math.Exp(-SpeedMs[i] / 2)));
        double scale = (Shape.StartHeightM - overM) / fallen[^1];
        return [.. fallen.Select(f => Shape.StartHeightM - scale * f)];
    }

    /// <summary>Height given up by a sink that sets in round the start mark, m.</summary>
    private double[] Fallen(Func<int, double> sinkMs)
    {
        double[] fallen = new double[Count];
        double last = 0, onset = SinkOnsetS;
        for (int i = 1; i < Count; i++)
        {
            double rate = Smooth(TimeS(i) / onset + 0.5) * sinkMs(i);
            fallen[i] = fallen[i - 1] + (rate + last) / 2 * StepS;
            last = rate;
        }
        return fallen;
    }

    // Stays under the limit between its corners at 10 and 20 m/s and has no kink at either: a smooth step is nowhere above 1.2 times its own argument.
    private static double SmoothLimit(SinkLimit limit, double airspeedMs)
    {
        const double slowMs = 10, fastMs = 22;
        double slow = limit.At(0);
        return slow + Smooth((airspeedMs - slowMs) / (fastMs - slowMs)) * (Math.Max(slow, limit.At(fastMs)) - slow);
    }

    private LoadPath UntilContact()
    {
        int last = Count - 1;
        while (last > 0 && LoadHeightM[last - 1] < 0)
            last--;
        LoadPath cut = new(Shape, Hanging, StepS, last + 1);
        foreach ((double[] from, double[] to) in new[] { (DistanceM, cut.DistanceM), (SpeedMs, cut.SpeedMs), (DecelerationMs2, cut.DecelerationMs2), (LoadHeightM, cut.LoadHeightM) })
            Array.Copy(from, to, last + 1);
        return cut;
    }

    private void MapToHook()
    {
        FlatMap map = FlatMap.Of(Hanging.Load);
        Enu wind = Hanging.Wind;
        for (int i = 0; i < Count; i++)
        {
            load[i] = new(-DistanceM[i], 0, LoadHeightM[i] + Hanging.LoadHeightM / 2);
            Enu velocity = new(SpeedMs[i], 0, Derivative(LoadHeightM, i) / StepS);
            Enu acceleration = new(-DecelerationMs2[i], 0, SecondDerivative(LoadHeightM, i) / (StepS * StepS));
            Enu offset = map.HookFromLoad(acceleration, velocity - wind);
            hook[i] = load[i] + (Hanging.Load.LengthM / map.LengthM) * offset;
        }
    }

    private static double Upper(double a, double b, double softM) => (a + b + Math.Sqrt((a - b) * (a - b) + softM * softM)) / 2;

    private static double Smooth(double x) => x <= 0 ? 0 : x >= 1 ? 1 : x * x * x * (10 + x * (-15 + 6 * x));

    private static double SmoothIntegral(double x) => x <= 0 ? 0 : x >= 1 ? x - 0.5 : x * x * x * x * (2.5 + x * (-3 + x));

    private static double Derivative(double[] f, int i)
    {
        int n = f.Length;
        return i >= 2 && i < n - 2 ? (8 * (f[i + 1] - f[i - 1]) - (f[i + 2] - f[i - 2])) / 12
            : i == 0 ? f[1] - f[0] : i == n - 1 ? f[i] - f[i - 1] : (f[i + 1] - f[i - 1]) / 2;
    }

    private static double SecondDerivative(double[] f, int i)
    {
        int n = f.Length, at = Math.Clamp(i, 1, n - 2);
        return i >= 2 && i < n - 2 ? (16 * (f[i + 1] + f[i - 1]) - (f[i + 2] + f[i - 2]) - 30 * f[i]) / 12 : f[at + 1] - 2 * f[at] + f[at - 1];
    }

    private static Enu Derivative(Enu[] f, int i)
    {
        int n = f.Length;
        return i >= 2 && i < n - 2 ? (1.0 / 12) * (8 * (f[i + 1] - f[i - 1]) - (f[i + 2] - f[i - 2]))
            : i == 0 ? f[1] - f[0] : i == n - 1 ? f[i] - f[i - 1] : 0.5 * (f[i + 1] - f[i - 1]);
    }

    private static Enu SecondDerivative(Enu[] f, int i)
    {
        int n = f.Length, at = Math.Clamp(i, 1, n - 2);
        return i >= 2 && i < n - 2 ? (1.0 / 12) * (16 * (f[i + 1] + f[i - 1]) - (f[i + 2] + f[i - 2]) - 30 * f[i]) : f[at + 1] - 2 * f[at] + f[at - 1];
    }
}
