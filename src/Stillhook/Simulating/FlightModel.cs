using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Simulating;

/// <summary>Hook, load and air, stepped through the day.</summary>
/// <remarks>
/// The hook follows where the pilot wants it (through a second-order lag), plus slow wander, plus control activity, plus what the pilot does
/// against the swing and what the load's pull does to the aircraft. The load is the nonlinear pendulum of <see cref="SlungLoadMotion"/>.
/// </remarks>
internal sealed class FlightModel
{
    public const double StepS = 0.02;
    private const int StepsPerSample = 5;
    private const double FollowS = 0.35; // each of the two equal lags between wish and hook
    private const double HoldShare = 0.4; // how firmly the pilot returns from a push, as a share of the swing's frequency

    private readonly DayScenario scenario;
    private readonly SimulationRandom random;
    private readonly Enu meanWind;
    private Wanderer slowEast, slowNorth, slowUp, busyEast, busyNorth, busyUp;
    private Enu followed, followedRate, push, pushRate, wish, counter, gust;
    private Enu lastHookVelocity, lastHookAcceleration;
    private SlungLoad load;
    private SlungLoadState swing;
    private Enu standing; // where the load stands while on the ground
    private double halfHeight;
    private int step;

    public FlightModel(DayScenario scenario, ulong seed, Enu start)
    {
        this.scenario = scenario;
        random = new(seed, "air and hand");
        double rad = double.DegreesToRadians(scenario.WindFromDeg);
        meanWind = new(-scenario.WindMs * Math.Sin(rad), -scenario.WindMs * Math.Cos(rad), 0);
        PilotStyle p = scenario.Pilot;
        double pace = 0.16 + 0.06 * random.NextUnit();
        (slowEast, slowNorth, slowUp) = (Wanderer.Slow(pace, p.WanderM), Wanderer.Slow(pace * 1.1, p.WanderM), Wanderer.Slow(pace, 0.35 * p.WanderM));
        (busyEast, busyNorth, busyUp) = (Wanderer.Busy(p.ControlActivityMs2), Wanderer.Busy(p.ControlActivityMs2), Wanderer.Busy(0.5 * p.ControlActivityMs2));
        followed = wish = Hook = start;
        load = new(scenario.LineM, 20, 0, scenario.AirDensityKgM3);
        swing = SlungLoadState.Plumb(scenario.LineM);
        Store();
    }

    /// <summary>Samples so far.</summary>
    public List<MotionSample> Motion { get; } = [];

    /// <summary>Now, s since 1970 UTC.</summary>
    public double TimeS => scenario.StartTimeS + step * StepS;

    /// <summary>Where the pilot last wanted the hook.</summary>
    public Enu Wish => wish;

    /// <summary>Belly hook.</summary>
    public Enu Hook { get; private set; }

    /// <summary>Its velocity.</summary>
    public Enu HookVelocity => lastHookVelocity;

    /// <summary>A load is hooked on.</summary>
    public bool Hooked { get; private set; }

    /// <summary>It stands on the ground.</summary>
    public bool OnGround { get; private set; }

    /// <summary>Last time the load left the ground.</summary>
    public double LastLiftS { get; private set; }

    /// <summary>Last time it touched.</summary>
    public double LastTouchS { get; private set; }

    /// <summary>Where it stood last.</summary>
    public Enu StandingGround => standing - new Enu(0, 0, halfHeight);

    /// <summary>Damping ratio the pilot gives the swing just now.</summary>
    public double SwingDamping { get; set; }

    /// <summary>Size of wander and control activity; 0 on the skids.</summary>
    public double Restlessness { get; set; } = 1;

    /// <summary>Ground under the load where it may touch; minus infinity on the way.</summary>
    public double GroundUp { get; set; } = double.NegativeInfinity;

    /// <summary>Swing envelope against the plumb line, m.</summary>
    public double SwingM
    {
        get
        {
            double w2 = Gravity.Standard / load.LengthM;
            double r = swing.LoadFromHookEnu.Horizontal, v = swing.LoadFromHookVelocityEnu.Horizontal;
            return Math.Sqrt(r * r + v * v / w2);
        }
    }

    /// <summary>The crew hooks a standing load on.</summary>
    public void HookOn(PlannedRotation plan, Enu ground)
    {
        halfHeight = plan.LoadHeightM / 2;
        load = new(scenario.LineM + scenario.RiggingM + halfHeight, plan.LoadKg, plan.DragAreaM2, scenario.AirDensityKgM3);
        standing = ground + new Enu(0, 0, halfHeight);
        (Hooked, OnGround) = (true, true);
    }

    /// <summary>The hook opens.</summary>
    public void Release()
    {
        (Hooked, OnGround) = (false, false);
        swing = SlungLoadState.Plumb(load.LengthM);
    }

    /// <summary>One step with the pilot wanting the hook at a place.</summary>
    public void Step(Enu wanted)
    {
        wish = wanted;
        Follow(wanted);
        WanderOn();
        GiveWay();
        BlowOn();

        Enu hook = followed + push + new Enu(slowEast.X + busyEast.X, slowNorth.X + busyNorth.X, slowUp.X + busyUp.X);
        Enu velocity = (1 / StepS) * (hook - Hook);
        Enu acceleration = (1 / StepS) * (velocity - lastHookVelocity);
        Hook = hook;
        step++;
        if (Hooked)
            MoveLoad(velocity, acceleration);
        (lastHookVelocity, lastHookAcceleration) = (velocity, acceleration);
        if (step % StepsPerSample == 0)
            Store();
    }

