using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>Fuel between two gauge readings.</summary>
/// <param name="When">From reading to reading.</param>
/// <param name="FromKg">On board at its start, kg.</param>
/// <param name="ToKg">On board at its end, kg.</param>
/// <param name="Uplifts">Fuel taken on in it.</param>
/// <param name="FlownS">Flown in it, s.</param>
/// <param name="Lifts">Lifts in it.</param>
public sealed record FuelLeg(Stretch When, double FromKg, double ToKg, IReadOnlyList<FuelEntry> Uplifts, double FlownS, int Lifts)
{
    /// <summary>Taken on in it, kg.</summary>
    public double TakenOnKg => Uplifts.Sum(u => u.TakenOnKg ?? 0);

    /// <summary>Used, kg; negative where readings and uplifts contradict each other.</summary>
    public double UsedKg => FromKg + TakenOnKg - ToKg;
}

/// <summary>Fuel used over a day, from gauge readings and fuel taken on. What lies outside the first and the last reading is not known and is not guessed.</summary>
/// <remarks>Used = first reading + taken on − last reading. An entry with both was read after the fuel was taken on.</remarks>
/// <param name="Legs">Between readings, in order; those that contradict each other are left out.</param>
/// <param name="TakenOnKg">Taken on over the whole day, kg.</param>
/// <param name="UnknownFlownS">Flown outside the legs, s.</param>
/// <param name="Findings">What was left out or is missing.</param>
public sealed record FuelUse(IReadOnlyList<FuelLeg> Legs, double TakenOnKg, double UnknownFlownS, IReadOnlyList<Finding> Findings)
{
    private const double LeastFlownS = 60;

    /// <summary>Used in the legs, kg; null when there is none.</summary>
    public double? UsedKg => Legs.Count > 0 ? Legs.Sum(l => l.UsedKg) : null;

    /// <summary>Flown in the legs, s.</summary>
    public double FlownS => Legs.Sum(l => l.FlownS);

    /// <summary>Lifts in the legs.</summary>
    public int Lifts => Legs.Sum(l => l.Lifts);

    /// <summary>Used per lift in the legs, kg; null when there is none.</summary>
    public double? PerLiftKg => Lifts > 0 ? UsedKg / Lifts : null;

    /// <summary>Used per hour flown in the legs, ground running included, kg/h; null under a minute flown.</summary>
    public double? PerHourKg => FlownS >= LeastFlownS ? UsedKg / (FlownS / 3600) : null;

    /// <summary>The fuel of a day.</summary>
    public static FuelUse Of(IEnumerable<FuelEntry> entries, IEnumerable<KeptLift> lifts, FlownTime flown)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(flown);
        List<FuelEntry> inOrder = [.. entries.Where(e => double.IsFinite(e.AtS)).OrderBy(e => e.AtS)];
        double[] times = [.. CountedLift.Of(lifts).Select(CountedLift.TimeS).OfType<double>()];
        List<FuelLeg> legs = [];
        List<Finding> findings = [];
        FuelEntry? last = null;
        List<FuelEntry> taken = [];
        foreach (FuelEntry e in inOrder)
        {
            if (e.TakenOnKg is not null)
                taken.Add(e);
            if (e.OnBoardKg is not { } onBoard)
                continue;
            if (last is not null)
                Keep(new(new(last.AtS, e.AtS), last.OnBoardKg!.Value, onBoard, [.. taken], flown.BetweenS(last.AtS, e.AtS), times.Count(t => t > last.AtS && t <= e.AtS)), legs, findings);
            last = e;
            taken.Clear();
        }
        double unknown = Math.Max(0, flown.TotalS - legs.Sum(l => l.FlownS));
        if (legs.Count == 0)
            findings.Add(new(Severity.Note, "fuel-unknown", null, 1, "There are not two gauge readings that agree: the fuel used is not known.", "Write the gauge before the first take-off, at every fill and at the end."));
        else if (unknown >= LeastFlownS)
            findings.Add(new(Severity.Note, "fuel-part-unknown", null, 1,
                string.Create(CultureInfo.InvariantCulture, $"{unknown / 60:0} min were flown outside the gauge readings: their fuel is not known and not in the sum."), "Write the gauge before the first take-off and at the end."));
        return new(legs, inOrder.Sum(e => e.TakenOnKg ?? 0), unknown, findings);
    }

    /// <summary>On board at a time, kg, by even use over the time flown since the reading before; null outside the legs and in one without flight.</summary>
    public double? OnBoardKg(double timeS, FlownTime flown)
    {
        ArgumentNullException.ThrowIfNull(flown);
        FuelLeg? leg = Legs.LastOrDefault(l => timeS >= l.When.FromS && timeS <= l.When.ToS);
        if (leg is null || !(leg.FlownS > 0))
            return null;
        double taken = leg.Uplifts.Where(u => u.AtS <= timeS).Sum(u => u.TakenOnKg ?? 0);
        return leg.FromKg + taken - leg.UsedKg * flown.BetweenS(leg.When.FromS, timeS) / leg.FlownS;
    }

    private static void Keep(FuelLeg leg, List<FuelLeg> legs, List<Finding> findings)
    {
        if (leg.UsedKg >= 0)
            legs.Add(leg);
        else
            findings.Add(new(Severity.Warning, "fuel-contradiction", null, 1,
                string.Create(CultureInfo.InvariantCulture, $"{leg.ToKg:0} kg were read after {leg.FromKg:0} kg with {leg.TakenOnKg:0} kg taken on between: more than there can be."), "This stretch counts in no sum; correct the reading or the fuel taken on."));
    }
}
