using System.Globalization;
using static Stillhook.Planning.Ordering.OrderGrid;

namespace Stillhook.Planning.Ordering;

/// <summary>Why a load can't be placed, and what would make it fit within every limit.</summary>
/// <remarks>
/// The least fuel at hook-on is what the loaded leg, the way from the delivery to base and the reserve take: the reserve is never touched.
/// Hours are those from the start to the latest end, or to midnight where there is none.
/// </remarks>
internal sealed class OrderAdvice(OrderGrid grid)
{
    private const int MostParts = 9;

    /// <summary>Loads that can't be flown in any order, with the loads that wait for them.</summary>
    public List<LeftOutLoad> Impossible()
    {
        List<LeftOutLoad> left = [.. Enumerable.Range(0, grid.Loads).Where(l => !CanFly(l)).Select(TooHeavy)];
        AddWaiting(left);
        AddCycles(left);
        return left;
    }

    /// <summary>What is said of a load that could fly but found no place in the day.</summary>
    public LeftOutLoad NoPlace(int load, double finishMinute)
    {
        List<OrderRemedy> remedies = [];
        int least = LeastFuel(load), most = MostFuel(load);
        int tightest = Hours().Max(h => grid.Allowance(load, h));
        if (grid.StartFuel is int start && start - grid.LegFuel[grid.Base, grid.PickUp[grid.Route[load]]] > tightest)
            remedies.Add(new(RemedyKind.LessFuel, Text($"fits with {Kg(most):0.#} kg of fuel or less at hook-on (at least {Kg(least):0.#} kg for the way home with the reserve): start with less fuel, or fly it later in the tank")));
        int[] fits = [.. Hours().Where(h => Fits(load, h, least))];
        if (fits.Length < Hours().Length)
            remedies.Add(new(RemedyKind.CoolerHour, Text($"with {Kg(least):0.#} kg of fuel it fits at {Join(fits)} h")));
        if (grid.LatestEnd != int.MaxValue)
            remedies.Add(new(RemedyKind.MoreTime, Text($"a day that ends later than {ClockText.Limit(OrderGrid.Minutes(grid.LatestEnd))}, or an earlier start")));
        string why = grid.LatestEnd != int.MaxValue
            ? Text($"No place found before {ClockText.Limit(OrderGrid.Minutes(grid.LatestEnd))}; the planned loads end at {ClockText.Of(finishMinute)}.")
            : "No place found for it among the other loads with the fuel and hours given.";
        return new(load, Number(load), why, remedies);
    }

    /// <summary>What is said of a load that waits for one that is left out.</summary>
    public LeftOutLoad Waits(int load, int other) => new(load, Number(load),
        $"Must come after load {Number(other)}, which is left out.", [new(RemedyKind.OtherLoadFirst, $"make load {Number(other)} possible first")]);

    private void AddWaiting(List<LeftOutLoad> left)
    {
        HashSet<int> absent = [.. left.Select(l => l.Load)];
        for (bool more = true; more;)
        {
            more = false;
            for (int load = 0; load < grid.Loads; load++)
                if (!absent.Contains(load) && grid.Before[load].FirstOrDefault(absent.Contains, -1) is int other and >= 0)
                {
                    left.Add(Waits(load, other));
                    more |= absent.Add(load);
                }
        }
    }

    private void AddCycles(List<LeftOutLoad> left)
    {
        HashSet<int> stuck = [.. Enumerable.Range(0, grid.Loads).Except(left.Select(l => l.Load))];
        while (stuck.FirstOrDefault(l => !grid.Before[l].Any(stuck.Contains), -1) is int free and >= 0)
            stuck.Remove(free);
        foreach (int load in stuck.Order())
            left.Add(new(load, Number(load), $"Must come after load {Number(grid.Before[load].First(stuck.Contains))}, and that one waits for it in turn.",
                [new(RemedyKind.OtherLoadFirst, "take one of the 'must come after' out of the list")]));
    }

    private bool CanFly(int load) => Hours().Any(h => Fits(load, h, LeastFuel(load))) && LeavingBase(load) <= grid.Tank;

