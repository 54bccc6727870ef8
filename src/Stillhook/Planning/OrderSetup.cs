using Stillhook.Debriefing;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Payload;

namespace Stillhook.Planning;

/// <summary>Turns loads, sites, fuel and rules into the order problem.</summary>
internal sealed class OrderSetup
{
    private const double UpliftStepKg = 5;

    // The forecast is one day's: no plan runs past its end.
    private const double Midnight = 24 * 60;

    private readonly LiftRequest request;
    private readonly PolicyInForce policy;
    private readonly PayloadCalculator payload;
    private readonly RotationLegs legs;
    private readonly FigureBook figures;

    public OrderSetup(LiftRequest request, PolicyInForce policy, PayloadCalculator payload, FigureBook figures)
    {
        (this.request, this.policy, this.payload, this.figures) = (request, policy, payload, figures);
        legs = new(request.Aircraft!);
        Base = FuelSite(request)!;
    }

    /// <summary>Where the fuel is: the site that says so, else the base, else the first pick-up; null without sites.</summary>
    public static Site? FuelSite(LiftRequest request) =>
        request.Sites.FirstOrDefault(s => s.Fuel == true) ?? request.Sites.FirstOrDefault(s => s.Use == SiteUse.Base) ?? request.Sites.FirstOrDefault(s => s.Use == SiteUse.PickUp);

    /// <summary>Where the fuel is and the day starts and ends.</summary>
    public Site Base { get; }

    /// <summary>Pick-up site of a load: the one named, or the only one.</summary>
    public Site PickUp(PlannedLoad load) => request.SiteOf(load.PickUp, SiteUse.PickUp)!;

    /// <summary>Delivery site of a load: the one named, or the only one.</summary>
    public Site Delivery(PlannedLoad load) => request.SiteOf(load.Delivery, SiteUse.Delivery)!;

    public OrderProblem Problem(IReadOnlyList<LoadOnHook> loads)
    {
        List<Site> sites = [.. request.Sites];
        List<(Site PickUp, Site Delivery)> ways = [.. loads.Select(l => (PickUp(l.Load), Delivery(l.Load))).Distinct()];
        DayPlan day = request.Day!;
        Dictionary<string, string> here = loads.ToDictionary(l => l.Load.Number, l => l.Load.Number, StringComparer.OrdinalIgnoreCase);
        return new()
        {
            Sites = [.. sites.Select(s => s.Name)],
            BaseSite = sites.IndexOf(Base),
            EmptyLegs = [.. sites.Select(from => sites.Select(to => Leg(from, to)).ToArray())],
            Routes = [.. ways.Select(w => Route(sites, w.PickUp, w.Delivery))],
            Loads = [.. loads.Select(l => new OrderLoad
            {
                Number = l.Load.Number,
                NeedKg = payload.OnHookKg(l),
                Route = ways.IndexOf((PickUp(l.Load), Delivery(l.Load))),
                Family = l.Load.Family ?? l.Load.Name ?? "",
                After = [.. l.Load.After.Where(here.ContainsKey).Select(a => here[a])],
            })],
            Policy = new()
            {
                ReserveKg = ReserveKg(),
                TankMaxKg = request.Aircraft!.Fuel!.Tank.Kilograms,
                StartFuelKg = day.StartFuel?.Kilograms,
                RefuelFixedMinutes = policy.RefuelStopMinutes.Value,
                RefuelMinutesPerKg = 1 / policy.RefuelKgPerMinute.Value,
                UpliftStepKg = UpliftStepKg,
                GroupByDeliverySite = policy.GroupBySite.Value,
                BreakDueMinutes = policy.BreakAfterMinutes.Value,
                BreakMinutes = policy.BreakMinutes.Value,
                StartMinute = day.Start!.Value.ToTimeSpan().TotalMinutes,
                LatestEndMinute = day.LatestEnd?.ToTimeSpan().TotalMinutes ?? Midnight,
            },
        };
    }

    private EmptyLeg Leg(Site from, Site to)
    {
        if (ReferenceEquals(from, to))
            return new(0, 0);
        (double minutes, double fuel) = legs.Empty(from, to);
        return new(minutes, fuel);
    }

