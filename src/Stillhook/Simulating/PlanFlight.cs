using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;
using Stillhook.Physics.Motion;
using Stillhook.Planning;

namespace Stillhook.Simulating;

/// <summary>Flies a planned approach as planned, or with a known fault, as a day of rotations: hook-on, lift, leg, approach, placing, release, way back.</summary>
/// <remarks>
/// The whole loaded leg is planned from the load by <see cref="FlatMap"/>, so that it brings no swing to the start mark; the approach is the plan's own hook path. The load is then the
/// nonlinear pendulum of <see cref="SlungLoadMotion"/> under that hook at 0.02 s, line mass and line drag included: what it does is a result, not an assumption.
/// No hand, no gust: what is left is the plan's own doing. A fault is flown as another path: faster, higher, harder, past the spot. Coordinates are those of <see cref="DayScenario"/>.
/// </remarks>
public static class PlanFlight
{
    /// <summary>The flown day, one rotation for each fault named.</summary>
    /// <param name="plan">An approach that is offered.</param>
    /// <param name="faults">What goes wrong in each rotation; <see cref="Fault.None"/> flies the plan.</param>
    /// <exception cref="ArgumentException">No approach is offered, or a fault that is not one of the path.</exception>
    public static SimulatedDay Fly(ApproachPlan plan, IReadOnlyList<Fault> faults)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(faults);
        if (!plan.IsOffered)
            throw new ArgumentException("An approach is offered.", nameof(plan));
        DayScenario scenario = Scenario(plan, faults);
        PlanFlyer flyer = new(plan, scenario);
        foreach (PlannedRotation rotation in scenario.Rotations)
            flyer.Fly(rotation);
        SimulatedDay day = new() { Scenario = scenario, Seed = 0, Motion = flyer.Motion, Rotations = [] };
        return day with { Rotations = TruthMeasures.Of(day, flyer.Flown) };
    }

    private static DayScenario Scenario(ApproachPlan plan, IReadOnlyList<Fault> faults)
    {
        ApproachSituation s = plan.Situation!;
        Site? pickUp = s.Request.SiteOf(s.Listed?.PickUp, SiteUse.PickUp);
        const double invented = 1500;
        LocalFrame atSpot = new(s.Site.Latitude.Degrees, s.Site.Longitude.Degrees, 0);
        Enu start = pickUp is null ? new CourseFrame(plan.CourseDeg).ToEnu(new(-invented, 0, 0)) : atSpot.ToEnu(pickUp.Latitude.Degrees, pickUp.Longitude.Degrees, 0);
        (double latitude, double longitude, _) = atSpot.ToGeodetic(start with { Up = 0 });
        double pickUpElevation = pickUp?.Elevation?.Meters ?? s.ElevationM;
        Enu target = new LocalFrame(latitude, longitude, 0).ToEnu(s.Site.Latitude.Degrees, s.Site.Longitude.Degrees, 0);
        double lineM = s.Request.Line!.Length!.Value.Meters;
        DateTimeOffset midnight = new(s.Request.Date ?? new DateOnly(2025, 6, 17), TimeOnly.MinValue, TimeSpan.Zero);
        return new()
        {
            Name = $"{s.LoadName} as planned",
            PickupName = pickUp?.Name ?? "pick-up",
            TargetName = s.Site.Name,
            StartTimeS = midnight.ToUnixTimeSeconds() + Math.Floor(s.Minute ?? 480) * 60,
            LatitudeDeg = latitude,
            LongitudeDeg = longitude,
            AltitudeM = pickUpElevation,
            TargetEnu = target with { Up = s.ElevationM - pickUpElevation },
            LineM = lineM,
            RiggingM = s.Request.Line.Rigging?.Meters ?? 0,
            AircraftKg = Math.Max(500, (s.GrossKg ?? 2000) - s.Load.MassKg),
            AirDensityKgM3 = s.Load.AirDensityKgM3,
            WindFromDeg = s.Wind?.FromDeg ?? 0,
            WindMs = s.Wind?.Speed.MetersPerSecond ?? 0,
            Rotations = [.. faults.Select(f => new PlannedRotation(s.Load.MassKg, s.Load.DragAreaM2, s.LoadHeightM, f))],
        };
    }
}

/// <summary>One day's hook and load, sample after sample.</summary>
internal sealed class PlanFlyer
{
    private const double StepS = FlightModel.StepS;
    private const int StepsPerSample = 5;
    private const double CarryM = 6, SlackM = 0.5, OverM = 4, SmoothS = 2, EmptyMs = 22, NearM = 40;

