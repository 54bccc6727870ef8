using Stillhook.Approaching;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

/// <summary>Power-in and reject gates against motions integrated here, and the marks themselves.</summary>
public class ApproachGatesTests
{
    private const double StepS = 0.002, Share = 0.2, G = 9.80665;

    public static TheoryData<double, double, double> Cases => new()
    {
        { 3600, 600, 30 }, { 2800, 600, 30 }, { 2500, 600, 45 }, { 3000, 1000, 20 }, { 3300, 300, 60 }, { 2480, 600, 30 },
    };

    private static ApproachPlan Plan(double hoverKg, double loadKg, double lineM, Func<LiftRequest, LiftRequest>? change = null)
    {
        LiftRequest job = ApproachJobs.Job(hoverKg: hoverKg, loadKg: loadKg, lineM: lineM);
        ApproachPlan plan = ApproachJobs.Plan(change?.Invoke(job) ?? job, ApproachJobs.Quick with { Load = "1" });
        Assert.True(plan.IsOffered, ApproachJobs.Said(plan));
        return plan;
    }

    /// <summary>Height lost from a sink: reaction, then power behind its lag, thrust worked from it in every step. Nothing for forward speed or descent.</summary>
    private static double LostM(double sinkMs, double reactionS, double lagS, double x)
    {
        double lost = sinkMs * reactionS, sink = sinkMs, power = 1;
        for (double t = 0; sink > 0 && t < 200; t += StepS)
        {
            power += (x - power) * StepS / lagS;
            double a = G * (Math.Pow((power - Share) / (1 - Share), 2.0 / 3) - 1);
            lost += sink * StepS - a * StepS * StepS / 2;
            sink -= a * StepS;
        }
        return lost;
    }

    // Simulated truth: the motion integrated above, to 1 %.
    [Theory, MemberData(nameof(Cases))]
    public void PowerIn_CalledAtTheGate_StopsWithTheReserveAndLaterDoesNot(double hoverKg, double loadKg, double lineM)
    {
        ApproachPlan plan = Plan(hoverKg, loadKg, lineM);
        PowerInGate gate = plan.PowerIn!;
        ApproachRules rules = plan.Situation!.Rules;
        double lost = LostM(gate.SinkMs, rules.ReactionS.Value, rules.LagS.Value, plan.Situation.Hover!.Value), left = gate.LoadHeightM - lost;
        Assert.True(left > 0, $"{left:0.0} m left");
        Assert.True(left >= gate.ReserveM - 0.01 * lost - 0.05, $"{left:0.00} m left of {gate.ReserveM:0.00}");
        Assert.Equal(Math.Max(20 * 0.3048, gate.LostM / 2), gate.ReserveM, 1e-9);
        // 24 kt of air speed end it too.
        LoadPath path = plan.Way!.Path;
        Assert.True(path.Hanging.AirspeedMs(path.SpeedMs[gate.Index]) >= 24 * ApproachJobs.Knot);
        Assert.True(path.Hanging.AirspeedMs(path.SpeedMs[gate.Index + 1]) < 24 * ApproachJobs.Knot || left - 1.5 * gate.SinkMs < gate.ReserveM, $"1.5 s later still {left - 1.5 * gate.SinkMs:0.00} m of {gate.ReserveM:0.00}: gate too early");
    }

    // Simulated truth: power in hand is enough at every place before the gate, not only at it.
    [Theory, MemberData(nameof(Cases))]
    public void PowerIn_CalledAnywhereBefore_StopsWithTheReserve(double hoverKg, double loadKg, double lineM)
    {
        ApproachPlan plan = Plan(hoverKg, loadKg, lineM);
        LoadPath path = plan.Way!.Path;
        ApproachRules rules = plan.Situation!.Rules;
        for (int i = path.StartIndex; i <= plan.PowerIn!.Index; i += 40)
        {
            double sink = Math.Max(0, -(path.LoadHeightM[i + 1] - path.LoadHeightM[i - 1]) / (2 * path.StepS)), lost = LostM(sink, rules.ReactionS.Value, rules.LagS.Value, plan.Situation.Hover!.Value);
            Assert.True(path.LoadHeightM[i] - lost >= Math.Max(20 * 0.3048, lost / 2) * 0.97 - 0.1, $"at {path.DistanceM[i]:0} m: {path.LoadHeightM[i]:0.0} m up, {lost:0.0} m lost");
        }
    }

