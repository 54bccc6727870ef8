using Stillhook.Planning.Checking;
using System.Globalization;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Papers;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Quoting;
using Stillhook.Planning.Rigging;
using Stillhook.Recording;
using Stillhook.Reporting;

namespace Stillhook.Planning;

/// <summary>From the job as entered to the lift plan.</summary>
/// <remarks>
/// The chain: findings; rigging and mass of each load; hover mass of each site by the hour; order and fuel; then for each load, in its place, what it may
/// weigh, what limits it, when heat stops it and what power it takes. With one error among the findings nothing is planned.
/// </remarks>
public static class Planner
{
    /// <summary>The lift plan of a request.</summary>
    public static LiftPlan Plan(LiftRequest request, PlanOptions options)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(options);
        IReadOnlyList<RequestFinding> findings = [.. RequestCheck.Check(request), .. RequestCheck.ForPlan(request)];
        return findings.Any(f => f.Severity == Severity.Error) ? new() { Request = request, Findings = findings } : new Planning(request, options, findings).Plan();
    }

    /// <summary>What another order of a plan's loads comes to: what breaks first, fuel and times of each. It is the planned one when the order is the plan's.</summary>
    /// <param name="plan">A plan that has an order.</param>
    /// <param name="order">Numbers of loads of the plan; those left out come after them, in the order of the plan.</param>
    /// <exception cref="ArgumentException">The plan has no order.</exception>
    public static TriedOrder Try(LiftPlan plan, IReadOnlyList<string> order)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(order);
        if (plan is not { Order: { } planned, Problem: { } problem })
            throw new ArgumentException("The plan has no order: nothing in it can be flown.", nameof(plan));
        int[] own = [.. planned.Sequence.Lifts.Select(l => l.Load)];
        int[] places = [.. OrderGiven.Places(problem, order).Where(own.Contains)];
        int[] rest = [.. own.Where(l => !order.Contains(problem.Loads[l].Number, StringComparer.OrdinalIgnoreCase))];
        int[] tried = [.. places.Except(rest), .. rest];
        return tried.SequenceEqual(own) ? OrderTrial.Known(problem, planned.Sequence, planned.Timeline) : OrderTrial.Try(problem, tried);
    }

    /// <summary>One plan while it is made.</summary>
    private sealed class Planning
    {
        private readonly LiftRequest request;
        private readonly PlanOptions options;
        private readonly IReadOnlyList<RequestFinding> findings;
        private readonly List<RequestFinding> orderFindings = [];
        private readonly FigureBook figures = new();
        private readonly PolicyInForce policy;
        private readonly PayloadCalculator payload;
        private readonly OrderSetup orderSetup;
        private readonly HoverExpectations expectations;
        private readonly RotationLegs legs;
        private readonly Dictionary<string, DayWeather> weather = [];

        public Planning(LiftRequest request, PlanOptions options, IReadOnlyList<RequestFinding> findings)
        {
            (this.request, this.options, this.findings) = (request, options, findings);
            policy = new(request);
            legs = new(request.Aircraft!);
            payload = PayloadCalculator.ForTheDay(request, policy, figures, options);
            orderSetup = new(request, policy, payload, figures);
            expectations = new(request.Aircraft!, options.Measured.Hover);
        }

        public LiftPlan Plan()
        {
            IReadOnlyList<WireCheck> wires = WireChecker.Check(request);
            List<(LoadOnHook Load, RiggingReport Rigging)> loads = [.. request.Loads.Select((load, i) => OnHook(load, i))];
            Dictionary<string, string> forbidden = Forbidden(loads, wires);
            List<LoadOnHook> candidates = [.. loads.Select(l => l.Load).Where(l => !forbidden.ContainsKey(l.Load.Number))];
            OrderProblem problem = orderSetup.Problem(candidates);
            OrderPlan? order = candidates.Count == 0 ? null : AsGiven(problem) ?? OrderPlanner.Plan(problem, options.Solver, options.OrderLimits);

            if (order is not null && request.Aircraft!.Speeds!.Cruise != true)
                order = order with { SlowEnds = SlowEnds(order), Notes = [.. order.Notes, SlowEndsNote(order)] };
            OrderFigures(order);
            List<LoadPlan> planned = [.. loads.Where(l => options.OnlyLoad is null || l.Load.Load.Number == options.OnlyLoad).Select(l => Judge(l.Load, l.Rigging, order, forbidden.GetValueOrDefault(l.Load.Load.Number)))];
            if (options.OnlyLoad is not null)
                return new() { Request = request, Findings = [.. findings, .. orderFindings], Loads = planned, Order = order, Problem = order is null ? null : problem, Wires = wires, ModelErrorPercent = expectations.ErrorPercent, Figures = figures };
            foreach (Figure figure in loads.SelectMany(l => l.Rigging.Figures).Concat(wires.Select(w => w.Needed)))
                figures.Add(figure);
            Quote? quote = QuoteOf(order);
            foreach (Figure figure in quote?.Figures ?? [])
                figures.Add(figure);
            MeasuredHover? measuredHover = MeasuredHover.Of(options.Measured.Hover, [.. planned.SelectMany(l => l.Hover)]);
            if (measuredHover is not null)
                figures.Add(measuredHover.Figure);
            return new()
            {
                Request = request,
                Findings = [.. findings, .. orderFindings],
                Loads = planned,
                Order = order,
                Problem = order is null ? null : problem,
                OrderSites = problem.Sites,
                OrderBase = problem.BaseSite,
                Conditions = DayConditions.Check(request, options),
                Air = [.. planned.Where(l => l.Lift is not null && l.Payload is not null).SelectMany(l => new[] { l.Payload!.PickUp.At, l.Payload.Delivery.At }).Distinct().OrderBy(a => a.Hour)],
                Wires = wires,
                Papers = PapersChecker.Check(request),
                Quote = quote,
                Form = policy.Method.Value == PayloadMethod.Interagency ? Form(order) : null,
                ModelErrorPercent = expectations.ErrorPercent,
                MeasuredHover = measuredHover,
                LastDay = options.Measured.LastDay,
                Figures = figures,
                Defaults = [.. figures.All.SelectMany(f => f.Inputs).Where(i => i.From == InputFrom.Default).Concat(StandOff()).DistinctBy(i => i.Where)],
            };
        }

        /// <summary>The order that the job file sets; null without one, or with a finding when it breaks something.</summary>
        private OrderPlan? AsGiven(OrderProblem problem)
        {
            if (request.Day!.Order.Count == 0)
                return null;
            int[] order = OrderGiven.Places(problem, request.Day.Order);
            OrderPlan? given = OrderPlanner.AsGiven(problem, order, out string breaks);
            if (given is null)
                orderFindings.Add(RequestCheck.Warning("day-order-breaks", "day.order", $"The order set here is not flown: {breaks}", "The plan's own order stands instead. Change this one, or take it out."));
            return given;
        }

        private DayWeather WeatherOf(Site site)
        {
            if (!weather.TryGetValue(site.Name, out DayWeather? day))
                weather.Add(site.Name, day = options.WeatherOf(request, site));
            return day;
        }

        private (LoadOnHook, RiggingReport) OnHook(PlannedLoad load, int index)
        {
            string path = string.Create(CultureInfo.InvariantCulture, $"loads[{index}]");
            Figure need = Need(load, path);
            RiggingReport rigging = RiggingChecker.Check(request, index, UnitsNet.Mass.FromKilograms(Kilograms(need)), need.Key);
            return (new(load, path, Kilograms(need), rigging.HangingMassKg, rigging.MaxLoadKg ?? double.PositiveInfinity, rigging.Weakest?.Name ?? "",
                load.Construction == true, need, figures.Add(rigging.HangingMass), rigging.MaxLoad?.Key ?? ""), rigging);
        }

        /// <summary>Mass to plan for: entered mass and what it may be off.</summary>
        private Figure Need(PlannedLoad load, string path)
        {
            double kg = load.Mass.Kilograms;
            FigureInput margin = load.HowKnown switch
            {
                MassKnownBy.Label => Added("added for a label", policy.LabelPercent, kg),
                MassKnownBy.Estimated => Added("added for an estimate", policy.EstimatePercent, kg),
                _ => new("weighed: nothing added", Amount.Kilograms(0), InputFrom.Rule, CheckItem.CommonPractice),
            };
            // A guess that is said to be exact is still a guess.
            FigureInput off = load.Uncertainty is { } given && given.Kilograms >= ((UnitsNet.Mass)margin.Value.Quantity).Kilograms
                ? new("may be off by", Amount.Kilograms(given.Kilograms), InputFrom.JobFile, path + ".uncertainty")
                : margin;
            double need = kg + ((UnitsNet.Mass)off.Value.Quantity).Kilograms;
            return figures.Add(new($"need.{FigureKey.Part(load.Number)}", $"mass to plan for, load {load.Number}", Amount.Kilograms(need), "mass entered and what it may be off; never less than the margin for a label or an estimate",
                [new($"mass, {load.HowKnown.ToString().ToLowerInvariant()}", Amount.Kilograms(kg), InputFrom.JobFile, path + ".mass"), off],
                "14CFR-133.43", load.HowKnown == MassKnownBy.Weighed ? "" : "not weighed: keep the spare"));
        }

        private static FigureInput Added(string name, Chosen<double> percent, double kg) =>
            new(string.Create(CultureInfo.InvariantCulture, $"{name}, {percent.Value:0.#} %"), Amount.Kilograms(kg * percent.Value / 100), percent.From, percent.Where);

        /// <summary>Loads that no order can help: rigging, wires, hook.</summary>
        private Dictionary<string, string> Forbidden(List<(LoadOnHook Load, RiggingReport Rigging)> loads, IReadOnlyList<WireCheck> wires)
        {
            Dictionary<string, string> why = [];
            foreach ((LoadOnHook load, RiggingReport rigging) in loads)
            {
                Site pickUp = orderSetup.PickUp(load.Load), delivery = orderSetup.Delivery(load.Load);
                WireCheck? wire = wires.FirstOrDefault(w => w.Item.Verdict == CheckVerdict.Fails && (w.Site == pickUp.Name || w.Site == delivery.Name));
                double need = payload.NeedBeforeMarginKg(load), most = payload.StaticMaxKg(load);
                if (rigging.Verdict == CheckVerdict.Fails)
                    why[load.Load.Number] = $"rigging: {string.Join(' ', rigging.Everything.Where(i => i.Verdict == CheckVerdict.Fails).Select(i => $"{i.Subject}: {i.Text}"))}";
                else if (wire is not null)
                    why[load.Load.Number] = $"wire at {wire.Site}: {wire.Wire}: {wire.Item.Text}";
                else if (need > most)
                    why[load.Load.Number] = string.Create(CultureInfo.InvariantCulture,
                        $"{(most < load.RiggingMaxKg ? "the cargo hook" : load.WeakestPart)} carries {Math.Floor(Math.Max(0, most)):0} kg of load; {Math.Ceiling(need):0} kg must be planned for.");
            }
            // What must come after a load that does not lift does not fly either.
            for (bool more = true; more;)
            {
                more = false;
                foreach ((LoadOnHook load, _) in loads.Where(l => !why.ContainsKey(l.Load.Load.Number)))
                    if (load.Load.After.FirstOrDefault(a => why.Keys.Contains(a, StringComparer.OrdinalIgnoreCase)) is { } before)
                        more = why.TryAdd(load.Load.Number, $"must come after load {before}, which does not lift.");
            }
            return why;
        }

        private LoadPlan Judge(LoadOnHook load, RiggingReport rigging, OrderPlan? order, string? forbidden)
        {
            LiftStep? lift = order?.Lifts.FirstOrDefault(l => l.Number == load.Load.Number);
            LeftOutLoad? leftOut = order?.LeftOut.FirstOrDefault(l => l.Number == load.Load.Number);
            Site pickUp = orderSetup.PickUp(load.Load), delivery = orderSetup.Delivery(load.Load);
            double minute = lift?.HookOnMinute ?? request.Day!.Start!.Value.ToTimeSpan().TotalMinutes;
            // A load without a place is judged with the reserve and the burn of its own rotation: the least fuel with which it could fly at all.
            Figure fuelFigure = figures.Add(lift is { } placed
                ? new($"fuel.{FigureKey.Part(load.Load.Number)}", $"fuel at hook-on of load {load.Load.Number}", Amount.Kilograms(placed.FuelFromKg), "start fuel and uplift less the burn of every leg before it in the time line",
                    [new("place in the order", Amount.Number(placed.Position, 1), InputFrom.Rule, "docs/method/order.md")], CheckItem.CommonPractice)
                : new($"fuel.{FigureKey.Part(load.Load.Number)}", $"least fuel that flies load {load.Load.Number}", Amount.Kilograms(LeastFuelKg(pickUp, delivery)), "reserve and the burn of its own rotation",
                    [FigureBook.Of(figures.Find("reserve")!)], CheckItem.CommonPractice));
            double fuel = Kilograms(fuelFigure);
            int hour = (int)(minute / 60) % 24;
            LoadPayload allowed = payload.Payload(load, hour, fuelFigure);
            SiteHour a = allowed.PickUp.At, b = allowed.Delivery.At;
            SitePayload governing = allowed.Governing;
            bool judged = a.IsJudged && b.IsJudged;
            LoadVerdict verdict = lift is not null ? LoadVerdict.Lifts : forbidden is null && !judged ? LoadVerdict.NotJudged : LoadVerdict.DoesNotLift;
            double gross = payload.OperatingKg + fuel + load.KitKg + load.NeedKg;
            return new()
            {
                OnHook = load,
                Verdict = verdict,
                Why = forbidden ?? (verdict, leftOut) switch
                {
                    (LoadVerdict.Lifts, _) => $"limited by {PayloadCalculator.Words(governing.LimitedBy, load)} at {governing.At.Site.Name}",
                    (LoadVerdict.NotJudged, _) => a.IsJudged ? b.NotJudged : a.NotJudged,
                    (_, { } left) => left.Why,
                    _ => "no place in any order",
                },
                Lift = lift,
                Payload = allowed,
                Hot = judged && forbidden is null ? Heat(load, [governing.At, governing.At == a ? b : a], fuel, minute) : null,
                Hover = judged ? [expectations.At(a, gross), expectations.At(b, gross)] : [],
                Rigging = rigging,
                Remedies = forbidden is null ? [.. leftOut?.Remedies.Where(WithinTheDay).Select(r => r.Kind == RemedyKind.Split ? InParts(load, governing) : r.Text) ?? []] : [],
            };
        }

        /// <summary>Where heat stops a load first: the site that the forecast passes soonest; where it passes none, the one that governs.</summary>
        private HotOfDay Heat(LoadOnHook load, SiteHour[] sites, double fuelKg, double minute) =>
            sites.Select(at => HotOfDay.Find(payload, load, at, fuelKg, WeatherOf(at.Site), minute)).MinBy(h => h.Minute ?? double.PositiveInfinity)!;

        /// <summary>Splitting, in the mass of the parts themselves: kit and margins are taken off already.</summary>
        private static string InParts(LoadOnHook load, SitePayload allowed) => allowed.AllowedKg > 0
            ? string.Create(CultureInfo.InvariantCulture, $"in {Math.Ceiling(load.NeedKg / allowed.AllowedKg):0} parts of at most {allowed.AllowedKg:0} kg each, weighed, with the same kit")
            : "in parts, lighter than can be named here";

        // A later end or an hour outside the day is the operator's to give, never the plan's to suggest.
        private static bool WithinTheDay(OrderRemedy remedy) => remedy.Kind != RemedyKind.MoreTime && !remedy.Text.Contains("outside the hours of this day", StringComparison.Ordinal);

        private double LeastFuelKg(Site pickUp, Site delivery) =>
            Kilograms(figures.Find("reserve")!) + legs.Loaded(pickUp, delivery).FuelKg + legs.Empty(delivery, orderSetup.Base).FuelKg;

        private void OrderFigures(OrderPlan? order)
        {
            if (order is null)
                return;
            OrderTimeline day = order.Timeline;
            FigureInput steps = new("steps of the time line", Amount.Number(day.Steps.Count, 1), InputFrom.Rule, "docs/method/order.md");
            figures.Add(new("order.flying", "flying time", new(UnitsNet.Duration.FromMinutes(day.FlyingMinutes), 1), "loaded legs, hovers and empty legs of the time line added up", [.. FlyingInputs(order)], CheckItem.CommonPractice,
                request.Aircraft!.Speeds!.Cruise == true ? "in still air" : SlowEndsNote(order)));
            figures.Add(new("order.refuels", "refuelling stops", Amount.Number(day.Refuels, 1), "chosen so that the day ends soonest with the reserve never cut", 
                [
                    steps, FigureBook.Of(figures.Find("reserve")!), PayloadCalculator.Input("fixed time of a stop", Amount.Minutes(policy.RefuelStopMinutes.Value), policy.RefuelStopMinutes),
                    PayloadCalculator.Input("fuel pumped", new(UnitsNet.MassFlow.FromKilogramsPerHour(policy.RefuelKgPerMinute.Value * 60), 1), policy.RefuelKgPerMinute),
                ],
                CheckItem.CommonPractice));
            figures.Add(new("order.breaks", "breaks", Amount.Number(day.Steps.OfType<BreakStep>().Count(), 1), "one before the flying time since the last one would pass the limit",
                [PayloadCalculator.Input("flying time until a break is due", Amount.Minutes(policy.BreakAfterMinutes.Value), policy.BreakAfterMinutes),
                    PayloadCalculator.Input("length of a break", Amount.Minutes(policy.BreakMinutes.Value), policy.BreakMinutes)], "BARS"));
            figures.Add(new("order.burn", "fuel burnt", Amount.Kilograms(day.BurntKg), "each leg's and hover's time in the time line times its burn", [.. FlyingInputs(order), .. Burns()], CheckItem.CommonPractice));
            figures.Add(new("order.finish", "back at base, time after midnight", new(UnitsNet.Duration.FromMinutes(day.FinishMinute), 1), "start, and every step of the time line one after the other", [steps], CheckItem.CommonPractice));
        }

        /// <summary>The receiver's sheet tells people how far off to stand: a default there is one of the plan's too.</summary>
        private IEnumerable<FigureInput> StandOff() => new Approaching.ApproachRules(request).PeopleClearanceM is { From: InputFrom.Default } keep
            ? [new("least distance that people keep from the spot until the load has touched", Amount.Meters(keep.Value), keep.From, keep.Where)] : [];

        private IEnumerable<FigureInput> FlyingInputs(OrderPlan order)
        {
            LiftStep[] lifts = [.. order.Lifts];
            double hovers = lifts.Length * (request.Aircraft!.Speeds!.HoverAtPickUp + request.Aircraft.Speeds.HoverAtDelivery).Minutes, loaded = lifts.Sum(l => l.ToMinute - l.FromMinute);
            EmptyMoveStep[] empty = [.. order.Timeline.Steps.OfType<EmptyMoveStep>()];
            yield return new(string.Create(CultureInfo.InvariantCulture, $"{lifts.Length} loaded legs, hook-on to release without the hovers"), Amount.Minutes(loaded - hovers), InputFrom.Rule, "docs/method/order.md");
            yield return new(string.Create(CultureInfo.InvariantCulture, $"{2 * lifts.Length} hovers"), Amount.Minutes(hovers), InputFrom.JobFile, "aircraft.speeds");
            yield return new(string.Create(CultureInfo.InvariantCulture, $"{empty.Length} legs without a load"), Amount.Minutes(empty.Sum(m => m.ToMinute - m.FromMinute)), InputFrom.Rule, "docs/method/order.md");
            foreach (Figure rotation in figures.All.Where(f => f.Key.StartsWith("rotation.", StringComparison.Ordinal)))
                yield return FigureBook.Of(rotation);
        }

        private IEnumerable<FigureInput> Burns()
        {
            FuelGiven fuel = request.Aircraft!.Fuel!;
            yield return new("burn with a load", new(fuel.BurnLoaded, 1), InputFrom.JobFile, "aircraft.fuel.burnLoaded");
            yield return new("burn without", new(fuel.BurnEmpty, 1), InputFrom.JobFile, "aircraft.fuel.burnEmpty");
            yield return new("burn in the hover", new(fuel.BurnHover, 1), InputFrom.JobFile, "aircraft.fuel.burnHover");
        }

        /// <summary>What the entered speeds leave out if they are not the means that they are taken for.</summary>
        private (double Minutes, double FuelKg) SlowEnds(OrderPlan order)
        {
            (double minutes, double kg) = (0, 0);
            foreach (PlannedLoad load in order.Lifts.Select(l => request.Loads.First(x => x.Number == l.Number)))
            {
                (double m, double k) = orderSetup.SlowEnds(orderSetup.PickUp(load), orderSetup.Delivery(load));
                (minutes, kg) = (minutes + m, kg + k);
            }
            return (minutes, kg);
        }

        private string SlowEndsNote(OrderPlan order) => SlowEnds(order) is var (minutes, kg) ? string.Create(CultureInfo.InvariantCulture,
            $"Flying time and fuel take the entered speeds as means over each leg, with speeding up, slowing down and climb in them. If they are held in the middle of a leg, about {minutes:0} min and {kg:0} kg of fuel are missing: say so on the Job page under the aircraft's speeds (in the job file: aircraft.speeds.cruise).") : "";

        private Quote? QuoteOf(OrderPlan? order)
        {
            MeasuredRotation? measured = CycleBaseline.Fit(request, options.Measured.Cycles);
            if ((request.Quote ?? (measured is null ? null : new())) is not { } basis)
                return null;
            OrderTimeline? day = order?.Timeline;
            return Quoter.Quote(basis, new()
            {
                Lifts = basis.Lifts is null ? new(request.Loads.Count, InputFrom.JobFile, "loads") : null,
                PlannedCycle = day is { } && order!.Lifts.Any() ? new(UnitsNet.Duration.FromMinutes(day.FlyingMinutes / order.Lifts.Count()), InputFrom.Figure, "order.flying") : null,
                Measured = measured,
                Refuels = day is null ? null : new(day.Refuels, InputFrom.Figure, "order.refuels"),
                RefuelStop = new(UnitsNet.Duration.FromMinutes(policy.RefuelStopMinutes.Value), policy.RefuelStopMinutes.From, policy.RefuelStopMinutes.Where),
                Breaks = day is null ? null : new(day.Steps.OfType<BreakStep>().Count(), InputFrom.Figure, "order.breaks"),
                BreakLength = new(UnitsNet.Duration.FromMinutes(policy.BreakMinutes.Value), policy.BreakMinutes.From, policy.BreakMinutes.Where),
                Burn = day is { FlyingMinutes: > 0 } ? new(UnitsNet.MassFlow.FromKilogramsPerHour(day.BurntKg / day.FlyingMinutes * 60), InputFrom.Figure, "order.burn") : null,
            });
        }

        private InteragencyForm? Form(OrderPlan? order)
        {
            double from = order?.Timeline.Steps[0].FromMinute ?? request.Day!.Start!.Value.ToTimeSpan().TotalMinutes, to = order?.Timeline.FinishMinute ?? from;
            SiteHour? worst = request.Sites.Where(s => s.Use != Debriefing.SiteUse.Base)
                .SelectMany(s => Enumerable.Range((int)from / 60, (int)to / 60 - (int)from / 60 + 1).Select(h => payload.At(s, h % 24)))
                .Where(h => h.IsJudged).MinBy(h => h.HoverMassKg);
            double fuel = order?.Timeline.Steps[0].FuelFromKg ?? request.Day!.StartFuel?.Kilograms ?? 0;
            return worst is null ? null : InteragencyForm.At(request.Aircraft!, worst, payload.OperatingKg + fuel, policy.ReduceJettisonable.Value);
        }

        private static double Kilograms(Figure figure) => ((UnitsNet.Mass)figure.Value.Quantity).Kilograms;
    }
}