    private readonly ApproachPlan plan;
    private readonly ApproachSituation s;
    private readonly DayScenario scenario;
    private readonly CourseFrame course;
    private readonly Enu wind, target;
    private readonly double reach, halfLoad;
    private readonly FlatMap map;
    private readonly List<Enu> hooks = [];
    private int stored;

    public PlanFlyer(ApproachPlan plan, DayScenario scenario)
    {
        (this.plan, this.scenario, s) = (plan, scenario, plan.Situation!);
        course = new(plan.CourseDeg);
        wind = course.ToEnu(plan.Way!.Path.Hanging.Wind);
        target = scenario.TargetEnu;
        reach = s.ContactLengthM;
        halfLoad = s.LoadHeightM / 2;
        map = FlatMap.Of(s.Load);
        Rest(new Enu(0, 0, reach + OverM), 8);
    }

    public List<MotionSample> Motion { get; } = [];

    public List<FlownRotation> Flown { get; } = [];

    private double NowS => scenario.StartTimeS + (hooks.Count - 1) * StepS;

    public void Fly(PlannedRotation rotation)
    {
        Enu hang = HookOver(default, default);
        Move(hang + new Enu(0, 0, halfLoad - SlackM), 5);
        Rest(hooks[^1], 8);
        int hooked = hooks.Count;
        // Up to the end of the slack; from there the load is planned and the hook follows from it.
        Move(hang + new Enu(0, 0, halfLoad), 3);
        Enu[] load = LoadedWay(rotation);
        int lifted = hooks.Count;
        double liftS = NowS;
        foreach (Enu hook in Hooks(load))
            hooks.Add(hook);
        (double contactS, Enu place) = Store(rotation, hooked, lifted);
        Rest(hooks[^1], 3);
        double releaseS = NowS;
        StoreEmpty();
        Flown.Add(new(rotation, liftS, contactS, releaseS, default, place - new Enu(0, 0, halfLoad), 0));
        WayBack();
        StoreEmpty();
    }

    /// <summary>Hook straight over a load at rest, wind included.</summary>
    private Enu HookOver(Enu load, Enu acceleration) => load + (s.Load.LengthM / map.LengthM) * map.HookFromLoad(acceleration, -1 * wind);

    private void Rest(Enu at, double seconds)
    {
        for (int i = 0; i < seconds / StepS; i++)
            hooks.Add(at);
    }

    private void Move(Enu to, double seconds)
    {
        Enu from = hooks[^1];
        int n = (int)(seconds / StepS);
        for (int i = 1; i <= n; i++)
            hooks.Add(from + SmoothBlend.Quintic.At(i / (double)n, 0) * (to - from));
    }

    /// <summary>Load's middle from the lift to contact and a little beyond, every step.</summary>
    private Enu[] LoadedWay(PlannedRotation rotation)
    {
        LoadPath path = Flown0(rotation.Fault);
        Enu shift = rotation.Fault switch { Fault.Overshoot => course.ToEnu(new(12, 0, 0)), Fault.Undershoot => course.ToEnu(new(-16, 0, 0)), Fault.LateralOffset => course.ToEnu(new(0, 9, 0)), _ => default };
        Enu[] approach = [.. path.Load.Select(p => target + shift + course.ToEnu(p))];
        List<Enu> raw = [.. Climb(), .. Leg(new(0, 0, halfLoad + CarryM), approach[0], path.Shape.EntryMs)];
        int joined = raw.Count;
        raw.AddRange(approach);
        // Before the approach all is steady and straight for twice the reach of the means, so that they change nothing there.
        Enu[] whole = Smoothed([.. raw], 0, joined - (int)(2 * SmoothS / StepS) - 1, SmoothS);
        Enu[] spoilt = rotation.Fault switch
        {
            Fault.Overshoot or Fault.Undershoot or Fault.LateralOffset => [.. BackToTheSpot(whole, joined, shift)],
            Fault.HoverWait => [.. Waiting(whole, joined)],
            _ => whole,
        };
        return spoilt.Length == whole.Length ? whole : Smoothed(spoilt, joined, spoilt.Length - (int)(SmoothS / StepS), 0.7);
    }

