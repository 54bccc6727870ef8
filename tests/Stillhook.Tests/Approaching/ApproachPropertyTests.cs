using CsCheck;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

/// <summary>What an offered approach never does, whatever the job. Limits are the rules' own; geometry is worked again here.</summary>
public class ApproachPropertyTests
{
    private const double Knot = ApproachJobs.Knot, SideErrorM = 5;

    private sealed record World(
        double LineM, double LoadKg, double DragM2, double WindFrom, double? WindKt, double ElevationM, double PickUpDeg, double HoverKg, bool Rotor, double? ClearSide,
        (double E, double N, double H)[] Masts, (double E, double N, double ToE, double ToN, double H)[] Wires, (double E, double N)[] People, double? Course, double PeopleM)
    {
        public override string ToString() => FormattableString.Invariant($"line {LineM:0.0} m, load {LoadKg:0} kg, {DragM2:0.0} m2, wind {(WindKt is { } kt ? FormattableString.Invariant($"{WindFrom:0}/{kt:0.0}") : "none")}, course {Course}, elevation {ElevationM:0} m, hover {HoverKg:0} kg, rotor {Rotor}");

        public LiftRequest Job(double turnDeg = 0)
        {
            (double E, double N) T(double e, double n) => ApproachJobs.OnMap(new(n, e, 0), turnDeg);
            double D(double deg) => ((deg + turnDeg) % 360 + 360) % 360;
            Site spot = ApproachJobs.Delivery(ElevationM, WindKt is { } kt ? ApproachJobs.Wind(D(WindFrom), kt) : null, 5) with
            {
                Obstacles = [.. Masts.Select((m, i) => { (double e, double n) = T(m.E, m.N); return ApproachJobs.Obstacle(e, n, m.H, $"mast {i}"); })],
                Wires = [.. Wires.Select((w, i) => { (double e, double n) = T(w.E, w.N); (double f, double o) = T(w.ToE, w.ToN); return ApproachJobs.Wire(e, n, f, o, w.H, $"wire {i}"); })],
                People = [.. People.Select((p, i) => { (double e, double n) = T(p.E, p.N); return ApproachJobs.Spot(e, n, $"person {i}"); })],
                CrewClearSide = ClearSide is { } side ? Angle.FromDegrees(D(side)) : null,
            };
            LiftRequest job = ApproachJobs.Job(spot, ApproachJobs.PickUp(D(PickUpDeg), 1500, ElevationM), HoverKg, LoadKg, LineM);
            return job with
            {
                Loads = [job.Loads[0] with { DragArea = Area.FromSquareMeters(DragM2) }],
                Aircraft = job.Aircraft! with { Rotor = Rotor ? new() { Radius = Length.FromMeters(5.35), Blades = 3, Chord = Length.FromMeters(0.35), TipSpeed = Speed.FromMetersPerSecond(211) } : null },
                Approach = new() { Course = Course is { } c ? Angle.FromDegrees(D(c)) : null, PeopleClearance = Length.FromMeters(PeopleM) },
            };
        }
    }

    private static Gen<World> Worlds(bool pinned)
    {
        static Gen<double> Within(double from, double to) => Gen.Double.Unit.Select(u => from + u * (to - from));
        static Gen<T[]> UpTo<T>(int most, Gen<T> gen) => Within(0, most + 0.999).SelectMany(n => gen.Array[(int)n]);
        Gen<(double, double)> place = Gen.Select(Within(0, 2 * Math.PI), Within(4, 400), (b, d) => (d * Math.Sin(b), d * Math.Cos(b)));
        Gen<(double, double, double)> mast = Gen.Select(place, Within(2, 60), (p, h) => (p.Item1, p.Item2, h));
        Gen<(double, double, double, double, double)> wire = Gen.Select(place, place, Within(6, 50), (a, b, h) => (a.Item1, a.Item2, b.Item1, b.Item2, h));
        return
            from air in Gen.Select(Within(10, 60), Within(100, 1500), Within(0.2, 4), Within(0, 360), Within(-8, 22), Within(0, 3000))
            from more in Gen.Select(Within(0, 360), Within(2500, 5000), Gen.Bool, Within(-360, 360), Within(-60, 60), Within(0, 3.999))
            from around in Gen.Select(UpTo(4, mast), UpTo(2, wire), UpTo(2, place))
            select new World(air.Item1, air.Item2, air.Item3, air.Item4, air.Item5 < 0 ? null : air.Item5, air.Item6, more.Item1, more.Item2, more.Item3, more.Item4 < 0 ? null : more.Item4,
                around.Item1, around.Item2, around.Item3, pinned ? Math.Round(air.Item4 + more.Item5 + 360) % 360 : null, new[] { 10.0, 10, 5, 20 }[(int)more.Item6]);
    }

