using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Simulating;

/// <summary>Flies a scenario through the full model and says what truly happened.</summary>
public static class DaySimulator
{
    /// <summary>The flown day. The same scenario and seed give the same motion and the same truth, whatever is recorded of it.</summary>
    public static SimulatedDay Fly(DayScenario scenario, ulong seed)
    {
        PilotAtWork pilot = new(scenario, seed);
        pilot.FlyDay();
        SimulatedDay day = new() { Scenario = scenario, Seed = seed, Motion = pilot.Motion, Rotations = [] };
        return day with { Rotations = TruthMeasures.Of(day, pilot.Rotations) };
    }
}

/// <summary>The pilot's day, task after task.</summary>
internal sealed class PilotAtWork
{
    private readonly DayScenario scenario;
    private readonly PilotStyle style;
    private readonly SimulationRandom random;
    private readonly FlightModel flight;
    private readonly List<FlownRotation> flown = [];
    private readonly Enu pickupSite = default;
    private readonly double toTargetM;
    private readonly Enu toTarget;

    public PilotAtWork(DayScenario scenario, ulong seed)
    {
        (this.scenario, style) = (scenario, scenario.Pilot);
        random = new(seed, "pilot");
        toTargetM = scenario.TargetEnu.Horizontal;
        toTarget = (1 / toTargetM) * Flat(scenario.TargetEnu);
        Enu start = scenario.BaseEnu is { } b
            ? b + new Enu(0, 0, OnSkidsM)
            : random.Between(60, 150) * Turned(toTarget, random.Between(1.5, 4.5)) + new Enu(0, 0, scenario.LineM + random.Between(10, 25));
        flight = new(scenario, seed, start);
    }

    private const double OnSkidsM = 1;

    public IReadOnlyList<MotionSample> Motion => flight.Motion;

    public IReadOnlyList<FlownRotation> Rotations => flown;

    private double Reach(PlannedRotation r) => scenario.LineM + scenario.RiggingM + r.LoadHeightM;

    public void FlyDay()
    {
        Begin();
        if (scenario.LooksAtSiteFirst)
            LookAtSite();
        for (int i = 0; i < scenario.Rotations.Count; i++)
        {
            PlannedRotation rotation = scenario.Rotations[i];
            if (rotation.FuelBefore && scenario.BaseEnu is { } fuel)
                LandForFuel(fuel);
            if (rotation.WaitBeforeS > 0)
                WaitInTheAir(rotation.WaitBeforeS);
            FlyRotation(rotation, i == scenario.Rotations.Count - 1);
        }
        End();
    }

    private void Begin()
    {
        if (scenario.BaseEnu is not null)
            TakeOff(random.Between(25, 90));
        else
            Hold(random.Between(6, 20));
    }

    private void TakeOff(double waitS)
    {
        flight.Restlessness = 0;
        Hold(waitS);
        flight.Restlessness = 1;
        Climb(scenario.LineM + random.Between(2, 8), random.Between(1.2, 2.2));
        Hold(random.Between(1, 4));
    }

    private void LookAtSite()
    {
        double over = scenario.LineM + random.Between(12, 40);
        Enu spot = scenario.TargetEnu + Spread(4);
        FlyEmpty(spot + new Enu(0, 0, over), style.EmptySpeedMs * 0.85);
        Hold(random.Between(10, 30));
        if (random.Chance(0.4))
        {
            GoTo(spot + Spread(10) + new Enu(0, 0, over), 1.5);
            Hold(random.Between(4, 15));
        }
    }

    private void LandForFuel(Enu place)
    {
        FlyEmpty(place + new Enu(0, 0, scenario.LineM + random.Between(3, 8)), style.EmptySpeedMs);
        Hold(random.Between(1, 4));
        GoTo(place + new Enu(0, 0, OnSkidsM), random.Between(1.0, 1.6));
        TakeOff(random.Between(150, 420));
    }

    private void WaitInTheAir(double seconds)
    {
        double share = random.Between(0.1, 0.32);
        Enu aside = random.Between(-40, 40) * Turned(toTarget, Math.PI / 2);
        Enu place = Math.Max(80, share * toTargetM) * toTarget + aside + new Enu(0, 0, share * scenario.TargetEnu.Up + scenario.LineM + random.Between(20, 45));
        FlyEmpty(place, style.EmptySpeedMs * 0.9);
        Hold(seconds);
    }