    /// <summary>The approach as flown: the plan's, or another path when that is the fault.</summary>
    private LoadPath Flown0(Fault fault)
    {
        PathShape p = plan.Way!.Path.Shape;
        HangingLoad hanging = plan.Way.Path.Hanging;
        double limit = s.Rules.SlowDownMs2.Value;
        PathShape shape = fault switch
        {
            Fault.FastEntry => Hurried(p with { EntryMs = p.EntryMs + 5 }),
            Fault.HighStart => p with { StartHeightM = p.StartHeightM + 35 },
            Fault.LowStart => p with { StartHeightM = Math.Max(12, p.StartHeightM - 26) },
            Fault.AbruptSlowdown => p with { BoxS = 0.35 * p.BoxS },
            Fault.LateSink => p with { TouchDownSinkMs = 1.3, LetDownM = p.LetDownM + 2 },
            Fault.None or Fault.Overshoot or Fault.Undershoot or Fault.LateralOffset or Fault.HoverWait => p,
            _ => throw new ArgumentException($"{fault} is not a fault of the path.", nameof(fault)),
        };
        return LoadPath.Of(shape, hanging, s.SinkLimit, StepS);

        // The same distance from a higher speed: the slow-down is squeezed into what there is.
        PathShape Hurried(PathShape faster) => faster.SlowDownM <= faster.StartM ? faster : faster with { BoxS = 2 * faster.StartM / faster.EntryMs - faster.SoftS };
    }

    private IEnumerable<Enu> Climb()
    {
        const double seconds = 10;
        for (int i = 0; i < seconds / StepS; i++)
            yield return new(0, 0, halfLoad + CarryM * SmoothBlend.Ninth.At(i * StepS / seconds, 0));
    }

    /// <summary>From rest over the pick-up to the approach's first point at its speed and course.</summary>
    private IEnumerable<Enu> Leg(Enu begin, Enu to, double speedMs)
    {
        double straight = 4.5 * SmoothS * speedMs;
        Enu along = course.ToEnu(new(1, 0, 0)), join = to - straight * along, direct = join - begin;
        LegPath path = new(begin with { Up = 0 }, (1 / direct.Horizontal) * (direct with { Up = 0 }), join with { Up = 0 }, along, 0.4 * direct.Horizontal, 0.5 * direct.Horizontal);
        double length = path.LengthM + straight, rampS = Math.Min(1.2 * speedMs, 1.6 * length / speedMs), soft = rampS / 3;
        SpeedRamp ramp = new(rampS - soft, soft);
        double total = rampS + (length - speedMs * rampS / 2) / speedMs;
        // Counted back from the approach's first point, so that the steps join without a gap.
        for (int step = (int)(total / StepS); step > 0; step--)
        {
            double t = total - step * StepS;
            // The slow-down run backwards is a swing-free start.
            double way = t < rampS ? speedMs * (rampS / 2 - ramp.Way(rampS - t)) : speedMs * (t - rampS / 2);
            double up = begin.Up + SmoothBlend.Seventh.At(Math.Clamp(way / (0.85 * length), 0, 1), 0) * (to.Up - begin.Up);
            Enu ground = way <= path.LengthM ? path.At(way) : join + (way - path.LengthM) * along;
            yield return ground with { Up = up };
        }
    }

    /// <summary>Four running means over a stretch, so that no corner is left in the load's acceleration. Straight and steady parts stay as they are.</summary>
    private static Enu[] Smoothed(Enu[] raw, int first, int last, double widthS)
    {
        Enu[] now = [.. raw];
        int half = (int)(widthS / 2 / StepS);
        for (int pass = 0; pass < 4; pass++)
        {
            Enu[] next = [.. now];
            Enu sum = default;
            for (int k = first - half; k <= first + half; k++)
                sum += At(now, k);
            for (int i = first; i < last; i++)
            {
                next[i] = (1.0 / (2 * half + 1)) * sum;
                sum += At(now, i + half + 1) - At(now, i - half);
            }
            now = next;
        }
        return now;

        static Enu At(Enu[] p, int i) => p[Math.Clamp(i, 0, p.Length - 1)];
    }

    /// <summary>First step of the approach with the load a metre above where it is let down from.</summary>
    private int NearlyDown(Enu[] load, int joined) => Array.FindIndex(load, joined, p => p.Up - halfLoad - target.Up < plan.Way!.Path.Shape.LetDownM + 1);

    private IEnumerable<Enu> BackToTheSpot(Enu[] load, int joined, Enu shift)
    {
        int stop = NearlyDown(load, joined);
        for (int i = 0; i <= stop; i++)
            yield return load[i];
        const double seconds = 14;
        for (int i = 1; i <= seconds / StepS; i++)
            yield return load[stop] - SmoothBlend.Ninth.At(i * StepS / seconds, 0) * shift;
        for (int i = stop + 1; i < load.Length; i++)
            yield return load[i] - shift;
    }

