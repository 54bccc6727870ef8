namespace Stillhook.Planning.Ordering;

/// <summary>A minute before which no order of the given loads can end, from counting alone.</summary>
/// <remarks>
/// Counted: the loaded legs; the cheapest empty legs that could link them (each site's cheapest way on, or each pick-up's cheapest way in, whichever
/// gives more); the fewest stops at base that fuel, capacity and breaks permit; the detour, the fixed minutes and the least uplift of those stops.
/// Ignored: that the cheapest links may not make one tour, precedence, groups, the hour of each load (its best hour of the day counts) and the latest end.
/// </remarks>
internal sealed class OrderBound
{
    private readonly OrderGrid grid;
    private readonly int[] loads;
    private readonly int firstTank;
    private readonly int[] hours;

    /// <summary>Counts.</summary>
    /// <param name="grid">The problem.</param>
    /// <param name="loads">The loads that are all flown.</param>
    /// <param name="horizon">A finish that is known to be possible: only hours up to it can matter to the best; null: none known.</param>
    public OrderBound(OrderGrid grid, IEnumerable<int> loads, int? horizon = null)
    {
        const int hour = 60 * OrderGrid.PerMinute;
        int last = Math.Min(horizon ?? int.MaxValue, Math.Min(grid.LatestEnd, grid.Start + 24 * hour));
        hours = [.. Enumerable.Range(grid.Start / hour, Math.Clamp(last / hour - grid.Start / hour + 1, 1, 24)).Select(h => h % 24)];
        (this.grid, this.loads) = (grid, [.. loads]);
        firstTank = grid.StartFuel ?? grid.Tank / grid.Step * grid.Step;
        if (this.loads.Length == 0)
        {
            Finish = grid.Start;
            return;
        }
        int loadedMinutes = this.loads.Sum(l => grid.LoadedMinutes[grid.Route[l]] + grid.FixedMinutes[grid.Route[l]]);
        int loadedFuel = this.loads.Sum(l => grid.LoadedFuel[grid.Route[l]]);
        FlyingMinutes = loadedMinutes + Links(grid.LegMinutes);
        Burn = loadedFuel + Links(grid.LegFuel);
        Refuels = FewestRefuels();
        Breaks = grid.BreakDue is int due && due > 0 ? Math.Max(0, (FlyingMinutes + due - 1) / due - 1) : 0;
        // The first refuelling may be before the first load and then is no detour.
        int detours = Math.Max(Math.Max(0, grid.StartFuel is null ? Refuels : Refuels - 1), Breaks);
        int uplift = grid.StepsUp(Burn + detours * Detour(grid.LegFuel) + grid.Reserve - firstTank);
        int refuelling = Refuels * grid.RefuelFixed + uplift / grid.Step * grid.RefuelPerStep;
        Finish = grid.Start + FlyingMinutes + detours * Detour(grid.LegMinutes) + Math.Max(refuelling + Breaks * BreakBeyondRefuelling(grid), Breaks * grid.BreakLength);
    }

    /// <summary>Bound on the clock minute back at base, on the grid.</summary>
    public int Finish { get; }

    /// <summary>Bound on the minutes in the air.</summary>
    public int FlyingMinutes { get; }

    /// <summary>Bound on the burn.</summary>
    public int Burn { get; }

    /// <summary>Fewest refuellings.</summary>
    public int Refuels { get; }

    /// <summary>Fewest breaks.</summary>
    public int Breaks { get; }

    /// <summary>What a break takes at least beyond the refuelling done during it.</summary>
    public static int BreakBeyondRefuelling(OrderGrid grid) =>
        Math.Max(0, grid.BreakLength - grid.RefuelMinutes(Math.Max(0, grid.Tank - grid.Reserve) / grid.Step * grid.Step));

    private IEnumerable<int> PickUps => loads.Select(l => grid.PickUp[grid.Route[l]]);

    private IEnumerable<int> Deliveries => loads.Select(l => grid.Delivery[grid.Route[l]]);

    /// <summary>Direct, or by way of base where that is less.</summary>
    private int Link(int[,] legs, int from, int to) => Math.Min(legs[from, to], legs[from, grid.Base] + legs[grid.Base, to]);

    private int Links(int[,] legs)
    {
        int[] pickUps = [.. PickUps.Distinct()], deliveries = [.. Deliveries.Distinct()];
        int On(int from) => pickUps.Min(p => Link(legs, from, p));
        int onwards = On(grid.Base) + Deliveries.Sum(On) + deliveries.Min(d => legs[d, grid.Base] - On(d));
        int inwards = PickUps.Sum(p => Math.Min(Link(legs, grid.Base, p), deliveries.Min(d => Link(legs, d, p)))) + deliveries.Min(d => legs[d, grid.Base]);
        return Math.Max(onwards, inwards);
    }

    private int Detour(int[,] legs) =>
        Deliveries.Distinct().Min(d => PickUps.Distinct().Min(p => legs[d, grid.Base] + legs[grid.Base, p] - Link(legs, d, p)));

    private int FewestRefuels()
    {
        int usable = grid.Tank - grid.Reserve, lacking = Burn + grid.Reserve - firstTank;
        int most = lacking <= 0 ? 0 : usable <= 0 ? 0 : (lacking + usable - 1) / usable;
        int[] rooms = [.. loads.Select(Room).Order()];
        for (int i = 0; i < rooms.Length; i++)
            if (i == rooms.Length - 1 || rooms[i + 1] > rooms[i])
                most = Math.Max(most, RefuelsFor(i + 1, rooms[i]));
        return most;
    }

    /// <summary>Fewest refuellings if so many loads must each be hooked on with no more than this fuel.</summary>
    private int RefuelsFor(int count, int room)
    {
        int later = PerTank(room), first = PerTank(Math.Min(room, firstTank));
        return count <= first ? 0 : later <= 0 ? 0 : (count - first + later - 1) / later;
    }

    /// <summary>Most of these loads in one tank: the earliest of them leaves fuel for all the later ones, the way home and the reserve.</summary>
    public int PerTank(int room)
    {
        int between = loads.Min(l => grid.LoadedFuel[grid.Route[l]] + PickUps.Distinct().Min(p => grid.LegFuel[grid.Delivery[grid.Route[l]], p]));
        int last = loads.Min(l => grid.LoadedFuel[grid.Route[l]] + grid.LegFuel[grid.Delivery[grid.Route[l]], grid.Base]);
        int spare = room - grid.Reserve - last;
        return spare < 0 ? 0 : between == 0 ? loads.Length : spare / between + 1;
    }

    private int Room(int load) =>
        Math.Min(grid.Tank - grid.LegFuel[grid.Base, grid.PickUp[grid.Route[load]]], hours.Max(h => grid.Allowance(load, h)));
}