    private void FlyRotation(PlannedRotation rotation, bool last)
    {
        Enu spot = pickupSite + Spread(1.5);
        ComeToPickup(spot, Reach(rotation));
        HookOnAndLift(rotation, spot);
        Approach approach = DrawApproach(rotation);
        int goArounds = FlyLoadedLeg(rotation, approach);
        Place(rotation, approach);
        double released = Release();
        flown.Add(new(rotation, pickupTimeS, deliveryTimeS, released, spot, lastPlace, goArounds));
        Climb(flight.Wish.Up - scenario.TargetEnu.Up + random.Between(4, 12), random.Between(1.4, 2.6), scenario.TargetEnu.Up);
        if (last)
            FlyEmpty(pickupSite + Spread(8) + new Enu(0, 0, scenario.LineM + random.Between(6, 15)), style.EmptySpeedMs);
    }

    private double pickupTimeS, deliveryTimeS;
    private Enu lastPlace;

    private void ComeToPickup(Enu spot, double reachM)
    {
        double above = random.Between(2, 6);
        if ((flight.Wish - pickupSite).Horizontal > 60)
            FlyEmpty(spot + Spread(1.5) + new Enu(0, 0, reachM + above), style.EmptySpeedMs);
        GoTo(spot + Spread(0.7) + new Enu(0, 0, reachM + above), 1.2);
        GoTo(spot + Spread(0.5) + new Enu(0, 0, reachM - random.Between(0.4, 1.8)), random.Between(0.5, 0.9));
    }

    private void HookOnAndLift(PlannedRotation rotation, Enu spot)
    {
        double reach = Reach(rotation);
        flight.GroundUp = 0;
        Hold(style.Pace * random.Between(6, 22));
        flight.HookOn(rotation, spot);
        Hold(style.Pace * random.Between(1, 4));
        GoTo(spot + Spread(0.3) + new Enu(0, 0, reach - random.Between(0.15, 0.4)), random.Between(0.3, 0.6));
        Hold(style.Pace * random.Between(0.5, 4));
        flight.SwingDamping = 0.7 * style.SwingDamping;
        double rate = random.Between(0.5, 1.1), carry = random.Between(3, 9);
        Climb(reach + carry, rate);
        Hold(style.Pace * random.Between(0, 5));
        pickupTimeS = flight.LastLiftS;
        flight.GroundUp = double.NegativeInfinity;
    }

    /// <summary>What the pilot means to do this time, faults included.</summary>
    private Approach DrawApproach(PlannedRotation rotation)
    {
        double Around(double x) => x * (1 + rotation.Unsettled * style.Scatter * random.Normal());
        double severity = rotation.Severity;
        double speed = Around(style.EntrySpeedMs), peak = Around(style.PeakDecelMs2), glide = Around(style.GlideDeg);
        double carry = Math.Max(2, Around(style.CarryHeightM)), start = Around(style.StartDistanceM);
        double miss = rotation.Unsettled * style.StopScatterM, along = miss * random.Normal(), across = 0.5 * miss * random.Normal();
        double extraHeight = 0, wait = style.Pace * random.Between(0, 2), softening = style.SofteningS, sink = Around(style.PlacingSinkMs);
        switch (rotation.Fault)
        {
            case Fault.Overshoot:
                along = 7.5 + 6 * severity + 0.5 * Math.Abs(along);
                (peak, softening) = (Math.Min(1.55, 1.15 * peak), 0.7 * softening);
                break;
            case Fault.Undershoot:
                along = -12.5 - 8 * severity;
                break;
            case Fault.AbruptSlowdown:
                (peak, softening) = (2.0 + 0.4 * severity, Math.Min(softening, 3));
                break;
            case Fault.FastEntry:
                double faster = speed + 4 + 3 * severity;
                peak = Math.Clamp(peak * faster * faster / (speed * speed), 1.3, 1.5);
                speed = faster;
                break;
            case Fault.HighStart:
                extraHeight = 28 + 20 * severity;
                break;
            case Fault.LowStart:
                extraHeight = -20 - 12 * severity;
                break;
            case Fault.LateralOffset:
                across = random.Sign() * (7 + 5 * severity);
                break;
            case Fault.HoverWait:
                wait = 32 + 22 * severity;
                break;
            case Fault.LateSink:
                sink = 1.15 + 0.45 * severity;
                carry = Math.Max(carry, 3.5);
                break;
        }
        return new(speed, peak, softening, glide, start, extraHeight, carry, along, across, wait, sink, DrawCourse());
    }

    private double courseHabit = double.NaN;

