namespace Stillhook.Planning.Ordering;

/// <summary>Which loads fly, from where to where, and what holds: everything that decides the order of the day's loads and its fuel.</summary>
/// <remarks>
/// Plain numbers: kg and minutes; clock minutes count from midnight of the site's own time. They come from the lift plan, which has them typed.
/// Before anything is computed they are rounded to the safe side on a grid of 0.1 kg and 0.01 min (burn, needs, reserve and minutes up;
/// capacity, tank, the given start fuel and the latest end down), so that search, solver and simulator add the same whole numbers.
/// See docs/method/order.md.
/// </remarks>
public sealed record OrderProblem
{
    /// <summary>Names of the sites; everything else speaks of a site by its place in this list.</summary>
    public required IReadOnlyList<string> Sites { get; init; }

    /// <summary>Site with the fuel, where the day starts, breaks are taken and the day ends.</summary>
    public required int BaseSite { get; init; }

    /// <summary>Flying without a load: <c>EmptyLegs[from][to]</c>. From a site to itself is normally zero.</summary>
    public required IReadOnlyList<IReadOnlyList<EmptyLeg>> EmptyLegs { get; init; }

    /// <summary>Ways from a pick-up to a delivery; a load names its route by its place in this list.</summary>
    public required IReadOnlyList<OrderRoute> Routes { get; init; }

    /// <summary>The loads, in the order given; that order decides where nothing else does.</summary>
    public required IReadOnlyList<OrderLoad> Loads { get; init; }

    /// <summary>Reserve, tank, refuelling, breaks, start and end of the day.</summary>
    public required OrderPolicy Policy { get; init; }
}

/// <summary>An empty leg from site to site.</summary>
/// <param name="Minutes">Time, min.</param>
/// <param name="FuelKg">Burn, kg.</param>
public readonly record struct EmptyLeg(double Minutes, double FuelKg);

/// <summary>One way of a load: from hook-on at the pick-up to release at the delivery.</summary>
public sealed record OrderRoute
{
    /// <summary>Site where the load is hooked on.</summary>
    public required int PickUp { get; init; }

    /// <summary>Site where the load is released.</summary>
    public required int Delivery { get; init; }

    /// <summary>Hook-on to release, min, hovering at both ends included.</summary>
    public required double LoadedMinutes { get; init; }

    /// <summary>Burn from hook-on to release, kg, hovering at both ends included, and what the fixed minutes burn.</summary>
    public required double LoadedFuelKg { get; init; }

    /// <summary>Minutes that each rotation takes besides the legs, spent before hook-on.</summary>
    public double FixedMinutes { get; init; }

    /// <summary>
    /// By clock hour 0 to 23: the most that load need and fuel may be together, kg; the worse of both sites, and valid until the release of a load
    /// hooked on at the end of that hour. Fuel at hook-on counts for both sites, which is the safe side.
    /// </summary>
    public required IReadOnlyList<double> CapacityKg { get; init; }

    /// <summary>Most load need whatever the fuel: hook, line, weakest rigging part, kg.</summary>
    public double FixedMaxKg { get; init; } = double.PositiveInfinity;
}

/// <summary>A load to be flown.</summary>
public sealed record OrderLoad
{
    /// <summary>Its number or name on the load sheet; no two are the same.</summary>
    public required string Number { get; init; }

    /// <summary>What it takes of the capacity, kg: mass with attachments and margins.</summary>
    public required double NeedKg { get; init; }

    /// <summary>Its route.</summary>
    public required int Route { get; init; }

    /// <summary>Kind of load ('container', 'formwork'); the first of each kind is its proving lift. Empty: no kind.</summary>
    public string Family { get; init; } = "";

    /// <summary>Numbers of the loads that must be delivered before it.</summary>
    public IReadOnlyList<string> After { get; init; } = [];

    /// <summary>Loads of one group stay together when the policy keeps groups together; empty: its delivery site is the group.</summary>
    public string Group { get; init; } = "";
}

/// <summary>What holds for the whole day.</summary>
public sealed record OrderPolicy
{
    /// <summary>Never cut: after each release the aircraft must be able to fly to base and land with this much, kg.</summary>
    public required double ReserveKg { get; init; }

    /// <summary>Most fuel on board, kg.</summary>
    public required double TankMaxKg { get; init; }

    /// <summary>Fuel on board at the start, kg; null: free to choose in whole uplift steps.</summary>
    public double? StartFuelKg { get; init; }

    /// <summary>Minutes of a refuelling whatever the amount.</summary>
    public double RefuelFixedMinutes { get; init; }

    /// <summary>Minutes of a refuelling for each kg.</summary>
    public double RefuelMinutesPerKg { get; init; }

    /// <summary>Fuel is taken on in whole steps of this, kg.</summary>
    public double UpliftStepKg { get; init; } = 1;

    /// <summary>Loads of one group (by default: of one delivery site) are flown one after the other; refuelling and breaks may come between.</summary>
    public bool GroupByDeliverySite { get; init; }

    /// <summary>
    /// Minutes at the controls until a break is due; null: no break rule. After each release the aircraft must be able to reach base within them.
    /// Hot refuelling is no break, and its minutes count.
    /// </summary>
    public double? BreakDueMinutes { get; init; }

    /// <summary>Length of a break, min; taken at base, refuelling may be done during it.</summary>
    public double BreakMinutes { get; init; }

    /// <summary>Clock minute at which the day starts, at base.</summary>
    public required double StartMinute { get; init; }

    /// <summary>Clock minute by which the aircraft must be back at base, such as the end of daylight; null: none.</summary>
    public double? LatestEndMinute { get; init; }
}