    private IEnumerable<Enu> Waiting(Enu[] load, int joined)
    {
        int stop = NearlyDown(load, joined);
        for (int i = 0; i < load.Length; i++)
        {
            yield return load[i];
            if (i == stop)
                for (int k = 0; k < 45 / StepS; k++)
                    yield return load[i];
        }
    }

    private IEnumerable<Enu> Hooks(Enu[] load)
    {
        for (int i = 0; i < load.Length; i++)
        {
            Enu a = load[Math.Max(0, i - 1)], b = load[i], c = load[Math.Min(load.Length - 1, i + 1)];
            Enu velocity = (1 / (2 * StepS)) * (c - a), acceleration = i == 0 || i == load.Length - 1 ? default : (1 / (StepS * StepS)) * (c - 2 * b + a);
            yield return b + (s.Load.LengthM / map.LengthM) * map.HookFromLoad(acceleration, velocity - wind);
        }
        // On down until the line is slack.
        Enu last = hooks.Count > 0 ? HookOver(load[^1], default) : default;
        for (int i = 1; i <= 1.5 / StepS; i++)
            yield return last - new Enu(0, 0, i * StepS * Math.Min(0.4, plan.Way!.Path.Shape.TouchDownSinkMs));
    }

    /// <summary>Moves the load under the hook from a step on and keeps the samples; when and where it touched.</summary>
    private (double ContactS, Enu Place) Store(PlannedRotation rotation, int hooked, int lifted)
    {
        StoreEmpty(hooked);
        SlungLoadState state = SlungLoadState.Plumb(s.Load.LengthM);
        Enu standing = new(0, 0, halfLoad);
        bool onGround = true;
        double contactS = 0;
        for (int i = hooked; i < hooks.Count; i++)
        {
            (Enu velocity, Enu acceleration) = Rates(i);
            if (i == lifted)
            {
                state = new((s.Load.LengthM / (standing - hooks[i]).Length) * (standing - hooks[i]), default);
                onGround = false;
            }
            else if (!onGround)
            {
                (Enu before, Enu accelerationBefore) = Rates(i - 1);
                state = SlungLoadMotion.Step(s.Load, state, new(before, accelerationBefore, acceleration, wind), StepS);
                Enu place = hooks[i] + state.LoadFromHookEnu;
                if ((place - target).Horizontal < NearM && place.Up - halfLoad <= target.Up)
                    (onGround, standing, contactS) = (true, place with { Up = target.Up + halfLoad }, scenario.StartTimeS + i * StepS);
            }
            Keep(i, velocity, acceleration, onGround ? standing - hooks[i] : state.LoadFromHookEnu, onGround ? -1 * velocity : state.LoadFromHookVelocityEnu, onGround ? Carried(standing - hooks[i]) : SlungLoadMotion.TensionN(s.Load, state, acceleration, velocity - wind), true, onGround);
        }
        stored = hooks.Count;
        return (contactS, standing);
    }

    private double Carried(Enu fromHook) => s.Load.MassKg * Gravity.Standard * Math.Clamp(1 - (s.Load.LengthM - fromHook.Length) / 0.08, 0, 1);

    private void StoreEmpty(int? until = null)
    {
        for (; stored < (until ?? hooks.Count); stored++)
        {
            (Enu velocity, Enu acceleration) = Rates(stored);
            Keep(stored, velocity, acceleration, new(0, 0, -s.Load.LengthM), default, 0, false, false);
        }
    }

    private (Enu Velocity, Enu Acceleration) Rates(int i)
    {
        Enu a = hooks[Math.Max(0, i - 1)], b = hooks[i], c = hooks[Math.Min(hooks.Count - 1, i + 1)];
        return ((1 / (2 * StepS)) * (c - a), (1 / (StepS * StepS)) * (c - 2 * b + a));
    }

    private void Keep(int i, Enu velocity, Enu acceleration, Enu fromHook, Enu rate, double pullN, bool hooked, bool onGround)
    {
        if (i % StepsPerSample == 0)
            Motion.Add(new(hooks[i], velocity, acceleration, fromHook, rate, pullN, hooked, onGround));
    }

    private void WayBack()
    {
        Enu up = hooks[^1] + new Enu(0, 0, 8);
        Rest(hooks[^1], 2);
        Move(up, 5);
        Enu over = new(0, 0, reach + OverM), direct = over - up;
        double seconds = 1.9 * direct.Horizontal / EmptyMs;
        Move(over, Math.Max(10, seconds));
        Rest(over, 3);
    }
}