    /// <summary>Approach direction: the straight way turned toward the wind's eye by part of the difference, kept within what a leg allows.</summary>
    private Enu DrawCourse()
    {
        if (double.IsNaN(courseHabit))
        {
            double direct = Math.Atan2(toTarget.East, toTarget.North);
            double off = Math.IEEERemainder(double.DegreesToRadians(scenario.WindFromDeg) - direct, 2 * Math.PI);
            double willing = Math.Min(1, scenario.WindMs / 6) * random.Between(0.1, 0.5);
            courseHabit = Math.Clamp(willing * off, -0.6, 0.6) + 0.06 * random.Normal();
        }
        return Turned(toTarget, -courseHabit - 0.03 * random.Normal());
    }

    private int FlyLoadedLeg(PlannedRotation rotation, Approach approach)
    {
        flight.SwingDamping = 0.4 * style.SwingDamping;
        int goArounds = 0;
        if (rotation.Fault == Fault.GoAround)
        {
            bool nearlyStopped = random.Chance(0.6);
            double giveUpAt = nearlyStopped ? 0 : random.Between(8, 28);
            FlyApproach(rotation, approach, giveUpAt);
            if (nearlyStopped)
                Hold(random.Between(1, 7));
            GoRound(approach);
            goArounds++;
            approach = approach with { StartDistanceM = Math.Min(approach.StartDistanceM, 320) };
        }
        FlyApproach(rotation, approach, 0);
        return goArounds;
    }

    /// <summary>The leg to the target up to the end of the slow-down; given up at a distance to go when that is above 0.</summary>
    private void FlyApproach(PlannedRotation rotation, Approach a, double giveUpM)
    {
        Enu right = Turned(a.Course, -Math.PI / 2);
        Enu stop = scenario.TargetEnu + a.AlongM * a.Course + a.AcrossM * right;
        Enu from = flight.Wish;
        double reach = Reach(rotation), straight = (stop - from).Horizontal;
        Enu leaving = Heading(from, stop);
        bool initialRun = flight.HookVelocity.Horizontal > 5;
        if (initialRun)
            leaving = (1 / flight.HookVelocity.Horizontal) * Flat(flight.HookVelocity);
        LegPath path = new(Flat(from), leaving, Flat(stop), a.Course, initialRun ? 350 : 0.3 * straight, initialRun ? 450 : 0.42 * straight);

        double speed = Math.Min(a.SpeedMs, Math.Sqrt(0.62 * path.LengthM * a.PeakMs2));
        double begin = initialRun ? Math.Min(flight.HookVelocity.Horizontal, speed) : 0;
        SlowDown slow = SlowDown.WithPeak(speed, a.PeakMs2, style.Shape, a.SofteningS);
        double acceleration = random.Between(0.7, 1.2), spinUpS = 1.6 * (speed - begin) / acceleration;
        double startDistance = Math.Min(a.StartDistanceM, 0.62 * path.LengthM);
        HeightPlan height = new(from.Up, scenario.TargetEnu.Up + reach + a.CarryM, startDistance, a.GlideDeg, style.GlideBend, style.CruiseSlope, a.ExtraHeightM, path.LengthM);

        double way = 0, t = 0, slowAfter = path.LengthM - slow.DistanceM;
        double now = begin;
        while (way < slowAfter)
        {
            t += FlightModel.StepS;
            now = spinUpS > 0 && t < spinUpS ? begin + (speed - begin) * Quintic(t / spinUpS) : speed;
            way += now * FlightModel.StepS;
            Go(path, height, way);
        }
        double rest = way - slowAfter;
        int steps = (int)(slow.DurationS / FlightModel.StepS);
        for (int i = 1; i <= steps; i++)
        {
            double covered = slow.Covered(i * FlightModel.StepS + rest / speed);
            if (giveUpM > 0 && slow.DistanceM - covered < giveUpM)
                return;
            Go(path, height, slowAfter + covered);
        }
    }

    private void Go(LegPath path, HeightPlan height, double wayM) =>
        flight.Step(path.At(wayM) + new Enu(0, 0, height.UpAt(wayM)));