    private void Follow(Enu wanted)
    {
        followedRate += StepS * ((1 / (FollowS * FollowS)) * (wanted - followed) - (2 / FollowS) * followedRate);
        followed += StepS * followedRate;
    }

    private void WanderOn()
    {
        double speed = followedRate.Horizontal, slow = Restlessness * (1 + speed / 8), busy = Restlessness;
        slowEast.Step(random, slow);
        slowNorth.Step(random, slow);
        slowUp.Step(random, Restlessness * (1 + speed / 12));
        busyEast.Step(random, busy);
        busyNorth.Step(random, busy);
        busyUp.Step(random, busy);
    }

    /// <summary>The pilot leans against the swing; the load's pull moves the aircraft until he catches it.</summary>
    private void GiveWay()
    {
        Enu pushed = default;
        double w = Math.Sqrt(Gravity.Standard / load.LengthM), hold = HoldShare * w;
        if (Hooked && !OnGround)
        {
            Enu seen = Limited(2 * SwingDamping * w * Flat(swing.LoadFromHookVelocityEnu), 0.6);
            counter += (StepS / 0.35) * (seen - counter);
            double pull = scenario.Pilot.Yielding * load.MassKg / scenario.AircraftKg * w * w;
            pushed = counter + pull * Flat(swing.LoadFromHookEnu);
        }
        else
            counter = (1 - StepS / 0.35) * counter;
        pushRate += StepS * (pushed - hold * hold * push - 1.4 * hold * pushRate);
        push += StepS * pushRate;
    }

    private void BlowOn()
    {
        const double correlationS = 5;
        double kick = scenario.GustMs * Math.Sqrt(2 * StepS / correlationS);
        gust = (1 - StepS / correlationS) * gust + kick * new Enu(random.Normal(), random.Normal(), 0);
    }

    private void MoveLoad(Enu hookVelocity, Enu hookAcceleration)
    {
        if (OnGround)
        {
            Enu fromHook = standing - Hook;
            if (fromHook.Length < load.LengthM)
                return;
            Enu line = (load.LengthM / fromHook.Length) * fromHook;
            Enu rate = -1 * hookVelocity;
            double outward = (rate.East * line.East + rate.North * line.North + rate.Up * line.Up) / (load.LengthM * load.LengthM);
            swing = new(line, rate - outward * line);
            OnGround = false;
            LastLiftS = TimeS;
            return;
        }
        swing = SlungLoadMotion.Step(load, swing, new(lastHookVelocity, lastHookAcceleration, hookAcceleration, meanWind + gust), StepS);
        Enu place = Hook + swing.LoadFromHookEnu;
        if (place.Up - halfHeight > GroundUp)
            return;
        standing = new(place.East, place.North, GroundUp + halfHeight);
        OnGround = true;
        LastTouchS = TimeS;
    }

    private void Store()
    {
        Enu fromHook = OnGround ? standing - Hook : swing.LoadFromHookEnu;
        Enu rate = OnGround ? -1 * lastHookVelocity : swing.LoadFromHookVelocityEnu;
        Motion.Add(new(Hook, lastHookVelocity, lastHookAcceleration, fromHook, rate, HookLoad(fromHook), Hooked, OnGround));
    }

    private double HookLoad(Enu fromHook)
    {
        if (!Hooked)
            return 0;
        if (!OnGround)
            return SlungLoadMotion.TensionN(load, swing, lastHookAcceleration, lastHookVelocity - meanWind - gust);
        const double giveM = 0.08; // line and rigging take the weight over about a hand's breadth
        return load.MassKg * Gravity.Standard * Math.Clamp(1 - (load.LengthM - fromHook.Length) / giveM, 0, 1);
    }

    private static Enu Flat(Enu v) => new(v.East, v.North, 0);

    private static Enu Limited(Enu v, double most) => v.Horizontal > most ? (most / v.Horizontal) * v : v;

    /// <summary>Noise of one axis: x'' + 2ζωx' + ω²x = n, with n a first-order random force; smooth up to its acceleration.</summary>
    private struct Wanderer
    {
        private double omega, keep, kick, n, rate;

        public double X { get; private set; }

        /// <summary>Slow wander of a size, m: the force follows from the stationary variance σ²(α + c)/(ck(α² + cα + k)).</summary>
        public static Wanderer Slow(double omega, double sigmaM)
        {
            const double correlationS = 4;
            double alpha = 1 / correlationS, c = 1.4 * omega, k = omega * omega;
            return Of(omega, correlationS, sigmaM / Math.Sqrt((alpha + c) / (c * k * (alpha * alpha + c * alpha + k))));
        }

        public static Wanderer Busy(double sigmaMs2) => Of(0.7, 0.5, sigmaMs2);

        private static Wanderer Of(double omega, double correlationS, double sigmaMs2) => new()
        {
            omega = omega,
            keep = 1 - StepS / correlationS,
            kick = sigmaMs2 * Math.Sqrt(2 * StepS / correlationS),
        };

        public void Step(SimulationRandom random, double scale)
        {
            n = keep * n + kick * random.Normal();
            rate += StepS * (scale * n - 1.4 * omega * rate - omega * omega * X);
            X += StepS * rate;
        }
    }
}
