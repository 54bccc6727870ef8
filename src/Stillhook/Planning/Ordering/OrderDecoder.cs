namespace Stillhook.Planning.Ordering;

/// <summary>For a given order of loads: where to refuel and rest, and with how much fuel to leave base.</summary>
/// <remarks>
/// A forward dynamic programme over the stops at base. Between two stops the tank is filled lazily: the least whole steps that still fly the loads
/// up to the next stop with the reserve. Lazy filling gives the least fuel at every hook-on and the least uplift in all, so nothing is lost by it
/// for a given set of stops, with two exceptions: the start fuel where it is free (the fullest permitted start is tried too), and capacities
/// that change with the hour, where leaving later could help. One label is kept for each number of loads done, hence a search, not a proof.
/// </remarks>
internal sealed class OrderDecoder
{
    private readonly OrderGrid grid;
    private readonly Label[] labels;
    private readonly int[] hookBurn, hookAfter, rooms;

    public OrderDecoder(OrderGrid grid)
    {
        this.grid = grid;
        labels = new Label[grid.Loads + 1];
        (hookBurn, hookAfter) = (new int[grid.Loads], new int[grid.Loads]);
        rooms = [.. Enumerable.Range(0, grid.Loads).Select(l => Enumerable.Range(0, 24).Max(h => grid.Allowance(l, h)))];
    }

    /// <summary>What an order comes to: more loads first, then sooner, then fewer refuels, then less fuel.</summary>
    public readonly record struct Score(int Loads, int Finish, int Stops, int Fuel) : IComparable<Score>
    {
        /// <summary>Less is better.</summary>
        public int CompareTo(Score other) =>
            Loads != other.Loads ? other.Loads.CompareTo(Loads)
            : Finish != other.Finish ? Finish.CompareTo(other.Finish)
            : Stops != other.Stops ? Stops.CompareTo(other.Stops)
            : Fuel.CompareTo(other.Fuel);
    }

    private struct Label
    {
        public bool Reached, Break;
        public int Time, Fuel, ClockFrom, Stops, Taken, From, Uplift, StartFuel;
    }

    /// <summary>Work done so far: loads looked at. The search's clock, the same on every machine.</summary>
    public long Work { get; private set; }

    /// <summary>The score of an order; loads that can't be reached at the end of it are not counted.</summary>
    public Score Evaluate(ReadOnlySpan<int> order)
    {
        Fill(order);
        int last = Last(order.Length);
        ref Label label = ref labels[last];
        return new(last, label.Time, label.Stops, label.Taken);
    }

    /// <summary>The decisions of the order's first loads, as many as can be flown.</summary>
    public OrderSequence Decode(ReadOnlySpan<int> order)
    {
        Fill(order);
        int last = Last(order.Length);
        LiftDecision[] lifts = new LiftDecision[last];
        for (int i = 0; i < last; i++)
            lifts[i] = new(order[i]);
        int start = labels[last].StartFuel;
        for (int j = last; j > 0; j = labels[j].From)
            lifts[labels[j].From] = new(order[labels[j].From], OrderGrid.Kg(labels[j].Uplift), labels[j].Break);
        return new(OrderGrid.Kg(start), lifts);
    }

    private int Last(int n)
    {
        while (n > 0 && !labels[n].Reached)
            n--;
        return n;
    }

    private void Fill(ReadOnlySpan<int> order)
    {
        Array.Clear(labels, 0, order.Length + 1);
        labels[0] = new() { Reached = true, Time = grid.Start, Fuel = grid.StartFuel ?? 0, ClockFrom = grid.Start, StartFuel = grid.StartFuel ?? 0 };
        for (int i = 0; i < order.Length; i++)
        {
            if (!labels[i].Reached)
                continue;
            Extend(order, i, pause: false);
            if (grid.BreakDue is not null && i > 0)
                Extend(order, i, pause: true);
        }
    }