    // Closed form: the mark is rounded away from the spot, so nobody who flies it is later or lower than the gate.
    [Theory, MemberData(nameof(Cases))]
    public void Marks_PowerInAndReject_AreNoNearerNorLowerThanTheirGates(double hoverKg, double loadKg, double lineM)
    {
        ApproachPlan plan = Plan(hoverKg, loadKg, lineM);
        ApproachGate powerIn = plan.Gate(ApproachGates.PowerInName)!;
        Assert.True(powerIn.DistanceM >= plan.PowerIn!.DistanceM - 1e-9 && powerIn.HookHeightM >= plan.PowerIn.HookHeightM - 1e-9);
        if (plan.Reject is { } gate)
        {
            ApproachGate reject = plan.Gate(ApproachGates.RejectName)!;
            Assert.True(reject.DistanceM >= gate.DistanceM - 1e-9 && reject.HookHeightM >= gate.HookHeightM - 1e-9);
        }
    }

    /// <summary>The way out flown with small steps from a sample of the path: least height over flat ground beyond 30 m from the spot, and within.</summary>
    private static (double LowestAwayM, double LowestNearM) WayOut(ApproachPlan plan, int from, double turnDeg)
    {
        ApproachSituation s = plan.Situation!;
        LoadPath path = plan.Way!.Path;
        int to = Math.Min(path.Count - 1, from + (int)Math.Round(s.Rules.ReactionS.Value / path.StepS));
        double away = double.PositiveInfinity, near = double.PositiveInfinity;
        void Note(Enu p, double h)
        {
            if (Math.Sqrt(p.East * p.East + p.North * p.North) < 30)
                near = Math.Min(near, h);
            else
                away = Math.Min(away, h);
        }
        for (int i = from; i <= to; i++)
            Note(path.Load[i], path.LoadHeightM[i]);
        double height = path.LoadHeightM[to], sink = path.SinkMs(to), speed = path.SpeedMs[to], heading = 0, power = 1, x = s.Hover!.Value;
        double climb = Math.Min(1, 2 * (x - 1) * (s.HoverInducedMs ?? 10));
        Enu at = path.Load[to];
        for (double t = 0; t < 30; t += StepS)
        {
            power += (x - power) * StepS / s.Rules.LagS.Value;
            sink = Math.Max(-climb, sink - G * (Math.Pow((power - Share) / (1 - Share), 2.0 / 3) - 1) * StepS);
            height -= sink * StepS;
            heading += Math.Sign(turnDeg - heading) * Math.Min(Math.Abs(turnDeg - heading), 6 * StepS);
            (double sin, double cos) = Math.SinCos(double.DegreesToRadians(heading));
            at += new Enu(speed * StepS * cos, speed * StepS * sin, 0);
            Note(at, height);
        }
        return (away, near);
    }

    // Simulated truth: from the gate the load keeps off the ground by what is said, from 3 s later it does not, or the gate is at the end of the way in.
    [Theory, MemberData(nameof(Cases))]
    public void Reject_WayOutFromTheGate_KeepsClearAndLaterDoesNot(double hoverKg, double loadKg, double lineM)
    {
        ApproachPlan plan = Plan(hoverKg, loadKg, lineM);
        RejectGate? gate = plan.Reject;
        if (gate is null)
        {
            Assert.Contains(plan.Checks, c => c.Code == "no-way-out");
            return;
        }
        LoadPath path = plan.Way!.Path;
        (double away, double near) = WayOut(plan, gate.Index, gate.TurnDeg);
        Assert.True(away > 4.9 && near > 2.9, $"{away:0.0} m away from the spot, {near:0.0} m near it");
        int later = Math.Min(path.Count - 1, gate.Index + (int)(3 / path.StepS));
        (double laterAway, double laterNear) = WayOut(plan, later, gate.TurnDeg);
        Assert.True(laterAway < 5.1 || laterNear < 3.2 || path.LoadHeightM[later] < 20 * 0.3048 || later >= path.StopIndex, $"3 s later still {laterAway:0.0} and {laterNear:0.0} m: gate too early");
    }

