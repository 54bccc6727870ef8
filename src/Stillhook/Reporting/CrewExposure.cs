namespace Stillhook.Reporting;

/// <summary>Time that loads hung over entered people. The aim is none.</summary>
/// <param name="Seconds">Sum over the lifts of which it is known, s; null when it is known of none.</param>
/// <param name="Over">Lifts with any, the longest first.</param>
/// <param name="LiftsKnown">Lifts of which it is known.</param>
/// <param name="LiftsUnknown">Lifts of which it is not: no people entered, or not measured.</param>
public sealed record CrewExposure(double? Seconds, IReadOnlyList<KeptLift> Over, int LiftsKnown, int LiftsUnknown)
{
    /// <summary>The exposure of some lifts; those struck out count nowhere.</summary>
    public static CrewExposure Of(IEnumerable<KeptLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(lifts);
        IReadOnlyList<KeptLift> counted = CountedLift.Of(lifts);
        KeptLift[] known = [.. counted.Where(l => l.Measures?.SecondsOverPeople is not null)];
        return new(known.Length > 0 ? known.Sum(OverPeopleS) : null, [.. known.Where(l => OverPeopleS(l) > 0).OrderByDescending(OverPeopleS)], known.Length, counted.Count - known.Length);
    }

    private static double OverPeopleS(KeptLift lift) => lift.Measures!.SecondsOverPeople!.Value;
}
