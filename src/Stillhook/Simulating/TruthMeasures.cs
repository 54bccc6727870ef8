using System.Globalization;
using System.Text.Json.Nodes;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Simulating;

/// <summary>Truth of one rotation, by the definitions of docs/method/simulating.md. SI; times are s since 1970 UTC; null where a definition gives nothing.</summary>
public sealed record TruthRotation
{
#pragma warning disable CS1591 // The names are those of the debrief; their definitions stand together in docs/method/simulating.md.
    public required int Number { get; init; }
    public required double PickupTimeS { get; init; }
    public required double DeliveryTimeS { get; init; }
    public required double ReleaseTimeS { get; init; }
    public double? ApproachStartTimeS { get; init; }
    public double? StopTimeS { get; init; }
    public required Enu PickupEnu { get; init; }
    public required Enu DeliveryEnu { get; init; }
    public double? StartHeightM { get; init; }
    public double? StartDistanceM { get; init; }
    public double? GlideDeg { get; init; }
    public double? EntrySpeedMs { get; init; }
    public double? PeakDecelMs2 { get; init; }
    public double? OvershootM { get; init; }
    public double? StopShortM { get; init; }
    public double? LateralMissM { get; init; }
    public double? LineUpErrorM { get; init; }
    public double? Swing50mM { get; init; }
    public double? SwingAfterStopM { get; init; }
    public double? SwingContactM { get; init; }
    public double? SwingMaxM { get; init; }
    public double? HoverTimeS { get; init; }
    public double? SinkLast15Ms { get; init; }
    public double? CycleTimeS { get; init; }
    public required int GoArounds { get; init; }
    public required Fault MainFault { get; init; }
#pragma warning restore CS1591
}

/// <summary>Measures the true motion. Written apart from the debriefing's own measures, so that each checks the other.</summary>
internal static class TruthMeasures
{
    private const double StepS = SimulatedDay.StepS;

    /// <summary>Every flown rotation measured.</summary>
    public static IReadOnlyList<TruthRotation> Of(SimulatedDay day, IReadOnlyList<FlownRotation> flown)
    {
        List<TruthRotation> truth = [];
        for (int i = 0; i < flown.Count; i++)
        {
            double? cycle = i + 1 < flown.Count ? flown[i + 1].PickupTimeS - flown[i].PickupTimeS : null;
            truth.Add(new LoadedLeg(day, flown[i]).Measured(i + 1, cycle));
        }
        return truth;
    }

    /// <summary>One loaded leg: lift-off to contact.</summary>
    private sealed class LoadedLeg
    {
        private readonly SimulatedDay day;
        private readonly FlownRotation flown;
        private readonly int first, contact;
        private readonly Enu place;
        private readonly double omega;

        public LoadedLeg(SimulatedDay day, FlownRotation flown)
        {
            (this.day, this.flown, place) = (day, flown, flown.DeliveryEnu);
            first = Index(flown.PickupTimeS) + 1;
            contact = Index(flown.DeliveryTimeS - 0.001); // last sample with the load still in the air
            DayScenario s = day.Scenario;
            omega = Math.Sqrt(Gravity.Standard / (s.LineM + s.RiggingM + flown.Plan.LoadHeightM / 2));
        }

        private double Reach => day.Scenario.LineM + day.Scenario.RiggingM + flown.Plan.LoadHeightM;

        public TruthRotation Measured(int number, double? cycleS)
        {
            int stop = Stop();
            double stopTime = day.TimeS(stop);
            Knee? knee = FindKnee(stop);
            int? start = knee is { } k ? StartIndex(stop, k.DistanceM) : null;
            Enu course = Course(stop);
            Enu right = new(course.North, -course.East, 0);
            Enu shortBy = place - Hook(stop);
            int far = LastBeyond(50);
            int period = (int)Math.Round(2 * Math.PI / omega / StepS);
            return new()
            {
                Number = number,
                PickupTimeS = flown.PickupTimeS,
                DeliveryTimeS = flown.DeliveryTimeS,
                ReleaseTimeS = flown.ReleaseTimeS,
                ApproachStartTimeS = start is { } a ? day.TimeS(a) : null,
                StopTimeS = stopTime,
                PickupEnu = flown.PickupEnu,
                DeliveryEnu = place,
                StartHeightM = knee is { } h ? h.HeightM - Hook(contact).Up + Reach : null,
                StartDistanceM = knee?.DistanceM,
                GlideDeg = knee is { } g ? double.RadiansToDegrees(Math.Atan(g.InnerSlope)) : null,
                EntrySpeedMs = start is { } e ? MeanSpeed(e) : null,
                PeakDecelMs2 = start is { } d ? PeakDeceleration(d, stop) : null,
                OvershootM = Overshoot(course),
                StopShortM = Dot(shortBy, course),
                LateralMissM = Dot(place - day.Scenario.TargetEnu, right),
                LineUpErrorM = LineUp(stop, right),
                Swing50mM = far >= first ? Envelope(far) : null,
                SwingAfterStopM = LargestOffset(stop, Math.Min(contact, stop + period)),
                SwingContactM = Envelope(contact),
                SwingMaxM = LargestOffset(Math.Max(first, far), contact),
                HoverTimeS = flown.DeliveryTimeS - stopTime,
                SinkLast15Ms = SinkOfTheLast(1.5),
                CycleTimeS = cycleS,
                GoArounds = flown.GoArounds,
                MainFault = flown.Plan.Fault,
            };
        }

