using System.Globalization;

namespace Stillhook.Planning.Ordering;

/// <summary>Refuses a problem that makes no sense: a mistake of the caller, not a load that can't be flown.</summary>
internal static class OrderProblemCheck
{
    private const double Most = 1e6; // kg or min; keeps the grid's whole numbers far from their ends

    public static void Check(OrderProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        int sites = problem.Sites.Count;
        Index(problem.BaseSite, sites, nameof(problem.BaseSite));
        if (problem.EmptyLegs.Count != sites || problem.EmptyLegs.Any(row => row.Count != sites))
            throw new ArgumentException(Text($"EmptyLegs has a row and a column for each of the {sites} sites."), nameof(problem));
        foreach (EmptyLeg leg in problem.EmptyLegs.SelectMany(row => row))
            (_, _) = (Quantity(leg.Minutes, "EmptyLeg.Minutes"), Quantity(leg.FuelKg, "EmptyLeg.FuelKg"));
        foreach (OrderRoute route in problem.Routes)
            Check(route, sites);
        Check(problem.Policy);
        CheckLoads(problem);
    }

    private static void Check(OrderRoute route, int sites)
    {
        Index(route.PickUp, sites, nameof(route.PickUp));
        Index(route.Delivery, sites, nameof(route.Delivery));
        Quantity(route.LoadedMinutes, nameof(route.LoadedMinutes));
        Quantity(route.LoadedFuelKg, nameof(route.LoadedFuelKg));
        Quantity(route.FixedMinutes, nameof(route.FixedMinutes));
        if (route.CapacityKg.Count != 24)
            throw new ArgumentException(Text($"CapacityKg has 24 values, one for each clock hour, not {route.CapacityKg.Count}."), nameof(route));
        foreach (double capacity in route.CapacityKg)
            Quantity(capacity, nameof(route.CapacityKg));
        if (!double.IsPositiveInfinity(route.FixedMaxKg))
            Quantity(route.FixedMaxKg, nameof(route.FixedMaxKg));
    }

    private static void Check(OrderPolicy policy)
    {
        Quantity(policy.ReserveKg, nameof(policy.ReserveKg));
        Quantity(policy.TankMaxKg, nameof(policy.TankMaxKg));
        Quantity(policy.StartFuelKg ?? 0, nameof(policy.StartFuelKg));
        Quantity(policy.RefuelFixedMinutes, nameof(policy.RefuelFixedMinutes));
        Quantity(policy.RefuelMinutesPerKg, nameof(policy.RefuelMinutesPerKg));
        Quantity(policy.BreakDueMinutes ?? 0, nameof(policy.BreakDueMinutes));
        Quantity(policy.BreakMinutes, nameof(policy.BreakMinutes));
        Quantity(policy.StartMinute, nameof(policy.StartMinute));
        Quantity(policy.LatestEndMinute ?? 0, nameof(policy.LatestEndMinute));
        if (Quantity(policy.UpliftStepKg, nameof(policy.UpliftStepKg)) <= 0)
            throw new ArgumentOutOfRangeException(nameof(policy.UpliftStepKg), policy.UpliftStepKg, "The uplift step is above 0 kg.");
    }

    private static void CheckLoads(OrderProblem problem)
    {
        HashSet<string> numbers = new(StringComparer.Ordinal);
        foreach (OrderLoad load in problem.Loads)
        {
            Quantity(load.NeedKg, nameof(load.NeedKg));
            Index(load.Route, problem.Routes.Count, nameof(load.Route));
            if (!numbers.Add(load.Number))
                throw new ArgumentException($"Load {load.Number} stands twice in the list.", nameof(problem));
        }
        foreach (OrderLoad load in problem.Loads)
            if (load.After.FirstOrDefault(a => !numbers.Contains(a)) is string unknown)
                throw new ArgumentException($"Load {load.Number} must come after load {unknown}, which is not in the list.", nameof(problem));
    }

    private static double Quantity(double value, string name) =>
        value >= 0 && value <= Most ? value : throw new ArgumentOutOfRangeException(name, value, "From 0 to 1,000,000.");

    private static void Index(int value, int count, string name)
    {
        if (value < 0 || value >= count)
            throw new ArgumentOutOfRangeException(name, value, Text($"A place in a list of {count}."));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
