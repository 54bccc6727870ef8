namespace Stillhook.Reporting;

/// <summary>A day's time in the air: the stretches of its flights, counted once where records overlap. Times are s since 1970 UTC.</summary>
public sealed class FlownTime
{
    private FlownTime(IReadOnlyList<Stretch> stretches) => Stretches = stretches;

    /// <summary>Stretches in the air in order, without overlap.</summary>
    public IReadOnlyList<Stretch> Stretches { get; }

    /// <summary>All of it, s.</summary>
    public double TotalS => Stretches.Sum(s => s.LengthS);

    /// <summary>The flown time of some flights.</summary>
    public static FlownTime Of(IEnumerable<KeptFlight> flights)
    {
        ArgumentNullException.ThrowIfNull(flights);
        return new(StretchSet.Union(flights.SelectMany(f => f.Airborne)));
    }

    /// <summary>Flown before a time, s.</summary>
    public double BeforeS(double timeS) => Stretches.Sum(s => Math.Clamp(timeS - s.FromS, 0, s.LengthS));

    /// <summary>Flown between two times, s.</summary>
    public double BetweenS(double fromS, double toS) => BeforeS(toS) - BeforeS(fromS);
}

/// <summary>Sets of stretches: in order, without overlap, none empty.</summary>
internal static class StretchSet
{
    /// <summary>All of the stretches, joined where they meet. Empty and unreal ones (not finite, end before start) are left out.</summary>
    public static IReadOnlyList<Stretch> Union(IEnumerable<Stretch> stretches)
    {
        List<Stretch> joined = [];
        foreach (Stretch s in stretches.Where(IsReal).OrderBy(s => s.FromS))
            if (joined.Count > 0 && s.FromS <= joined[^1].ToS)
                joined[^1] = new(joined[^1].FromS, Math.Max(joined[^1].ToS, s.ToS));
            else
                joined.Add(s);
        return joined;
    }

    /// <summary>What is left of the one set without the other.</summary>
    public static IReadOnlyList<Stretch> Without(IEnumerable<Stretch> from, IEnumerable<Stretch> taken)
    {
        IReadOnlyList<Stretch> away = Union(taken);
        List<Stretch> left = [];
        foreach (Stretch s in Union(from))
        {
            double at = s.FromS;
            foreach (Stretch t in away.Where(t => t.ToS > s.FromS && t.FromS < s.ToS))
            {
                if (t.FromS > at)
                    left.Add(new(at, t.FromS));
                at = Math.Max(at, t.ToS);
            }
            if (at < s.ToS)
                left.Add(new(at, s.ToS));
        }
        return left;
    }

    /// <summary>Length of what two stretches have in common, s.</summary>
    public static double CommonS(Stretch a, Stretch b) => Math.Max(0, Math.Min(a.ToS, b.ToS) - Math.Max(a.FromS, b.FromS));

    /// <summary>True of a stretch with an end after its start, both finite.</summary>
    public static bool IsReal(Stretch s) => double.IsFinite(s.FromS) && double.IsFinite(s.ToS) && s.ToS > s.FromS;
}