    // What the figure's working names as the height kept is what is kept.
    [Theory, MemberData(nameof(Cases))]
    public void Reject_WayOut_KeepsTheHeightThatItsFigureNames(double hoverKg, double loadKg, double lineM)
    {
        ApproachPlan plan = Plan(hoverKg, loadKg, lineM);
        if (plan.Reject is not { } gate)
            return;
        double kept = ((Length)plan.Figures.Find("approach.reject")!.Inputs.Single(i => i.Name == "height kept").Value.Quantity).Meters;
        (double away, _) = WayOut(plan, gate.Index, gate.TurnDeg);
        Assert.True(away >= kept - 0.1, $"{away:0.0} m over the ground, {kept:0.0} m named");
    }

    // A mast beside the way out, out of the load's reach but within the rotor's: on the way in rotor radius + clearance are kept.
    [Fact]
    public void Reject_MastWithinTheRotorsReachBeyondTheSpot_IsMinded()
    {
        RotorGiven rotor = new() { Radius = Length.FromMeters(9), Blades = 4, Chord = Length.FromMeters(0.5), TipSpeed = Speed.FromMetersPerSecond(215) };
        LiftRequest Job(LiftRequest job, double asideM) => (job with { Aircraft = job.Aircraft! with { Rotor = rotor } })
            .WithApproach(a => a with { Course = Angle.FromDegrees(0) }).WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(asideM, 40, 90), ApproachJobs.Obstacle(-asideM, 40, 90, "mast 2")] });
        RejectGate? gate = Plan(3600, 600, 30, j => Job(j, 11)).Reject;
        // 14 m are kept on the way in; straight on the rotor would pass at 11 m.
        Assert.True(gate is null || gate.TurnDeg != 0, $"straight on between two masts 11 m to either side, from {gate?.DistanceM:0} m");
    }

    // Safe side: the mark to begin the slow-down at is no nearer than where the hook's slow-down begins.
    [Theory, MemberData(nameof(Cases))]
    public void Marks_SlowDown_IsNoNearerThanItsBegin(double hoverKg, double loadKg, double lineM)
    {
        ApproachPlan plan = Plan(hoverKg, loadKg, lineM);
        ApproachGate mark = plan.Gates.First(g => g.Name.Contains("slow down", StringComparison.Ordinal));
        Assert.True(mark.DistanceM >= plan.Way!.Path.Shape.SlowDownM - 5, $"mark {mark.DistanceM:0} m, slow-down from {plan.Way.Path.Shape.SlowDownM:0} m");
    }

    [Fact]
    public void Gates_Order_FallsToTheSpot()
    {
        ApproachPlan plan = Plan(3600, 600, 30);
        Assert.Equal(plan.Gates.OrderByDescending(g => g.DistanceM), plan.Gates);
        Assert.Equal(0, plan.Gates[^1].DistanceM);
        Assert.InRange(plan.Gates.Count, 5, 9);
        Assert.All(plan.Gates, g => Assert.Equal(0, g.AltimeterFt % 20, 1e-9));
    }

    // Closed form: cold air makes the altimeter read too high for the true height, so marks go up: (288.15 - 0.0065·500)/(273.15 - 20) − 1 = 12.5 % of the height over the reference.
    [Fact]
    public void Gates_ColdAir_GoUp()
    {
        ApproachPlan plan = Plan(3600, 600, 30, j => j.WithSpot(s => s with { Weather = s.Weather! with { Temperature = Temperature.FromDegreesCelsius(-20) } }));
        foreach (ApproachGate g in plan.Gates)
            Assert.Equal(0.1254 * g.HookHeightM / 0.3048, g.TemperatureFt, 0.5);
    }

    // A landmark near a usual mark stands in for it.
    [Fact]
    public void Gates_LandmarkNearAMark_NamesIt()
    {
        ApproachPlan plan = Plan(3600, 600, 30, j => j.WithApproach(a => a with { Course = Angle.FromDegrees(0) }).WithSpot(s => s with { Landmarks = [ApproachJobs.Spot(40, -112, "barn")] }));
        ApproachGate barn = Assert.Single(plan.Gates, g => g.Landmark == "barn");
        Assert.Equal(112, barn.DistanceM, 1.0);
    }
}