    // The same worlds in every run; STILLHOOK_WORLDS times as many to hunt for faults.
    private static IEnumerable<World> Draw(bool pinned, int count)
    {
        int more = int.TryParse(Environment.GetEnvironmentVariable("STILLHOOK_WORLDS"), out int times) ? times : 1;
        Gen<World> worlds = Worlds(pinned);
        PCG random = new(7, 2026);
        for (int i = 0; i < count * more; i++)
            yield return worlds.Generate(random, null, out _);
    }

    // Closed form: the rules themselves.
    [Theory]
    [InlineData(true, 100)]
    [InlineData(false, 15)]
    public void Plan_AnyJob_BreaksNoRule(bool pinned, int draws)
    {
        int offered = 0;
        List<string> broken = [];
        Dictionary<bool, (double S, int N)> times = new() { [true] = default, [false] = default };
        foreach (World world in Draw(pinned, draws))
        {
            ApproachPlan plan;
            long begun = Environment.TickCount64;
            try
            {
                plan = ApproachJobs.Plan(world.Job());
            }
            catch (Exception e) when (e is ArgumentException or InvalidOperationException or ArithmeticException or IndexOutOfRangeException or NullReferenceException)
            {
                broken.Add($"{e.GetType().Name}: {e.Message.ReplaceLineEndings(" ")}; {world}");
                continue;
            }
            (double S, int N) spent = times[plan.IsOffered];
            times[plan.IsOffered] = (spent.S + (Environment.TickCount64 - begun) / 1000.0, spent.N + 1);
            if (plan.IsOffered)
                offered++;
            else if (plan.Refused is not { Length: > 10 } && plan.Findings.All(f => f.Severity != Stillhook.Recording.Severity.Error))
                broken.Add("neither offered nor refused");
            broken.AddRange(ApproachJobs.NotFinite(plan).Concat(plan.IsOffered ? Broken(plan) : []).Select(b => $"{b}; {world}"));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"offered {times[true].S / Math.Max(1, times[true].N):0.000} s each, refused {times[false].S / Math.Max(1, times[false].N):0.000} s each ({times[false].N})");
        Assert.True(broken.Count == 0, $"{broken.Count} in {draws} draws, {offered} offered:\n{string.Join("\n", broken)}");
        Assert.True(offered > draws / 8, $"only {offered} of {draws} offered");
    }

    private static List<string> Broken(ApproachPlan plan)
    {
        List<string> broken = [];
        ApproachSituation s = plan.Situation!;
        WayIn way = plan.Way!;
        LoadPath path = way.Path;
        double course = way.CourseDeg, step = path.StepS;
        if (s.Wind is { } wind && wind.Speed.Knots > 3 && wind.Speed.Knots * -Math.Cos(double.DegreesToRadians(wind.FromDeg - course)) > 0.51)
            broken.Add($"downwind: wind {wind.FromDeg:0}/{wind.Speed.Knots:0}, course {course:0}");
        if (s.Wind is { } w && Math.Abs(w.Speed.Knots * Math.Sin(double.DegreesToRadians(w.FromDeg - course))) > s.Rules.CrosswindMs.Value / Knot + 0.01)
            broken.Add("crosswind");
        if (s.Site.CrewClearSide is { } side && Math.Abs(Math.IEEERemainder(course + 180 - side.Degrees, 360)) < 30 - 1e-9)
            broken.Add("crew's side");
        if (double.RadiansToDegrees(Math.Atan2(path.Shape.StartHeightM, path.Shape.StartM)) > s.Rules.SteepestGlideDeg.Value + 1e-6)
            broken.Add("steep");
        broken.AddRange(Motion(s, path, step));
        broken.AddRange(Around(plan, s, path, course));
        foreach (ApproachGate g in plan.Gates.Where(g => g.AltimeterFt < g.UnroundedFt - 1e-6))
            broken.Add($"altimeter {g.AltimeterFt} under {g.UnroundedFt}");
        if (plan.PowerIn is { } p)
        {
            ApproachGate mark = plan.Gate(ApproachGates.PowerInName)!;
            double reading = (mark.AltimeterFt - s.ElevationM / ApproachJobs.Foot) * ApproachJobs.Foot, ratio = (288.15 - 0.0065 * s.ElevationM) / (s.TemperatureC + 273.15);
            if (mark.DistanceM < p.DistanceM - 1e-6 || mark.HookHeightM < p.HookHeightM - 1e-6 || reading / ratio < p.HookHeightM - 0.1)
                broken.Add($"power-in mark {mark.DistanceM:0.0} m, {mark.HookHeightM:0.00} m inside {p.DistanceM:0.0} m, {p.HookHeightM:0.00} m");
        }
        if (plan.Reject is { } r && plan.Gate(ApproachGates.RejectName) is { } reject && (reject.DistanceM < r.DistanceM - 1e-6 || reject.HookHeightM < r.HookHeightM - 1e-6))
            broken.Add("reject mark inside");
        return broken;
    }

