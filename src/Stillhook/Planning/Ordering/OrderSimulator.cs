using System.Globalization;
using static Stillhook.Planning.Ordering.OrderGrid;

namespace Stillhook.Planning.Ordering;

/// <summary>The exact check: a sequence with its refuelling and breaks becomes a time line, or the first rule it breaks.</summary>
/// <remarks>
/// Whatever the search or a solver returns goes through here. Fuel and time are added in whole grid steps, so that there is nothing to round.
/// The aircraft doesn't wait: the next leg begins when the last step ends. A sequence may leave loads out.
/// </remarks>
public static class OrderSimulator
{
    /// <summary>The time line of a sequence.</summary>
    public static OrderTimeline Run(OrderProblem problem, OrderSequence sequence)
    {
        ArgumentNullException.ThrowIfNull(sequence);
        return Run(new OrderGrid(problem), sequence);
    }

    internal static OrderTimeline Run(OrderGrid grid, OrderSequence sequence) => new OrderFlight(grid, sequence, onwards: false).Fly();

    /// <summary>The whole time line, past broken rules: to see fuel and hour at each position before the loads are matched to them.</summary>
    internal static OrderTimeline Trace(OrderGrid grid, OrderSequence sequence) => new OrderFlight(grid, sequence, onwards: true).Fly();
}

/// <summary>One run of the simulator.</summary>
internal sealed class OrderFlight(OrderGrid grid, OrderSequence sequence, bool onwards)
{
    private readonly List<OrderStep> steps = [];
    private readonly HashSet<int> done = [];
    private readonly HashSet<string> families = new(StringComparer.Ordinal);
    private readonly HashSet<int> closedBlocks = [];
    private readonly List<BrokenRule> everyBroken = [];
    private BrokenRule? broken;
    private int site, time, fuel, clockFrom, flying, burnt, refuels, inTank, position;

    public OrderTimeline Fly()
    {
        (site, time, clockFrom, fuel) = (grid.Base, grid.Start, grid.Start, Nearest(sequence.StartFuelKg));
        steps.Add(new StartStep(Minutes(time), Kg(fuel)));
        CheckStart();
        for (int i = 0; i < sequence.Lifts.Count && (onwards || broken is null); i++)
        {
            position = i + 1;
            LiftDecision decision = sequence.Lifts[i];
            if (!Known(decision.Load))
                break;
            StopAtBase(decision);
            Lift(decision.Load, i == 0 ? -1 : sequence.Lifts[i - 1].Load);
        }
        Move(grid.Base);
        return new()
        {
            Steps = steps, FinishMinute = Minutes(time), FinishFuelKg = Kg(fuel), FlyingMinutes = Minutes(flying),
            BurntKg = Kg(burnt), Refuels = refuels, Broken = broken, EveryBroken = everyBroken,
        };
    }

    private void CheckStart()
    {
        if (grid.StartFuel is int given && given != fuel)
            Break(OrderRule.StartFuel, $"starts with {Kg(fuel):0.#} kg of fuel; {Kg(given):0.#} kg is given");
        if (grid.StartFuel is null && fuel % grid.Step != 0)
            Break(OrderRule.StartFuel, $"start fuel {Kg(fuel):0.#} kg is no whole number of steps of {Kg(grid.Step):0.#} kg");
        if (fuel > grid.Tank)
            Break(OrderRule.Tank, $"{Kg(fuel):0.#} kg of fuel; the tank takes {Kg(grid.Tank):0.#} kg");
    }