        private int Index(double timeS) => (int)Math.Floor((timeS - day.Scenario.StartTimeS + 1e-6) / StepS);

        private Enu Hook(int i) => day.Motion[i].Hook;

        private double Distance(int i) => (Hook(i) - place).Horizontal;

        private static double Dot(Enu a, Enu b) => a.East * b.East + a.North * b.North;

        /// <summary>Mean ground speed over the second around a sample.</summary>
        private double MeanSpeed(int i)
        {
            double sum = 0;
            for (int k = -5; k <= 5; k++)
                sum += (Math.Abs(k) == 5 ? 0.5 : 1) * day.Motion[Math.Clamp(i + k, 0, day.Motion.Count - 1)].HookVelocity.Horizontal;
            return sum / 10;
        }

        /// <summary>First sample after the last one further away than a distance.</summary>
        private int LastBeyond(double distanceM)
        {
            for (int i = contact; i >= first; i--)
            {
                if (Distance(i) > distanceM)
                    return i;
            }
            return first - 1;
        }

        private int Stop()
        {
            for (int i = LastBeyond(40) + 1; i <= contact; i++)
            {
                if (MeanSpeed(i) < 1.5)
                    return i;
            }
            return contact;
        }

        /// <summary>The approach's direction: from 100 m out (or as far as there is) to the delivery point.</summary>
        private Enu Course(int stop)
        {
            int from = Math.Max(first, Math.Min(stop, LastBeyond(100)));
            Enu way = place - Hook(from);
            return new(way.East / way.Horizontal, way.North / way.Horizontal, 0);
        }

        private int InboundStart(int stop)
        {
            int best = stop;
            for (int i = stop; i >= first && Distance(i) <= 800; i--)
            {
                if (Distance(i) > Distance(best))
                    best = i;
                if (Distance(i) < Distance(best) - 20)
                    break;
            }
            return best;
        }

        private readonly record struct Knee(double DistanceM, double HeightM, double InnerSlope);

        /// <summary>Continuous two-line least squares of height over distance, on a 5 m grid.</summary>
        private Knee? FindKnee(int stop)
        {
            (List<double> ds, List<double> hs) = Grid(stop);
            Knee? best = null;
            double least = double.PositiveInfinity;
            for (int k = 2; k < ds.Count - 2; k++)
            {
                (double a, double b, double c, double error) = TwoLines(ds, hs, ds[k]);
                if (c > -0.02 || error >= least)
                    continue;
                least = error;
                best = new(ds[k], a + b * ds[k], b);
            }
            return best;
        }

        private (List<double> Distance, List<double> Height) Grid(int stop)
        {
            List<double> ds = [], hs = [];
            double contactUp = Hook(contact).Up, grid = 5 * Math.Ceiling(Distance(stop) / 5);
            int begin = InboundStart(stop);
            for (int i = stop; i > begin; i--)
            {
                double near = Distance(i), far = Distance(i - 1);
                while (near <= grid && grid < far)
                {
                    double up = Hook(i).Up + (Hook(i - 1).Up - Hook(i).Up) * (grid - near) / (far - near);
                    if (up - contactUp > 10)
                    {
                        ds.Add(grid);
                        hs.Add(up);
                    }
                    grid += 5;
                }
            }
            return (ds, hs);
        }

        /// <summary>h = a + b·d + c·max(0, d − knee), by the normal equations about the knee.</summary>
        private static (double A, double B, double C, double Error) TwoLines(List<double> ds, List<double> hs, double knee)
        {
            // Unknowns: height at the knee, inner slope, outer slope; columns 1, min(0, d − knee), max(0, d − knee).
            double n = ds.Count, si = 0, so = 0, sii = 0, soo = 0, sh = 0, sih = 0, soh = 0, shh = 0, mean = hs.Average();
            for (int j = 0; j < ds.Count; j++)
            {
                double x = ds[j] - knee, i = Math.Min(0, x), o = Math.Max(0, x), h = hs[j] - mean;
                (si, so, sii, soo) = (si + i, so + o, sii + i * i, soo + o * o);
                (sh, sih, soh, shh) = (sh + h, sih + i * h, soh + o * h, shh + h * h);
            }
            double top = (sh - si * sih / sii - so * soh / soo) / (n - si * si / sii - so * so / soo);
            double inner = (sih - si * top) / sii, outer = (soh - so * top) / soo;
            double error = shh - top * sh - inner * sih - outer * soh;
            return (top + mean - inner * knee, inner, outer - inner, error);
        }