    /// <summary>Away along the approach course, climbing, round the pattern, and back onto the leg at speed.</summary>
    private void GoRound(Approach a)
    {
        Enu start = flight.Wish, run = Flat(flight.HookVelocity);
        Enu course = run.Horizontal > 2 ? (1 / run.Horizontal) * run : a.Course;
        double begin = run.Horizontal, speed = Math.Min(14, 0.8 * a.SpeedMs), climb = random.Between(28, 50);
        Enu side = random.Sign() * Turned(course, Math.PI / 2);
        Enu abeam = Flat(start) + 30 * course + random.Between(300, 380) * side;
        LegPath path = new(Flat(start), course, abeam, -1 * course, 420, 420);
        double spinUpS = 1.8 * (speed - Math.Min(begin, speed)) / 0.9 + 0.1, way = 0, t = 0;
        while (way < path.LengthM)
        {
            t += FlightModel.StepS;
            way += (begin + (speed - begin) * Quintic(Math.Min(1, t / spinUpS))) * FlightModel.StepS;
            flight.Step(path.At(way) + new Enu(0, 0, start.Up + climb * Quintic(Math.Min(1, way / 220))));
        }
    }

    /// <summary>Closing the last metres, waiting for the swing, and setting down.</summary>
    private void Place(PlannedRotation rotation, Approach a)
    {
        flight.SwingDamping = style.SwingDamping;
        Enu over = new(0, 0, scenario.TargetEnu.Up + Reach(rotation) + a.CarryM);
        Enu spot = Flat(scenario.TargetEnu) + Spread(0.6);
        double off = (flight.Wish - spot).Horizontal;
        if (off > 2)
            GoTo(spot + over, off > 5 ? random.Between(1.1, 1.6) : 0.9);
        Hold(a.WaitS);
        for (double waited = 0; waited < 18 && flight.SwingM > style.AcceptedSwingM; waited += 0.5)
            Hold(0.5);
        flight.SwingDamping = 0.6 * style.SwingDamping;
        flight.GroundUp = scenario.TargetEnu.Up;
        LowerToTheGround(spot, a.SinkMs, random.Between(0.4, 1.2));
        Hold(style.Pace * random.Between(1, 4));
        deliveryTimeS = flight.LastTouchS;
        lastPlace = flight.StandingGround;
    }

    private void LowerToTheGround(Enu spot, double sinkMs, double slackM)
    {
        Enu from = Flat(flight.Wish);
        double up = flight.Wish.Up, rate = 0, touched = 0, way = 0, closingS = 1.5 + 2 * (from - Flat(spot)).Horizontal;
        while (touched * sinkMs < slackM || rate > 0.02)
        {
            if (flight.OnGround)
                touched += FlightModel.StepS;
            double wanted = touched * sinkMs < slackM ? sinkMs : 0;
            rate += Math.Clamp(wanted - rate, -0.9 * FlightModel.StepS, 0.6 * FlightModel.StepS);
            up -= rate * FlightModel.StepS;
            way = Math.Min(1, way + FlightModel.StepS / closingS);
            flight.Step(from + Quintic(way) * (Flat(spot) - from) + new Enu(0, 0, up));
        }
    }

    private double Release()
    {
        flight.Release();
        double time = flight.TimeS;
        flight.GroundUp = double.NegativeInfinity;
        Hold(style.Pace * random.Between(0.6, 3));
        return time;
    }

    private void FlyEmpty(Enu to, double speedMs)
    {
        Enu from = flight.Wish;
        double straight = (to - from).Horizontal;
        if (straight < 60)
        {
            GoTo(to, 2.2);
            return;
        }
        Enu direct = Heading(from, to);
        double bow = 0.15 * random.Normal();
        LegPath path = new(Flat(from), Turned(direct, bow), Flat(to), Turned(direct, -bow), 0.35 * straight, 0.35 * straight);
        double peak = random.Between(1.2, 1.8), speed = Math.Min(speedMs * random.Between(0.92, 1.08), Math.Sqrt(0.55 * path.LengthM * peak));
        SlowDown slow = SlowDown.WithPeak(speed, peak, style.Shape, Math.Min(5, 0.15 * path.LengthM / speed));
        double start = Math.Min(0.55 * path.LengthM, 1.3 * slow.DistanceM);
        HeightPlan height = new(from.Up, to.Up, start, random.Between(7, 12), 1, 0.02, 0, path.LengthM);
        double spinUpS = 1.6 * speed / random.Between(1.2, 1.9), way = 0, t = 0, slowAfter = path.LengthM - slow.DistanceM;
        while (way < slowAfter)
        {
            t += FlightModel.StepS;
            way += speed * Quintic(Math.Min(1, t / spinUpS)) * FlightModel.StepS;
            Go(path, height, way);
        }
        double rest = (way - slowAfter) / speed;
        for (int i = 1; i * FlightModel.StepS <= slow.DurationS; i++)
            Go(path, height, slowAfter + slow.Covered(i * FlightModel.StepS + rest));
    }

