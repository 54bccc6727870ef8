using System.Globalization;

namespace Stillhook.Planning.Ordering;

/// <summary>Why each load stands where it stands, in words a pilot uses. Each reason is true of the plan as it is, not a guess at how it was found.</summary>
internal sealed class OrderReasons
{
    private const int MostReasons = 2;

    private readonly OrderGrid grid;
    private readonly LiftStep[] lifts;

    private OrderReasons(OrderGrid grid, OrderTimeline timeline) =>
        (this.grid, lifts) = (grid, [.. timeline.Steps.OfType<LiftStep>()]);

    /// <summary>The time line with a reason at each lift.</summary>
    public static OrderTimeline Add(OrderGrid grid, OrderTimeline timeline)
    {
        OrderReasons reasons = new(grid, timeline);
        return timeline with { Steps = [.. timeline.Steps.Select(s => s is LiftStep lift ? lift with { Reason = reasons.Why(lift) } : s)] };
    }

    private string Why(LiftStep lift) =>
        string.Join("; ", All(lift).Take(MostReasons).DefaultIfEmpty(lifts.Skip(lift.Position).All(l => l.Load > lift.Load) ? "next on the list" : "keeps the day short"));

    private IEnumerable<string> All(LiftStep lift)
    {
        if (lift.ProvingLift)
            yield return $"first {grid.Problem.Loads[lift.Load].Family}: proving lift{(LightestOfFamily(lift) ? ", the lightest of them" : "")}";
        if (grid.Before[lift.Load] is { Length: > 0 } before)
            yield return $"must come after load {Numbers(before)}";
        if (lifts.Where(l => grid.Before[l.Load].Contains(lift.Load)).Select(l => l.Load).ToArray() is { Length: > 0 } after)
            yield return $"must come before load {Numbers(after)}";
        if (Hours(lift) is string hours)
            yield return hours;
        if (Fuel(lift) is string fuel)
            yield return fuel;
        if (lift.Position > 1 && grid.Block[lift.Load] >= 0 && grid.Block[lift.Load] == grid.Block[lifts[lift.Position - 2].Load])
            yield return "same site as the one before";
    }

    private bool LightestOfFamily(LiftStep lift) =>
        lifts.Where(l => grid.Problem.Loads[l.Load].Family == grid.Problem.Loads[lift.Load].Family).All(l => l.NeedKg >= lift.NeedKg);

    /// <summary>Speaks when the load would be too heavy, with the fuel it has here, at another hour of the same day.</summary>
    private string? Hours(LiftStep lift)
    {
        int here = Hour(lift.HookOnMinute), fuel = OrderGrid.Down(lift.FuelFromKg, OrderGrid.PerKg);
        int last = Hour(lifts[^1].HookOnMinute), first = Hour(lifts[0].HookOnMinute);
        if (last < first)
            return null;
        bool Fits(int hour) => fuel <= grid.Allowance(lift.Load, hour);
        int later = Enumerable.Range(here, last - here + 1).FirstOrDefault(h => !Fits(h), -1);
        int sooner = Enumerable.Range(first, here - first + 1).LastOrDefault(h => !Fits(h), -1);
        return later >= 0 ? Text($"too heavy with this fuel from {later:00}:00 on")
            : sooner >= 0 ? Text($"too heavy with this fuel before {sooner + 1:00}:00") : null;
    }

    private string? Fuel(LiftStep lift)
    {
        double most = lift.FuelFromKg + lift.SpareKg;
        LiftStep firstOfTank = lifts[lift.Position - lift.PositionInTank];
        if (lift.PositionInTank > 1 && !AllowedWith(lift, firstOfTank.FuelFromKg))
            return Text($"fits with up to {Math.Floor(most):0} kg of fuel");
        LiftStep[] later = [.. lifts.Skip(lift.Position)];
        bool heavierLater = later.Any(l => l.NeedKg > lift.NeedKg);
        bool heaviestThatFits = later.All(l => l.NeedKg <= lift.NeedKg || !AllowedWith(l, lift.FuelFromKg));
        return heavierLater && heaviestThatFits ? Text($"heaviest that fits with {Math.Floor(lift.FuelFromKg):0} kg of fuel") : null;
    }

    /// <summary>Whether a load fits at its own hour with another amount of fuel.</summary>
    private bool AllowedWith(LiftStep lift, double fuelKg) =>
        OrderGrid.Up(fuelKg, OrderGrid.PerKg) <= grid.Allowance(lift.Load, Hour(lift.HookOnMinute));

    private static int Hour(double minute) => OrderGrid.Hour(OrderGrid.Up(minute, OrderGrid.PerMinute));

    private string Numbers(int[] loads) => string.Join(", ", loads.Select(l => grid.Problem.Loads[l].Number));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