    private static IEnumerable<string> Motion(ApproachSituation s, LoadPath path, double step)
    {
        double hardest = 0, at = 0, over = 0, fromBehind = s.Wind is null ? s.Rules.GustSpreadMs.Value : 0;
        string what = "";
        // Over a second, so that a step of some millimetres between two samples does not count; those are looked for elsewhere.
        int half = (int)Math.Round(0.5 / step);
        for (int i = half; i < path.StopIndex - half; i++)
        {
            double slowing = -(path.Hook[i + half].East - 2 * path.Hook[i].East + path.Hook[i - half].East) / (half * step * half * step);
            if (slowing > hardest)
                (hardest, at) = (slowing, path.TimeS(i));
            double hook = -(path.Hook[i + 1].Up - path.Hook[i - 1].Up) / (2 * step);
            double along = path.SpeedMs[i] - path.Hanging.WindAlongMs, air = Math.Sqrt(along * along + path.Hanging.WindRightMs * path.Hanging.WindRightMs);
            // The limit is the aircraft's; the load, swinging in under it, may come down a little faster.
            double beyond = hook - s.SinkLimit.At(Math.Max(0, air - fromBehind));
            if (beyond > over)
                (over, what) = (beyond, $"hook {hook:0.000} m/s at {path.TimeS(i):0.0} s");
        }
        if (over > 0.055)
            yield return $"sinks {over:0.000} m/s over the limit ({what})";
        if (hardest > s.Rules.SlowDownMs2.Value * 1.01)
            yield return $"slows down with {hardest:0.000} of {s.Rules.SlowDownMs2.Value:0.000} m/s2 at {at:0.00} s of {path.Shape.StopS:0.00} s (contact {path.TimeS(path.Count - 1):0.00} s); {path.Shape}";
    }

    private static IEnumerable<string> Around(ApproachPlan plan, ApproachSituation s, LoadPath path, double course)
    {
        double clearance = s.Rules.ClearanceM.Value, rotor = s.Request.Aircraft!.Rotor?.Radius.Meters ?? 7, margin = s.Rules.PeopleClearanceM.Value;
        LocalFrame frame = new(s.Site.Latitude.Degrees, s.Site.Longitude.Degrees, 0);
        (double E, double N) On(Angle latitude, Angle longitude)
        {
            Enu e = frame.ToEnu(latitude.Degrees, longitude.Degrees, 0);
            return (e.East, e.North);
        }
        List<(string Name, Func<(double E, double N), double> Away, double Height, double Side, double Above)> stand = [];
        foreach (Obstacle o in s.Site.Obstacles)
            stand.Add((o.Name, p => ApproachJobs.ToStretch(p, On(o.Latitude, o.Longitude), On(o.Latitude, o.Longitude)), o.Height.Meters, clearance, clearance));
        foreach (Wire w in s.Site.Wires)
            stand.Add((w.Name, p => ApproachJobs.ToStretch(p, On(w.From!.Latitude, w.From.Longitude), On(w.To!.Latitude, w.To.Longitude)), w.TopHeight!.Value.Meters, 10, 10));
        foreach ((string name, Func<(double E, double N), double> away, double height, double sideM, double above) in stand)
            for (int i = 0; i < path.Count; i++)
            {
                bool underLoad = away(ApproachJobs.OnMap(path.Load[i], course)) < sideM + SideErrorM - 0.01, underRotor = away(ApproachJobs.OnMap(path.Hook[i], course)) < rotor + sideM - 0.01;
                double lacksLoad = underLoad ? height + above - path.LoadHeightM[i] : 0, lacksHook = underRotor ? height + above - path.Hook[i].Up : 0;
                if (Math.Max(lacksLoad, lacksHook) > 0.1)
                {
                    yield return $"{(lacksLoad > 0.1 ? "load" : "hook")} {Math.Max(lacksLoad, lacksHook):0.00} m too low over {name} ({height:0.0} m high) at {path.TimeS(i) - path.Shape.StopS:0.0} s from the stop, load {path.LoadHeightM[i]:0.0} m, hook {path.Hook[i].Up:0.0} m up";
                    break;
                }
            }
        foreach (Spot person in s.Site.People)
        {
            (double E, double N) at = On(person.Latitude, person.Longitude);
            // Close to the spot, beside or beyond it: along the course not more than 3 m before.
            (double sin, double cos) = Math.SinCos(double.DegreesToRadians(course));
            bool receiver = Math.Sqrt(at.E * at.E + at.N * at.N) < Math.Min(margin, 10) + 3 && at.E * sin + at.N * cos >= -3;
            double nearest = double.PositiveInfinity;
            for (int i = 0; i < path.StopIndex; i++)
            {
                (double E, double N) under = ApproachJobs.OnMap(path.Load[i], course);
                double fall = Math.Sqrt(2 * Math.Max(0, path.LoadHeightM[i]) / 9.80665);
                // In still air and with the whole wind: wherever between the two it lands.
                for (double share = receiver ? 1 : 0; share <= 1; share += 0.5)
                {
                    (double E, double N) lands = ApproachJobs.OnMap(path.Load[i] + new Enu((path.SpeedMs[i] + share * path.Hanging.WindAlongMs) * fall, share * path.Hanging.WindRightMs * fall, 0), course);
                    nearest = Math.Min(nearest, receiver ? ApproachJobs.ToStretch(at, under, under) : ApproachJobs.ToStretch(at, under, lands));
                }
            }
            if (nearest < (receiver ? 3 : margin) - 0.05)
                yield return $"{person.Name} within {nearest:0.0} m";
        }
    }

