using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Load;
using Stillhook.Physics.Motion;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>From the lift plan to the approach of one load at one site.</summary>
/// <remarks>
/// The chain: what is needed; what forbids any way in; every direction searched; the few best tried by simulated flights with soft and softer slow-downs, and the one whose worst
/// tenth is best offered; then power-in gate, reject gate, marks, and what the pilot must look at. docs/method/load-path.md and robustness.md.
/// </remarks>
public static class ApproachPlanner
{
    private const double PlanStepS = 0.05;
    private const int Finalists = 3;
    private const double LeastEntryKt = 15;

    /// <summary>The approach of a request.</summary>
    /// <param name="request">The job.</param>
    /// <param name="plan">Its lift plan; null or unplanned when the job is not complete enough for one: then power is judged from less, or not at all.</param>
    /// <param name="options">Which load and site, and what is pinned.</param>
    public static ApproachPlan Plan(LiftRequest request, LiftPlan? plan, ApproachOptions options)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(options);
        LiftPlan? lift = plan is { IsPlanned: true } ? plan : null;
        List<RequestFinding> findings = [.. RequestCheck.Check(request)];
        (Site? site, PlannedLoad? load, RequestFinding? missing) = ApproachNeeds.Choose(request, lift, options);
        if (missing is not null)
            findings.Add(missing);
        else
            findings.AddRange(ApproachNeeds.Findings(request, site!, load));
        if (findings.Any(f => f.Severity == Severity.Error))
            return new() { Findings = findings };
        ApproachSituation situation = ApproachSituation.Of(request, site!, load, lift, options);
        return new Planning(situation, options, findings).Plan();
    }

    /// <summary>One approach while it is planned.</summary>
    private sealed class Planning(ApproachSituation s, ApproachOptions options, List<RequestFinding> findings)
    {
        private readonly Surroundings surroundings = new(s.Request, s.Site, s.Rules, options.Ground);
        private readonly double? startM = options.Start?.Meters ?? s.Request.Approach?.Start?.Meters;
        private readonly double? glideDeg = options.Glide?.Degrees ?? s.Request.Approach?.Glide?.Degrees;

        public ApproachPlan Plan()
        {
            ApproachPlan blank = new() { Findings = findings, Situation = s };
            if (NoWayAtAll() is { } refused)
                return Refuse(blank, refused.Text, refused.Remedies);
            WaySearch search = new(s, surroundings, startM, glideDeg, s.Request.Approach?.Course?.Degrees);
            IReadOnlyList<SectorCheck> sectors = search.AllRound();
            if (sectors.All(x => !x.Allowed))
                return Refuse(blank with { Sectors = sectors }, "No way in: " + Nearest(sectors), Remedies(sectors));
            if (Offered(search, sectors) is not { } way)
                return Refuse(blank with { Sectors = sectors }, "No way in: what looks clear in steps of a quarter of a second is not when looked at closely.", Remedies(sectors));
            ApproachPlan found = Flown(blank with { Sectors = sectors, Way = way });
            return found with { Checks = ApproachChecks.Of(found, surroundings), Figures = ApproachFigures.Of(found), Defaults = ApproachFigures.Defaults(s) };
        }

        private ApproachPlan Refuse(ApproachPlan blank, string why, IReadOnlyList<string> remedies)
        {
            ApproachPlan refused = blank with { Refused = why, Remedies = remedies };
            return refused with { Checks = ApproachChecks.Of(refused, surroundings), Figures = ApproachFigures.Of(refused), Defaults = ApproachFigures.Defaults(s) };
        }

        /// <summary>What stands against every direction alike.</summary>
        private (string Text, IReadOnlyList<string> Remedies)? NoWayAtAll()
        {
            if (options.Ground is not null && !surroundings.HasGround)
                return ("The elevation grid does not cover the spot.", ["a grid that does, or none: then look at the map"]);
            double clearance = s.Rules.ClearanceM.Value, rotor = surroundings.RotorRadiusM;
            foreach ((string name, Physics.Earth.Enu place, double height) in surroundings.Obstacles)
            {
                if (place.Horizontal < clearance)
                    return (Text($"The spot lies {place.Horizontal:0} m from {name} ({height:0} m high), inside the {clearance:0.#} m that are kept."), ["move the spot, or correct the place of the obstacle"]);
                if (place.Horizontal < rotor + clearance && height + clearance > s.ContactLengthM)
                    return (Text($"The line is too short: {name} stands {height:0} m high, {place.Horizontal:0} m from the spot, within reach of the rotor; with the load touching the hook is {s.ContactLengthM:0.0} m up."),
                        [Text($"a line at least {Math.Ceiling(height + clearance - s.ContactLengthM):0} m longer")]);
            }
            if (s.Hover is { Value: <= 1 } hover)
                return (Text($"No hover out of ground effect with {s.LoadName}: {-hover.LeftPercent:0.0} % of the power there is lacking ({hover.From})."), ["a lighter load, less fuel or a cooler hour: see the lift plan"]);
            return null;
        }

        /// <summary>The way whose worst tenth is best, of the few that rank best; it must still be clear on the fine grid. Null when none is.</summary>
        private WayIn? Offered(WaySearch search, IReadOnlyList<SectorCheck> sectors)
        {
            RobustnessTrial trial = new(s);
            List<WayIn> ranked = [.. sectors.Select(x => x.Way).OfType<WayIn>().OrderBy(w => w.CostS)];
            foreach (IEnumerable<WayIn> few in ranked.Chunk(Finalists))
            {
                (WayIn Way, double Softness)[] asked = [.. few.SelectMany(w => WaySearch.Softness.Select(softness => (w, softness)))];
                (WayIn Way, double WorstTenthM)?[] tried = new (WayIn, double)?[asked.Length];
                Parallel.For(0, asked.Length, i =>
                {
                    if ((asked[i].Softness == WaySearch.Softness[0] ? asked[i].Way : search.Sector(asked[i].Way.CourseDeg, asked[i].Softness).Way) is { } way)
                        tried[i] = (way, trial.Fly(way, [], options.TrialFlights, options.Seed).WorstTenthM);
                });
                if (tried.OfType<(WayIn Way, double WorstTenthM)>().OrderBy(x => x.WorstTenthM).Select(x => Fine(search, x.Way)).OfType<WayIn>().FirstOrDefault() is { } best)
                    return best;
            }
            return null;
        }

        private WayIn? Fine(WaySearch search, WayIn way) =>
            SlowDownFit.Fitted(way.Path.Shape, way.Path.Hanging, s.SinkLimit, s.Rules.SlowDownMs2.Value, PlanStepS) is { } path && search.Breaks(path, way.CourseDeg) is null ? way with { Path = path } : null;

        private ApproachPlan Flown(ApproachPlan plan)
        {
            WayIn way = plan.Way!;
            ApproachPower? power = s.Hover is null ? null : ApproachPower.Of(s, way.Path);
            SinkArrest? arrest = s.Hover is { } hover ? new(s.Rules.ReactionS.Value, s.Rules.LagS.Value, hover.Value) : null;
            PowerInGate? powerIn = arrest is { } a ? PowerInGate.On(way.Path, a) : null;
            RejectGate? reject = arrest is { } b ? new WayOut(s, surroundings, b).Last(way.Path, way.CourseDeg, powerIn) : null;
            ApproachGates gates = new(s, way, power);
            Robustness robustness = new RobustnessTrial(s).Fly(way, [.. gates.Marks().Select(m => m.DistanceM)], options.Flights, options.Seed);
            ApproachPlan flown = plan with { Power = power, Arrest = arrest, PowerIn = powerIn, Reject = reject, Robustness = robustness, Empty = EmptyLines.Of(s), FallReachM = Reach(way.Path, new(way.CourseDeg)), LowestStartHeightM = LowestStart(way) };
            if (arrest is not null && powerIn is null)
                return flown with
                {
                    Way = null,
                    Robustness = null,
                    Refused = Text($"Power would have to be in before the start mark: the sink there can't be stopped over the ground with {s.Hover!.LeftPercent:0.0} % of the power left."),
                    Remedies = ["a lighter load, less fuel or a cooler hour: see the lift plan", "a flatter path"],
                };
            return flown with { Gates = gates.All(powerIn, reject, robustness.GateBroken) };
        }

        /// <summary>Farthest that a load let go on the way lands ahead of where it was, with the margin, m.</summary>
        private double Reach(LoadPath path, CourseFrame course) => s.Rules.PeopleClearanceM.Value + Enumerable.Range(path.StartIndex, path.Count - path.StartIndex)
            .Max(i => surroundings.Falls(course.ToEnu(path.Load[i]), course.ToEnu(new(path.SpeedMs[i], 0, 0)), course.ToEnu(path.Hanging.Wind), path.LoadHeightM[i]).ReachM);

        /// <summary>Halving on the start mark's height with all else as planned, to half a metre; height of the hook, m.</summary>
        private double LowestStart(WayIn way)
        {
            double low = Math.Min(way.Path.Shape.StartHeightM, s.Rules.ClearanceM.Value), high = way.Path.Shape.StartHeightM;
            while (high - low > 0.5)
            {
                double middle = (low + high) / 2;
                LoadPath path = LoadPath.Of(way.Path.Shape with { StartHeightM = middle }, way.Path.Hanging, s.SinkLimit, WaySearch.TryStepS);
                if (surroundings.Blocks(path, way.CourseDeg) is null)
                    high = middle;
                else
                    low = middle;
            }
            return high + s.ContactLengthM;
        }

        /// <summary>The direction that is nearest to being flown, and what stands against it.</summary>
        private static string Nearest(IReadOnlyList<SectorCheck> sectors)
        {
            SectorCheck nearest = sectors.MinBy(x => x.Block!.Excess)!;
            return Text($"nearest is course {nearest.CourseDeg:000}: {nearest.Block!.Text}");
        }

        /// <summary>Changes towards the safe side with which some direction opens; where none was found, what to do about what stands nearest.</summary>
        private List<string> Remedies(IReadOnlyList<SectorCheck> sectors)
        {
            ApproachGiven given = s.Request.Approach ?? new();
            double entryKt = Math.Round(s.Rules.EntrySpeedMs.Value / ApproachGates.KnotMs);
            List<string> remedies =
            [
                .. startM is null ? [] : First(["the start mark left open"], _ => Opens(s.Request, openStart: true), text => text),
                .. glideDeg is null ? [] : First(["the path angle left open"], _ => Opens(s.Request, openGlide: true), text => text),
                .. given.Course is null ? [] : First(["the course left open"], _ => Opens(s.Request with { Approach = given with { Course = null } }), text => text),
                .. First(new[] { 5.0, 10, 15, 20 }.Where(slower => entryKt - slower >= LeastEntryKt), slower => Opens(s.Request with { Approach = given with { EntrySpeed = Speed.FromKnots(entryKt - slower) } }), slower => Text($"{entryKt - slower:0} kt of air speed at the start mark")),
                .. First(startM is null ? [] : new[] { 50.0, 100, 150, 200, 300, 400, 600 }, farther => Opens(s.Request, startM + farther), farther => Text($"a start mark {startM + farther:0} m before the spot")),
                .. First(new[] { 5.0, 10, 15, 20, 30 }, longer => Opens(s.Request with { Line = s.Request.Line! with { Length = s.Request.Line.Length + Length.FromMeters(longer) } }), longer => Text($"a line {longer:0} m longer")),
            ];
            return remedies.Count > 0 ? remedies : [About(sectors.MinBy(x => x.Block!.Excess)!.Block!)];
        }

        private static IEnumerable<string> First<T>(IEnumerable<T> changes, Func<T, double?> opens, Func<T, string> words) =>
            changes.Select(c => (Change: c, Course: opens(c))).Where(x => x.Course is not null).Select(x => Text($"{words(x.Change)} (course {x.Course:000})")).Take(1);

        /// <summary>The best course that a changed job opens; null when there is none.</summary>
        private double? Opens(LiftRequest request, double? otherStartM = null, bool openStart = false, bool openGlide = false)
        {
            ApproachSituation other = s with { Request = request, Rules = new(request), Load = s.Load with { LengthM = s.Load.LengthM + (request.Line!.Length! - s.Request.Line!.Length!).Value.Meters } };
            return new WaySearch(other, surroundings, openStart ? null : otherStartM ?? startM, openGlide ? null : glideDeg, request.Approach?.Course?.Degrees).AllRound().Where(x => x.Allowed).MinBy(x => x.Way!.CostS)?.CourseDeg;
        }

        private static string About(PathBlock block) => block.Code switch
        {
            "people" => "people farther away until the load has touched, or another spot",
            "wire-height" => "the height of the wire, measured and entered",
            "obstacle" or "terrain" => "another spot, farther from what stands there",
            "ground-unknown" => "an elevation grid that covers the way in, or a look at the map without one",
            "downwind" or "crosswind" or "headwind" => "another hour, with less wind",
            "crew-side" => "the crew on another side",
            "steep" => "a flatter path, or a steeper one allowed by the operator",
            "too-low" => "a start mark farther out, a steeper path, or a lower let-down",
            _ => "another spot, or a lighter load",
        };

        private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
