using System.Globalization;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Papers;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Quoting;
using Stillhook.Planning.Rigging;
using Stillhook.Recording;

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
        IReadOnlyList<RequestFinding> findings = RequestCheck.ForPlan(request);
        return findings.Any(f => f.Severity == Severity.Error) ? new() { Request = request, Findings = findings } : new Planning(request, options, findings).Plan();
    }

    /// <summary>One plan while it is made.</summary>
    private sealed class Planning
    {
        private readonly LiftRequest request;
        private readonly PlanOptions options;
        private readonly IReadOnlyList<RequestFinding> findings;
        private readonly FigureBook figures = new();
        private readonly PolicyInForce policy;
        private readonly PayloadCalculator payload;
        private readonly OrderSetup orderSetup;
        private readonly HoverExpectations expectations;
        private readonly Dictionary<string, DayWeather> weather = [];

        public Planning(LiftRequest request, PlanOptions options, IReadOnlyList<RequestFinding> findings)
        {
            (this.request, this.options, this.findings) = (request, options, findings);
            policy = new(request);
            payload = new(request, policy, figures, WeatherOf);
            orderSetup = new(request, policy, payload, figures);
            expectations = new(request.Aircraft!);
        }

        public LiftPlan Plan()
        {
            IReadOnlyList<WireResult> wires = WireChecker.Check(request.Sites, request.Policy);
            List<(LoadOnHook Load, RiggingReport Rigging)> loads = [.. request.Loads.Select((load, i) => OnHook(load, i))];
            Dictionary<string, string> forbidden = Forbidden(loads, wires);
            List<LoadOnHook> candidates = [.. loads.Select(l => l.Load).Where(l => !forbidden.ContainsKey(l.Load.Number))];
            OrderProblem problem = orderSetup.Problem(candidates);
            OrderPlan? order = candidates.Count == 0 ? null : Order(problem);

            List<LoadPlan> planned = [.. loads.Select(l => Judge(l.Load, l.Rigging, order, forbidden.GetValueOrDefault(l.Load.Load.Number)))];
            foreach (Figure figure in loads.SelectMany(l => l.Rigging.Figures).Concat(wires.SelectMany(w => w.Figures)))
                figures.Add(figure);
            Quote? quote = QuoteOf(order);
            foreach (Figure figure in quote?.Figures ?? [])
                figures.Add(figure);
            return new()
            {
                Request = request,
                Findings = findings,
                Loads = planned,
                Order = order,
                OrderSites = problem.Sites,
                Wires = wires,
                Papers = PapersChecker.Check(request),
                Quote = quote,
                Form = policy.Method.Value == PayloadMethod.Interagency ? Form(order) : null,
                ModelErrorPercent = expectations.ErrorPercent,
                Figures = figures,
                Defaults = [.. figures.All.SelectMany(f => f.Inputs).Where(i => i.From == InputFrom.Default).DistinctBy(i => i.Where)],
            };
        }

        private DayWeather WeatherOf(Site site)
        {
            if (!weather.TryGetValue(site.Name, out DayWeather? day))
                weather.Add(site.Name, day = options.WeatherOf(request, site));
            return day;
        }

        private OrderPlan Order(OrderProblem problem)
        {
            OrderPlan found = OrderSearch.Find(problem);
            return options.Solver is { } solver ? solver.Improve(problem, found) : found;
        }

        private (LoadOnHook, RiggingReport) OnHook(PlannedLoad load, int index)
        {
            string path = $"loads[{index}]", slug = FigureBook.Slug(load.Number);
            RiggingReport rigging = RiggingChecker.Check(request.Rigging, load, request.Date, request.Policy);
            Figure kit = figures.Add(new($"kit.{slug}", $"kit on the hook with load {load.Number}", Amount.Kilograms(rigging.KitKg), "sum of the parts below the cargo hook and the load's slings",
                [.. rigging.Parts.Where(p => p.Part.Mass is not null && p.Part.Kind != PartKind.CargoHook).Select(p => new FigureInput(p.Part.Name, Amount.Kilograms(p.Part.Mass!.Value.Kilograms), InputFrom.JobFile, "rigging"))],
                "14CFR1.1", rigging.Parts.Any(p => p.Part.Mass is null && p.Part.Kind != PartKind.CargoHook) ? "some parts have no mass entered and count nothing" : ""));
            Figure need = Need(load, path, slug);
            return (new(load, path, Kilograms(need), rigging.KitKg, rigging.MaxLoadKg, rigging.WeakestPart ?? "", load.Construction == true, need, kit), rigging);
        }

        /// <summary>Mass to plan for: entered mass and what it may be off.</summary>
        private Figure Need(PlannedLoad load, string path, string slug)
        {
            double kg = load.Mass.Kilograms;
            FigureInput off = (load.Uncertainty, load.HowKnown) switch
            {
                ({ } given, _) => new("may be off by", Amount.Kilograms(given.Kilograms), InputFrom.JobFile, path + ".uncertainty"),
                (null, MassKnownBy.Label) => Added("added for a label", policy.LabelPercent, kg),
                (null, MassKnownBy.Estimated) => Added("added for an estimate", policy.EstimatePercent, kg),
                _ => new("weighed: nothing added", Amount.Kilograms(0), InputFrom.Rule, "common practice, no source"),
            };
            double need = Math.Ceiling(kg + ((UnitsNet.Mass)off.Value.Quantity).Kilograms - 1e-9);
            return figures.Add(new($"need.{slug}", $"mass to plan for, load {load.Number}", Amount.Kilograms(need), "mass entered and what it may be off, rounded up",
                [new($"mass, {load.HowKnown.ToString().ToLowerInvariant()}", Amount.Kilograms(kg), InputFrom.JobFile, path + ".mass"), off],
                "14CFR133.43", load.HowKnown == MassKnownBy.Weighed ? "" : "not weighed: keep the spare"));
        }

        private static FigureInput Added(string name, Chosen<double> percent, double kg) =>
            new(string.Create(CultureInfo.InvariantCulture, $"{name}, {percent.Value:0.#} %"), Amount.Kilograms(kg * percent.Value / 100), percent.From, percent.Where);

        /// <summary>Loads that no order can help: rigging, wires, hook.</summary>
        private Dictionary<string, string> Forbidden(List<(LoadOnHook Load, RiggingReport Rigging)> loads, IReadOnlyList<WireResult> wires)
        {
            Dictionary<string, string> why = [];
            foreach ((LoadOnHook load, RiggingReport rigging) in loads)
            {
                Site pickUp = orderSetup.PickUp(load.Load), delivery = orderSetup.Delivery(load.Load);
                WireResult? wire = wires.FirstOrDefault(w => w.Fails && (w.Site == pickUp.Name || w.Site == delivery.Name));
                double need = payload.NeedBeforeMarginKg(load), most = payload.StaticMaxKg(load);
                if (rigging.Fails)
                    why[load.Load.Number] = rigging.Why;
                else if (wire is not null)
                    why[load.Load.Number] = wire.Why;
                else if (need > most)
                    why[load.Load.Number] = string.Create(CultureInfo.InvariantCulture,
                        $"{(most < load.RiggingMaxKg ? "the cargo hook" : load.WeakestPart)} carries {Math.Floor(Math.Max(0, most)):0} kg of load; {Math.Ceiling(need):0} kg must be planned for.");
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
            double fuel = lift?.FuelFromKg ?? LeastFuelKg(pickUp, delivery);
            int hour = (int)(minute / 60) % 24;
            SiteHour a = payload.At(pickUp, hour), b = payload.At(delivery, hour);
            string key = $"payload.{FigureBook.Slug(load.Load.Number)}";
            LoadPayload allowed = new(payload.Payload(load, a, fuel, key + ".pickUp"), payload.Payload(load, b, fuel, key + ".delivery"));
            SitePayload governing = allowed.Governing;
            if (allowed.PickUp.Figure is { } atPickUp && allowed.Delivery.Figure is { } atDelivery)
                figures.Add(new(key, $"most that load {load.Load.Number} may weigh", Amount.Kilograms(governing.AllowedKg), "smaller of both sites",
                    [FigureBook.Of(atPickUp, $"at {pickUp.Name}"), FigureBook.Of(atDelivery, $"at {delivery.Name}")], "AMC1-SPO-HESLO-100", $"{governing.At.Site.Name} governs"));
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
                Hot = judged && forbidden is null ? HotOfDay.Find(payload, load, governing.At, fuel, WeatherOf(governing.At.Site), minute) : null,
                Hover = judged ? [expectations.At(a, gross), expectations.At(b, gross)] : [],
                Rigging = rigging,
                Remedies = forbidden is null ? [.. leftOut?.Remedies.Select(r => r.Text) ?? []] : [],
            };
        }

        private double LeastFuelKg(Site pickUp, Site delivery)
        {
            RotationLegs legs = new(request.Aircraft!);
            return Kilograms(figures.Find("reserve")!) + legs.Loaded(pickUp, delivery).FuelKg + legs.Empty(delivery, orderSetup.Base).FuelKg;
        }

        private Quote? QuoteOf(OrderPlan? order)
        {
            if (request.Quote is not { } basis)
                return null;
            int lifts = basis.Lifts ?? request.Loads.Count;
            double minutes = policy.RefuelStopMinutes.Value;
            return Quoter.Quote(basis, lifts, order?.Timeline.Refuels ?? 0, minutes, request.Aircraft!.Fuel!, request.Policy);
        }

        private InteragencyForm Form(OrderPlan? order)
        {
            double from = order?.Timeline.Steps[0].FromMinute ?? request.Day!.Start!.Value.ToTimeSpan().TotalMinutes, to = order?.Timeline.FinishMinute ?? from;
            SiteHour worst = request.Sites.Where(s => s.Use != Debriefing.SiteUse.Base)
                .SelectMany(s => Enumerable.Range((int)from / 60, (int)to / 60 - (int)from / 60 + 1).Select(h => payload.At(s, h % 24)))
                .Where(h => h.IsJudged).MinBy(h => h.GrossKg)!;
            double fuel = order?.Timeline.Steps[0].FuelFromKg ?? request.Day!.StartFuel?.Kilograms ?? 0;
            return InteragencyForm.At(request.Aircraft!, worst, payload.OperatingKg + fuel, policy.ReduceJettisonable.Value);
        }

        private static double Kilograms(Figure figure) => ((UnitsNet.Mass)figure.Value.Quantity).Kilograms;
    }
}