    [Fact]
    public void Plan_Twice_IsTheSameBits()
    {
        foreach (World world in Draw(pinned: true, 5))
        {
            LiftRequest job = world.Job();
            ApproachPlan a = ApproachJobs.Plan(job), b = ApproachJobs.Plan(job);
            Assert.Equal(a.Refused, b.Refused);
            Assert.Equal(a.Gates, b.Gates);
            Assert.Equal(a.Way?.Path.Hook ?? [], b.Way?.Path.Hook ?? []);
            Assert.Equal(a.Robustness?.WorstTenthM, b.Robustness?.WorstTenthM);
            Assert.Equal(a.Checks, b.Checks);
        }
    }

    // Closed form: nothing but directions turns when the whole world does. Searched ways only: what ranks first, and what is clear, before drawn flights decide between the best.
    [Fact]
    public void AllRound_WorldTurned_TurnsTheCourseAlong()
    {
        int open = 0;
        foreach ((World world, int i) in Draw(pinned: false, 8).Select((w, i) => (w, i)))
        {
            int tens = 1 + 13 * i % 35;
            // Pick-up and wind on whole degrees, so that the extra courses turn along exactly.
            World whole = world with { PickUpDeg = Math.Round(world.PickUpDeg) + 0.2, WindFrom = Math.Round(world.WindFrom) + 0.3, WindKt = world.WindKt ?? 4.4 };
            IReadOnlyList<SectorCheck> before = Search(whole.Job()), after = Search(whole.Job(10 * tens));
            double turn = 10 * tens;
            foreach (SectorCheck sector in before)
            {
                SectorCheck same = after.MinBy(x => WaySearch.Apart(x.CourseDeg, sector.CourseDeg + turn))!;
                Assert.Equal(0, WaySearch.Apart(same.CourseDeg, sector.CourseDeg + turn), 1e-6);
                Assert.Equal(sector.Allowed, same.Allowed);
                if (sector.Way is { } way)
                {
                    Assert.Equal(way.CostS, same.Way!.CostS, 0.01);
                    Assert.Equal(way.Path.Shape.StartHeightM, same.Way.Path.Shape.StartHeightM, 0.01);
                }
                else
                    Assert.Equal(sector.Block!.Code, same.Block!.Code);
            }
            if (before.Any(x => x.Allowed))
                open++;
        }
        Assert.True(open > 2);
    }

    private static IReadOnlyList<SectorCheck> Search(LiftRequest job)
    {
        Site spot = job.Sites.First(s => s.Use == SiteUse.Delivery);
        ApproachSituation s = ApproachSituation.Of(job, spot, job.Loads[0], null, ApproachJobs.Quick);
        return new WaySearch(s, new(job, spot, s.Rules, null), null, null, null).AllRound();
    }

    // Closed form, as above; with the drawn flights too, where wind and pick-up leave no tie.
    [Theory]
    [InlineData(40)]
    [InlineData(130)]
    [InlineData(270)]
    public void Plan_WorldTurned_TurnsTheCourseAlong(double turn)
    {
        ApproachPlan Plan(double by)
        {
            (double e, double n) = ApproachJobs.OnMap(new(-150, 30, 0), 60 + by);
            return ApproachJobs.Plan(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(40 + by, 9)) with { Obstacles = [ApproachJobs.Obstacle(e, n, 20)] }, ApproachJobs.PickUp(255.2 + by)));
        }
        ApproachPlan before = Plan(0), after = Plan(turn);
        Assert.True(before.IsOffered, ApproachJobs.Said(before));
        Assert.Equal(0, WaySearch.Apart(before.CourseDeg + turn, after.CourseDeg), 1e-6);
        Assert.Equal(before.Gates.Select(g => (Math.Round(g.DistanceM), g.AltimeterFt)), after.Gates.Select(g => (Math.Round(g.DistanceM), g.AltimeterFt)));
    }
}