    private void End()
    {
        if (scenario.BaseEnu is { } place)
        {
            GoTo(place + new Enu(0, 0, flight.Wish.Up), 2);
            GoTo(place + new Enu(0, 0, OnSkidsM), 1.4);
            flight.Restlessness = 0;
        }
        Hold(random.Between(10, 30));
    }

    private void Hold(double seconds)
    {
        Enu here = flight.Wish;
        for (int i = (int)(seconds / FlightModel.StepS); i > 0; i--)
            flight.Step(here);
    }

    /// <summary>A gentle move to a place, at rest at both ends.</summary>
    private void GoTo(Enu to, double meanSpeedMs)
    {
        Enu from = flight.Wish, way = to - from;
        double seconds = Math.Max(1.5, way.Length / meanSpeedMs);
        int steps = (int)(seconds / FlightModel.StepS);
        for (int i = 1; i <= steps; i++)
            flight.Step(from + Quintic(i / (double)steps) * way);
    }

    private void Climb(double hookAboveM, double meanRateMs, double groundUp = 0) =>
        GoTo(Flat(flight.Wish) + new Enu(0, 0, groundUp + hookAboveM), meanRateMs);

    private Enu Spread(double sigmaM) => new(sigmaM * random.Normal(), sigmaM * random.Normal(), 0);

    private static Enu Flat(Enu v) => new(v.East, v.North, 0);

    private static Enu Heading(Enu from, Enu to) => (1 / (to - from).Horizontal) * Flat(to - from);

    /// <summary>Turned to the left by an angle, rad.</summary>
    private static Enu Turned(Enu v, double leftRad)
    {
        (double s, double c) = Math.SinCos(leftRad);
        return new(c * v.East - s * v.North, s * v.East + c * v.North, 0);
    }

    /// <summary>10x³ − 15x⁴ + 6x⁵.</summary>
    private static double Quintic(double x) => x * x * x * (10 + x * (-15 + 6 * x));

    private sealed record Approach(
        double SpeedMs, double PeakMs2, double SofteningS, double GlideDeg, double StartDistanceM, double ExtraHeightM, double CarryM,
        double AlongM, double AcrossM, double WaitS, double SinkMs, Enu Course);
}

/// <summary>Height of the hook along a leg: climb out, cruise with a slope, glide to the end height, all joined softly.</summary>
internal sealed class HeightPlan
{
    private readonly double fromUp, endUp, startM, glideRise, bend, slope, lengthM, climbM;

    public HeightPlan(double fromUp, double endUp, double startM, double glideDeg, double bend, double slope, double extraHeightM, double lengthM)
    {
        (this.fromUp, this.endUp, this.startM, this.bend, this.lengthM) = (fromUp, endUp, startM, bend, lengthM);
        double glide = Math.Tan(double.DegreesToRadians(glideDeg));
        glideRise = Math.Max(12, startM * glide + extraHeightM);
        double cruiseM = lengthM - startM, begins = endUp + glideRise + slope * cruiseM;
        double kept = Math.Clamp(begins, fromUp + 12, Math.Max(fromUp + 60, fromUp + 0.15 * lengthM));
        this.slope = Math.Min((kept - endUp - glideRise) / cruiseM, glideRise / startM - 0.06);
        climbM = Math.Min(0.85 * cruiseM, Math.Max(60, (endUp + glideRise + this.slope * cruiseM - fromUp) / 0.22));
    }

    /// <summary>Height after a way along the leg.</summary>
    public double UpAt(double wayM)
    {
        double togo = Math.Max(0, lengthM - wayM);
        double outer = endUp + glideRise + slope * (togo - startM), inner = endUp + glideRise * Math.Pow(togo / startM, bend);
        const double softM = 3;
        double up = (outer + inner - Math.Sqrt((outer - inner) * (outer - inner) + softM * softM)) / 2;
        up += (endUp - Joined(softM)) * Math.Exp(-togo / 20); // the soft join reaches the end height exactly
        if (wayM >= climbM)
            return up;
        double x = Math.Max(0, wayM / climbM);
        return fromUp + x * x * x * (10 + x * (-15 + 6 * x)) * (up - fromUp);
    }

    private double Joined(double softM)
    {
        double outer = endUp + glideRise - slope * startM;
        return (outer + endUp - Math.Sqrt((outer - endUp) * (outer - endUp) + softM * softM)) / 2;
    }
}