    private bool Fits(int load, int hour, int fuel) => fuel <= grid.Allowance(load, hour);

    /// <summary>Fuel with which base is left for this load alone, in whole steps.</summary>
    private int LeavingBase(int load)
    {
        int wanted = grid.LegFuel[grid.Base, grid.PickUp[grid.Route[load]]] + LeastFuel(load);
        return grid.StartFuel is int start ? start + grid.StepsUp(wanted - start) : grid.StepsUp(wanted);
    }

    /// <summary>Least fuel at hook-on: loaded leg, way home, reserve.</summary>
    private int LeastFuel(int load) => grid.LoadedFuel[grid.Route[load]] + grid.LegFuel[grid.Delivery[grid.Route[load]], grid.Base] + grid.Reserve;

    private int MostFuel(int load) => Hours().Max(h => grid.Allowance(load, h));

    private int[] Hours()
    {
        int first = grid.Start / (60 * PerMinute), last = grid.LatestEnd == int.MaxValue ? Math.Max(first, 23) : Math.Max(first, grid.LatestEnd / (60 * PerMinute));
        return [.. Enumerable.Range(first, Math.Min(24, last - first + 1)).Select(h => h % 24)];
    }

    private LeftOutLoad TooHeavy(int load)
    {
        int route = grid.Route[load], need = grid.Need[load], least = LeastFuel(load);
        if (need > grid.FixedMax[route])
            return new(load, Number(load), Text($"{Kg(need - grid.FixedMax[route]):0.#} kg over what hook, line and rigging take, {Kg(grid.FixedMax[route]):0.#} kg."), Split(load));
        if (LeavingBase(load) > grid.Tank)
            return new(load, Number(load), Text($"The rotation with the reserve takes {Kg(LeavingBase(load)):0.#} kg of fuel; the tank takes {Kg(grid.Tank):0.#} kg."), []);
        int best = Hours().MaxBy(h => grid.Allowance(load, h)), shortBy = least - grid.Allowance(load, best);
        string why = Text($"{Kg(shortBy):0.#} kg over at its best hour, {best:00}:00, with {Kg(least):0.#} kg of fuel, the least that flies the rotation with the reserve.");
        return new(load, Number(load), why, [.. Split(load), .. CoolerHour(load), .. ShorterLeg(load, best)]);
    }

    private IEnumerable<OrderRemedy> CoolerHour(int load)
    {
        int first = Array.FindIndex([.. Enumerable.Range(0, 24)], h => !Hours().Contains(h) && Fits(load, h, LeastFuel(load)));
        if (first >= 0)
            yield return new(RemedyKind.CoolerHour, Text($"fits at {first:00}:00 with {Kg(LeastFuel(load)):0.#} kg of fuel, outside the hours of this day"));
    }

    private IEnumerable<OrderRemedy> ShorterLeg(int load, int hour)
    {
        int burn = LeastFuel(load) - grid.Reserve, permitted = grid.Allowance(load, hour) - grid.Reserve;
        if (permitted > 0)
            yield return new(RemedyKind.ShorterLeg, Text($"nearer fuel or a shorter leg: hook-on to base may burn {Kg(permitted):0.#} kg, now {Kg(burn):0.#} kg; that is {Kg(permitted + grid.Reserve):0.#} kg of fuel at hook-on or less, reserve included"));
    }

    private List<OrderRemedy> Split(int load)
    {
        int route = grid.Route[load];
        int most = Math.Min(grid.FixedMax[route], Hours().Max(h => grid.Capacity[route][h]) - LeastFuel(load));
        int parts = most > 0 ? (grid.Need[load] + most - 1) / most : int.MaxValue;
        return parts > MostParts ? [] :
            [new(RemedyKind.Split, Text($"in {parts} parts of at most {Kg(most):0.#} kg each, attachments and margins of each part included"))];
    }

    private string Number(int load) => grid.Problem.Loads[load].Number;

    private static string Join(int[] hours) =>
        hours.Length == 0 ? "no" : string.Join(", ", hours.Select(h => h.ToString("00", CultureInfo.InvariantCulture)));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