    private bool Known(int load)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(load);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(load, grid.Loads);
        if (!done.Add(load))
            Break(OrderRule.LoadTwice, $"load {Number(load)} is flown twice");
        return onwards || broken is null;
    }

    private void StopAtBase(LiftDecision decision)
    {
        int uplift = Nearest(decision.UpliftBeforeKg);
        if (uplift == 0 && !decision.BreakBefore)
            return;
        Move(grid.Base);
        if (uplift < 0 || uplift % grid.Step != 0)
            Break(OrderRule.UpliftStep, $"{Kg(uplift):0.#} kg taken on is no whole number of steps of {Kg(grid.Step):0.#} kg");
        if (fuel + uplift > grid.Tank)
            Break(OrderRule.Tank, $"{Kg(fuel + uplift):0.#} kg of fuel; the tank takes {Kg(grid.Tank):0.#} kg");
        int refuelled = time + grid.RefuelMinutes(Math.Max(0, uplift)), left = refuelled;
        if (uplift > 0)
        {
            steps.Add(new RefuelStep(Minutes(time), Minutes(refuelled), Kg(fuel), Kg(fuel + uplift)));
            (refuels, inTank) = (refuels + 1, 0);
        }
        fuel += uplift;
        if (decision.BreakBefore)
        {
            left = Math.Max(refuelled, time + grid.BreakLength);
            steps.Add(new BreakStep(Minutes(time), Minutes(left), Kg(fuel - uplift), Kg(fuel)));
            clockFrom = left;
        }
        time = left;
    }

    private void Move(int to)
    {
        int minutes = grid.LegMinutes[site, to], burn = grid.LegFuel[site, to];
        if (to != site || minutes > 0 || burn > 0)
            steps.Add(new EmptyMoveStep(Minutes(time), Minutes(time + minutes), Kg(fuel), Kg(fuel - burn)) { From = site, To = to });
        Spend(minutes, burn);
        site = to;
    }

    private void Spend(int minutes, int burn) =>
        (time, flying, fuel, burnt) = (time + minutes, flying + minutes, fuel - burn, burnt + burn);

    private void Lift(int load, int previous)
    {
        int route = grid.Route[load];
        Move(grid.PickUp[route]);
        Spend(grid.FixedMinutes[route], 0);
        int allowed = Math.Min(grid.FixedMax[route], grid.Capacity[route][Hour(time)] - fuel);
        string family = grid.Problem.Loads[load].Family;
        inTank++;
        steps.Add(new LiftStep(Minutes(time), Minutes(time + grid.LoadedMinutes[route]), Kg(fuel), Kg(fuel - grid.LoadedFuel[route]))
        {
            Position = position, PositionInTank = inTank, Load = load, Number = Number(load), NeedKg = Kg(grid.Need[load]),
            AllowedKg = Kg(allowed), ProvingLift = family.Length > 0 && families.Add(family),
        });
        CheckOrder(load, previous);
        CheckLoad(load, route, allowed);
        Spend(grid.LoadedMinutes[route], grid.LoadedFuel[route]);
        site = grid.Delivery[route];
        CheckWayHome(load);
    }

    private void CheckOrder(int load, int previous)
    {
        foreach (int before in grid.Before[load])
            if (!done.Contains(before))
                Break(OrderRule.Precedence, $"load {Number(load)} must come after load {Number(before)}");
        if (previous < 0 || grid.Block[load] < 0 || grid.Block[load] == grid.Block[previous])
            return;
        closedBlocks.Add(grid.Block[previous]);
        if (closedBlocks.Contains(grid.Block[load]))
            Break(OrderRule.Grouping, $"load {Number(load)} is apart from the rest of its group");
    }

    private void CheckLoad(int load, int route, int allowed)
    {
        if (grid.Need[load] > grid.FixedMax[route])
            Break(OrderRule.FixedMax, $"load {Number(load)} needs {Kg(grid.Need[load]):0.#} kg; hook, line and rigging take {Kg(grid.FixedMax[route]):0.#} kg");
        if (grid.Need[load] > allowed)
            Break(OrderRule.Capacity, $"load {Number(load)} is {Kg(grid.Need[load] - allowed):0.#} kg over with {Kg(fuel):0.#} kg of fuel at {Hour(time):00} h");
    }

    private void CheckWayHome(int load)
    {
        int landed = fuel - grid.LegFuel[site, grid.Base], back = time + grid.LegMinutes[site, grid.Base];
        if (landed < grid.Reserve)
            Break(OrderRule.Reserve, $"load {Number(load)} cuts the reserve: {Kg(landed):0.#} kg left at base, {Kg(grid.Reserve):0.#} kg is the reserve; refuel before it");
        if (grid.BreakDue is int due && back - clockFrom > due)
            Break(OrderRule.BreakDue, $"load {Number(load)} brings {Minutes(back - clockFrom):0.#} min without a break; {Minutes(due):0.#} min are permitted");
        if (back > grid.LatestEnd)
            Break(OrderRule.LatestEnd, $"back at base {Minutes(back - grid.LatestEnd):0.#} min after the latest end");
    }

    private void Break(OrderRule rule, FormattableString text)
    {
        everyBroken.Add(new(rule, position, text.ToString(CultureInfo.InvariantCulture)));
        broken ??= everyBroken[0];
    }

    private string Number(int load) => grid.Problem.Loads[load].Number;

    private static int Nearest(double kg) => double.IsFinite(kg) ? checked((int)Math.Round(kg * PerKg)) : throw new ArgumentOutOfRangeException(nameof(kg), kg, "A number.");
}