    private OrderRoute Route(List<Site> sites, Site pickUp, Site delivery)
    {
        (double minutes, double fuel) = legs.Loaded(pickUp, delivery);
        (double backMinutes, double backFuel) = legs.Empty(delivery, pickUp);
        string way = $"{FigureKey.Part(pickUp.Name)}.{FigureKey.Part(delivery.Name)}";
        Aircraft aircraft = request.Aircraft!;
        IReadOnlyList<FigureInput> inputs =
        [
            new("straight distance", Amount.Meters(RotationLegs.DistanceM(pickUp, delivery)), InputFrom.JobFile, "sites"),
            new("ground speed with a load", new(aircraft.Speeds!.Loaded, 1), InputFrom.JobFile, "aircraft.speeds.loaded"),
            new("ground speed back", new(aircraft.Speeds.Empty, 1), InputFrom.JobFile, "aircraft.speeds.empty"),
            new("hover at the pick-up", new(aircraft.Speeds.HoverAtPickUp, 1), InputFrom.JobFile, "aircraft.speeds.hoverAtPickUp"),
            new("hover at the delivery", new(aircraft.Speeds.HoverAtDelivery, 1), InputFrom.JobFile, "aircraft.speeds.hoverAtDelivery"),
            .. aircraft.Speeds.Cruise == true ? SlowEndInputs(pickUp, delivery) : [],
        ];
        string formula = aircraft.Speeds.Cruise == true ? "distance over ground speed there and back, slow ends and climb of both legs, and both hovers" : "distance over mean ground speed there and back, and both hovers";
        figures.Add(new($"rotation.{way}", $"rotation {pickUp.Name} to {delivery.Name} and back", Amount.Minutes(minutes + backMinutes),
            formula, inputs, CheckItem.CommonPractice, aircraft.Speeds.Cruise == true ? "in still air" : string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"the speeds entered are taken as means over the leg, with speeding up, slowing down and climb in them; were they held in the middle of the leg, this would be about {SlowEnds(pickUp, delivery).Minutes:0.0} min longer")));
        figures.Add(new($"burn.{way}", $"fuel of a rotation {pickUp.Name} to {delivery.Name} and back", new(UnitsNet.Mass.FromKilograms(fuel + backFuel), 0.1),
            "time of each part times its burn",
            [
                .. inputs,
                new("burn with a load", new(aircraft.Fuel!.BurnLoaded, 1), InputFrom.JobFile, "aircraft.fuel.burnLoaded"),
                new("burn without", new(aircraft.Fuel.BurnEmpty, 1), InputFrom.JobFile, "aircraft.fuel.burnEmpty"),
                new("burn in the hover", new(aircraft.Fuel.BurnHover, 1), InputFrom.JobFile, "aircraft.fuel.burnHover"),
            ],
            CheckItem.CommonPractice));
        return new()
        {
            PickUp = sites.IndexOf(pickUp),
            Delivery = sites.IndexOf(delivery),
            LoadedMinutes = minutes,
            LoadedFuelKg = fuel,
            CapacityKg = [.. Enumerable.Range(0, 24).Select(hour => Capacity(payload.At(pickUp, hour), payload.At(delivery, hour)))],
        };
    }

    /// <summary>What slow ends and climb of a rotation would cost at speeds held in the middle of the legs.</summary>
    public (double Minutes, double FuelKg) SlowEnds(Site pickUp, Site delivery)
    {
        Aircraft aircraft = request.Aircraft!;
        double there = legs.SlowEndsMinutes(pickUp, delivery, aircraft.Speeds!.Loaded), back = legs.SlowEndsMinutes(delivery, pickUp, aircraft.Speeds.Empty);
        return (there + back, there * RotationLegs.PerMinute(aircraft.Fuel!.BurnLoaded) + back * RotationLegs.PerMinute(aircraft.Fuel.BurnEmpty));
    }

    private IEnumerable<FigureInput> SlowEndInputs(Site pickUp, Site delivery)
    {
        SpeedsGiven speeds = request.Aircraft!.Speeds!;
        yield return new("speeding up and slowing down", new(UnitsNet.Acceleration.FromMetersPerSecondSquared(legs.AccelerationMs2), 0.001), speeds.Acceleration is null ? InputFrom.Default : InputFrom.JobFile, "aircraft.speeds.acceleration");
        yield return new("climb", new(UnitsNet.Speed.FromFeetPerMinute(legs.ClimbMs / 0.3048 * 60), 10), speeds.Climb is null ? InputFrom.Default : InputFrom.JobFile, "aircraft.speeds.climb");
        yield return new("slow ends and climb of both legs", Amount.Minutes(SlowEnds(pickUp, delivery).Minutes), InputFrom.Rule, "docs/method/order.md");
    }

    private double Capacity(SiteHour a, SiteHour b) => a.IsJudged && b.IsJudged ? Math.Max(0, Math.Min(a.GrossKg, b.GrossKg) - payload.OperatingKg) : 0;

    /// <summary>Final reserve, and the contingency of the longest flight a full tank allows: simple, and never less than any flight of the day needs.</summary>
    private double ReserveKg()
    {
        Aircraft aircraft = request.Aircraft!;
        double finalKg = Math.Max(policy.ReserveMinutes.Value * RotationLegs.PerMinute(aircraft.Fuel!.BurnEmpty), request.Policy?.ReserveMass?.Kilograms ?? 0);
        List<FigureInput> inputs =
        [
            PayloadCalculator.Input("final reserve time", Amount.Minutes(policy.ReserveMinutes.Value), policy.ReserveMinutes),
            new("burn without a load", new(aircraft.Fuel.BurnEmpty, 1), InputFrom.JobFile, "aircraft.fuel.burnEmpty"),
        ];
        if (request.Policy?.ReserveMass is { } mass)
            inputs.Add(new("reserve as a mass", Amount.Kilograms(mass.Kilograms), InputFrom.JobFile, "policy.reserveMass"));
        Figure final = figures.Add(new("reserve.final", "final reserve", Amount.Kilograms(finalKg), "time in cruise times burn, or the mass entered when that is more", inputs, "SPO-OP-131"));
        double share = policy.ContingencyPercent.Value / 100, tankKg = aircraft.Fuel.Tank.Kilograms;
        double contingencyKg = share * Math.Max(0, tankKg - finalKg) / (1 + share);
        return ((UnitsNet.Mass)figures.Add(new("reserve", "reserve, never cut", Amount.Kilograms(finalKg + contingencyKg), "final reserve, and the contingency share of the fuel of the longest flight that a full tank allows",
            [
                FigureBook.Of(final), PayloadCalculator.Input("contingency", Amount.Percent(policy.ContingencyPercent.Value), policy.ContingencyPercent),
                new("tank", Amount.Kilograms(tankKg), InputFrom.JobFile, "aircraft.fuel.tank"),
            ],
            "LUFTBODV3-34")).Value.Quantity).Kilograms;
    }
}
