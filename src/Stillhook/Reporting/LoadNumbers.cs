using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>Finds which load of the list each lift carried: by order, and by mass where a load cell measured it. Where two answers are about as good, none is given.</summary>
/// <remarks>
/// As many lifts as loads go by order, but for at most two (or a tenth) whose mass says otherwise. Else lifts and list are laid side by side in order. A pair costs (difference of mass / s)², s the larger of 3 % of the listed mass, 15 kg and half of its stated uncertainty, and is refused beyond 3 s;
/// a lift of unknown mass fits any load. Whatever stays alone on either side costs 10. A number is given where every other answer for that lift costs 4 more than the best. What is left over is then
/// given by mass alone where one lift and one load fit each other and nothing else. While the flying goes on, loads behind the last one flown are still to come: they cost nothing. Costs are own choices.
/// </remarks>
public static class LoadNumbers
{
    private const double ShareOfMass = 0.03, LeastSpreadKg = 15, MostSpreads = 3, AloneCost = 10, ClearBy = 4;
    private const int FewOutOfOrder = 2;

    /// <summary>The lifts with number, kind and, where none was measured, mass of their load. A number that a lift has already stands; struck-out lifts stay as they are.</summary>
    /// <param name="lifts">Lifts of a day or a flight.</param>
    /// <param name="inOrder">Loads in the order they were to be flown.</param>
    /// <param name="goesOn">The lifts are the first of the list, in its order, and the others are still to come: then where nothing speaks against it each gets its turn.</param>
    public static IReadOnlyList<KeptLift> Assign(IReadOnlyList<KeptLift> lifts, IReadOnlyList<PlannedLoad> inOrder, bool goesOn = false)
    {
        ArgumentNullException.ThrowIfNull(lifts);
        ArgumentNullException.ThrowIfNull(inOrder);
        Dictionary<KeptLift, PlannedLoad> found = new(ReferenceEqualityComparer.Instance);
        List<PlannedLoad> left = [.. inOrder];
        IReadOnlyList<KeptLift> counted = CountedLift.Of(lifts);
        foreach (KeptLift lift in counted.Where(l => l.LoadNumber is not null))
            if (left.Find(l => Reconciliation.Number(l.Number) == Reconciliation.Number(lift.LoadNumber)) is { } known && left.Remove(known))
                found[lift] = known;
        KeptLift[] open = [.. counted.Where(l => l.LoadNumber is null)];
        foreach ((KeptLift lift, PlannedLoad load) in ByOrder(open, left, goesOn && open.Length < left.Count))
            found[lift] = load;
        foreach ((KeptLift lift, PlannedLoad load) in ByMass([.. open.Where(l => !found.ContainsKey(l))], [.. left.Except(found.Values)]))
            found[lift] = load;
        return [.. lifts.Select(l => found.TryGetValue(l, out PlannedLoad? load) ? With(l, load) : l)];
    }

    private static KeptLift With(KeptLift lift, PlannedLoad load) => lift with
    {
        LoadNumber = load.Number,
        Family = lift.Family ?? load.Family ?? load.Name,
        LoadKg = lift.LoadKg ?? load.Mass.Kilograms,
    };

    /// <summary>Cost of a pair; infinite when the mass speaks against it.</summary>
    private static double Cost(KeptLift lift, PlannedLoad load)
    {
        if (lift is not { LoadMeasured: true, LoadKg: { } kg })
            return 0;
        double spread = Math.Max(Math.Max(ShareOfMass * load.Mass.Kilograms, LeastSpreadKg), (load.Uncertainty?.Kilograms ?? 0) / 2), off = Math.Abs(kg - load.Mass.Kilograms) / spread;
        return off <= MostSpreads ? off * off : double.PositiveInfinity;
    }

    /// <summary>As many lifts as loads: one beside the other, those left out whose mass says otherwise. With more than a few of these, or another count, the best way of laying them side by side.</summary>
    private static IEnumerable<(KeptLift, PlannedLoad)> ByOrder(KeptLift[] lifts, List<PlannedLoad> loads, bool goesOn)
    {
        (KeptLift, PlannedLoad)[] abreast = goesOn || lifts.Length == loads.Count ? [.. lifts.Zip(loads).Where(p => double.IsFinite(Cost(p.First, p.Second)))] : [];
        return abreast.Length > 0 && lifts.Length - abreast.Length <= Math.Max(FewOutOfOrder, lifts.Length / 10) ? abreast : SideBySide(lifts, loads, goesOn);
    }

    private static IEnumerable<(KeptLift, PlannedLoad)> SideBySide(KeptLift[] lifts, List<PlannedLoad> loads, bool goesOn)
    {
        int n = lifts.Length, m = loads.Count;
        double[,] before = Costs(n, m, (i, j) => Cost(lifts[i], loads[j])), after = Costs(n, m, (i, j) => Cost(lifts[n - 1 - i], loads[m - 1 - j]), goesOn ? 0 : AloneCost);
        for (int i = 0; i < n; i++)
        {
            double alone = Enumerable.Range(0, m + 1).Min(j => before[i, j] + AloneCost + after[n - 1 - i, m - j]);
            double[] with = [.. Enumerable.Range(0, m).Select(j => before[i, j] + Cost(lifts[i], loads[j]) + after[n - 1 - i, m - 1 - j])];
            int best = with.Length == 0 ? -1 : Array.IndexOf(with, with.Min());
            double next = with.Where((_, j) => j != best).Append(alone).Min();
            if (best >= 0 && with[best] + ClearBy <= next)
                yield return (lifts[i], loads[best]);
        }
    }

    /// <summary>Least cost of laying the first i of the one beside the first j of the other, for every i and j; loads before the first lift cost what is said.</summary>
    private static double[,] Costs(int n, int m, Func<int, int, double> cost, double before = AloneCost)
    {
        double[,] least = new double[n + 1, m + 1];
        for (int i = 0; i <= n; i++)
            for (int j = 0; j <= m; j++)
                if (i == 0 || j == 0)
                    least[i, j] = AloneCost * i + before * j;
                else
                    least[i, j] = Math.Min(Math.Min(least[i - 1, j], least[i, j - 1]) + AloneCost, least[i - 1, j - 1] + cost(i - 1, j - 1));
        return least;
    }

    private static IEnumerable<(KeptLift, PlannedLoad)> ByMass(KeptLift[] lifts, PlannedLoad[] loads)
    {
        foreach (KeptLift lift in lifts.Where(l => l.LoadMeasured && l.LoadKg is not null))
        {
            PlannedLoad[] fitting = [.. loads.Where(l => double.IsFinite(Cost(lift, l)))];
            if (fitting.Length == 1 && lifts.Count(l => double.IsFinite(Cost(l, fitting[0]))) == 1)
                yield return (lift, fitting[0]);
        }
    }
}