        private int StartIndex(int stop, double distanceM)
        {
            int i = stop, begin = InboundStart(stop);
            while (i > begin && Distance(i) < distanceM)
                i--;
            return i;
        }

        private double PeakDeceleration(int start, int stop)
        {
            const int window = 20;
            double peak = double.NegativeInfinity;
            for (int i = start; i + window <= stop; i++)
                peak = Math.Max(peak, (day.Motion[i].HookVelocity.Horizontal - day.Motion[i + window].HookVelocity.Horizontal) / (window * StepS));
            return peak;
        }

        private double Overshoot(Enu course)
        {
            double most = 0;
            for (int i = LastBeyond(40) + 1; i <= contact; i++)
                most = Math.Max(most, Dot(Hook(i) - place, course));
            return most;
        }

        private double LineUp(int stop, Enu right)
        {
            double most = 0;
            for (int i = stop; i <= contact; i++)
            {
                double off = Dot(Hook(i) - place, right);
                if (Math.Abs(off) > Math.Abs(most))
                    most = off;
            }
            return most;
        }

        private double Envelope(int i)
        {
            double r = day.Motion[i].LoadFromHook.Horizontal, v = day.Motion[i].LoadFromHookVelocity.Horizontal / omega;
            return Math.Sqrt(r * r + v * v);
        }

        private double LargestOffset(int from, int to)
        {
            double most = 0;
            for (int i = from; i <= to; i++)
                most = Math.Max(most, day.Motion[i].LoadFromHook.Horizontal);
            return most;
        }

        private double? SinkOfTheLast(double heightM)
        {
            double LoadHeight(int i) => Hook(i).Up + day.Motion[i].LoadFromHook.Up - flown.Plan.LoadHeightM / 2 - place.Up;
            for (int i = contact; i > first; i--)
            {
                double low = LoadHeight(i), high = LoadHeight(i - 1);
                if (high >= heightM && low < heightM)
                    return heightM / (flown.DeliveryTimeS - day.TimeS(i) + StepS * (heightM - low) / (high - low));
            }
            return null;
        }
    }
}

/// <summary>Truth as JSON, with the keys of <c>debrief --json</c>.</summary>
public static class TruthJson
{
    /// <summary>The day's truth: <c>{"rotations":[…]}</c>, numbers in SI, times ISO 8601 UTC to the millisecond.</summary>
    public static string Write(SimulatedDay day)
    {
        JsonArray rotations = [];
        foreach (TruthRotation r in day.Rotations)
            rotations.Add(One(day, r));
        return new JsonObject { ["name"] = day.Scenario.Name, ["seed"] = day.Seed.ToString(CultureInfo.InvariantCulture), ["rotations"] = rotations }
            .ToJsonString(new() { WriteIndented = true });
    }

    private static JsonObject One(SimulatedDay day, TruthRotation r) => new()
    {
        ["number"] = r.Number,
        ["pickupTime"] = Iso(r.PickupTimeS),
        ["deliveryTime"] = Iso(r.DeliveryTimeS),
        ["releaseTime"] = Iso(r.ReleaseTimeS),
        ["approachStartTime"] = Iso(r.ApproachStartTimeS),
        ["stopTime"] = Iso(r.StopTimeS),
        ["pickup"] = Place(day, r.PickupEnu),
        ["delivery"] = Place(day, r.DeliveryEnu),
        ["startHeightM"] = r.StartHeightM,
        ["startDistanceM"] = r.StartDistanceM,
        ["glideDeg"] = r.GlideDeg,
        ["entrySpeedMs"] = r.EntrySpeedMs,
        ["peakDecelMs2"] = r.PeakDecelMs2,
        ["overshootM"] = r.OvershootM,
        ["stopShortM"] = r.StopShortM,
        ["lateralMissM"] = r.LateralMissM,
        ["swing50mM"] = r.Swing50mM,
        ["swingAfterStopM"] = r.SwingAfterStopM,
        ["swingContactM"] = r.SwingContactM,
        ["swingMaxM"] = r.SwingMaxM,
        ["hoverTimeS"] = r.HoverTimeS,
        ["sinkLast15Ms"] = r.SinkLast15Ms,
        ["cycleTimeS"] = r.CycleTimeS,
        ["goArounds"] = r.GoArounds,
        ["mainFault"] = FaultName(r.MainFault),
    };

    /// <summary>A fault's name as the files write it: none, overshoot, abruptSlowdown and so on.</summary>
    public static string FaultName(Fault fault)
    {
        string name = fault.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }

    private static string? Iso(double? timeS) => timeS is { } t
        ? DateTime.UnixEpoch.AddMilliseconds(Math.Round(t * 1000)).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture)
        : null;

    private static JsonObject Place(SimulatedDay day, Enu place)
    {
        (double lat, double lon, _) = day.ToGeodetic(place);
        return new() { ["lat"] = Math.Round(lat, 8), ["lon"] = Math.Round(lon, 8) };
    }
}