    /// <summary>Leaves base after the first i loads and flies one more load after the other, as far as one tank goes.</summary>
    private void Extend(ReadOnlySpan<int> order, int i, bool pause)
    {
        int site = grid.Base, after = 0, burn = 0, required = 0, room = int.MaxValue;
        for (int j = i; j < order.Length; j++)
        {
            Work++;
            int load = order[j], route = grid.Route[load], pickUp = grid.PickUp[route];
            after += grid.LegMinutes[site, pickUp] + grid.FixedMinutes[route];
            burn += grid.LegFuel[site, pickUp];
            (hookAfter[j], hookBurn[j]) = (after, burn);
            room = Math.Min(room, rooms[load] + burn);
            after += grid.LoadedMinutes[route];
            burn += grid.LoadedFuel[route];
            site = grid.Delivery[route];
            required = Math.Max(required, burn + grid.LegFuel[site, grid.Base] + grid.Reserve);
            if (required > grid.Tank || required > room)
                return;
            bool goOn = Close(order, i, j, pause, required, room, after + grid.LegMinutes[site, grid.Base], burn + grid.LegFuel[site, grid.Base]);
            if (!goOn)
                return;
        }
    }

    /// <summary>Ends the tank after load j; false when no longer tank can work either.</summary>
    private bool Close(ReadOnlySpan<int> order, int i, int j, bool pause, int required, int room, int minutes, int burn)
    {
        ref Label from = ref labels[i];
        bool choose = i == 0 && grid.StartFuel is null;
        int uplift = choose ? 0 : grid.StepsUp(required - from.Fuel);
        int fuel = choose ? grid.StepsUp(required) : from.Fuel + uplift;
        if (fuel > grid.Tank || fuel > room)
            return false;
        if (i > 0 && uplift == 0 && !pause)
            return true;
        bool inTime = Offer(order, i, j, pause, fuel, uplift, minutes, burn);
        if (inTime && choose && grid.RefuelPerStep > 0)
        {
            int fullest = Math.Min(grid.Tank, room) / grid.Step * grid.Step;
            if (fullest > fuel)
                Offer(order, i, j, pause, fullest, 0, minutes, burn);
        }
        return inTime;
    }

    private bool Offer(ReadOnlySpan<int> order, int i, int j, bool pause, int fuel, int uplift, int minutes, int burn)
    {
        ref Label from = ref labels[i];
        int stop = grid.RefuelMinutes(uplift);
        if (pause)
            stop = Math.Max(stop, grid.BreakLength);
        int leave = from.Time + stop, clockFrom = pause ? leave : from.ClockFrom, back = leave + minutes;
        if (back > grid.LatestEnd || back - clockFrom > grid.BreakDue)
            return false;
        if (!grid.SteadyCapacity && !FitsByHour(order, i, j, fuel, leave))
            return true;
        Label to = new()
        {
            Reached = true, Time = back, Fuel = fuel - burn, ClockFrom = clockFrom, Stops = from.Stops + (uplift > 0 ? 1 : 0),
            StartFuel = i == 0 && grid.StartFuel is null ? fuel : from.StartFuel,
            Taken = from.Taken + uplift + (i == 0 && grid.StartFuel is null ? fuel : 0), From = i, Uplift = uplift, Break = pause,
        };
        if (!labels[j + 1].Reached || Better(to, labels[j + 1], j + 1 == order.Length))
            labels[j + 1] = to;
        return true;
    }

    private bool FitsByHour(ReadOnlySpan<int> order, int i, int j, int fuel, int leave)
    {
        for (int p = i; p <= j; p++, Work++)
            if (fuel - hookBurn[p] > grid.Allowance(order[p], OrderGrid.Hour(leave + hookAfter[p])))
                return false;
        return true;
    }

    /// <summary>Sooner, fuel in the tank counted as the minutes it saves at the pump; then fewer refuels, then less fuel taken.</summary>
    private bool Better(in Label a, in Label b, bool end)
    {
        long worth = end ? 0 : grid.RefuelPerStep;
        long keyA = (long)a.Time * grid.Step - worth * a.Fuel, keyB = (long)b.Time * grid.Step - worth * b.Fuel;
        return keyA != keyB ? keyA < keyB
            : a.Stops != b.Stops ? a.Stops < b.Stops
            : a.Taken != b.Taken ? a.Taken < b.Taken
            : a.ClockFrom > b.ClockFrom;
    }
}
