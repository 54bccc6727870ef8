namespace Stillhook.Reporting;

/// <summary>How fast the lifting went when one lift was done.</summary>
/// <param name="Lift">The lift.</param>
/// <param name="AtS">Its time, s since 1970 UTC.</param>
/// <param name="FlownS">Flown that day until then, s.</param>
/// <param name="OfLastLifts">Lifts per hour flown over the last lifts; null until there are as many.</param>
/// <param name="OfLastTime">Lifts per hour flown over the last time flown; null until as much was flown.</param>
public sealed record LiftPace(KeptLift Lift, double AtS, double FlownS, double? OfLastLifts, double? OfLastTime);

/// <summary>Lifts, mass and time of a day, with lifts per hour flown and their moving averages.</summary>
/// <remarks>
/// Hours are hours in the air, as the rules that count lifts for maintenance count them [FAA-AD-2007-01-05]. The n-th lift's average over the last N lifts is
/// N / (hours flown from lift n − N to lift n), from the day's first take-off for n = N; that over the last time is the lifts in it by its length.
/// </remarks>
public sealed record LiftTotals
{
    /// <summary>Lifts in the window when nobody says. Own choice.</summary>
    public const int UsualLifts = 10;

    /// <summary>Flown time in the window when nobody says, s. Own choice.</summary>
    public const double UsualTimeS = 3600;

    /// <summary>Lifts that count.</summary>
    public required int Lifts { get; init; }

    /// <summary>Lifts whose mass is known.</summary>
    public required int LiftsWithMass { get; init; }

    /// <summary>Lifts whose mass was measured in flight.</summary>
    public required int LiftsMeasured { get; init; }

    /// <summary>Mass of the loads of known mass, kg.</summary>
    public required double CarriedKg { get; init; }

    /// <summary>Time in the air, s.</summary>
    public required double FlownS { get; init; }

    /// <summary>Lifts per hour flown over the day; null when no time in the air is known.</summary>
    public required double? PerHour { get; init; }

    /// <summary>Each lift with a time, in order.</summary>
    public required IReadOnlyList<LiftPace> Pace { get; init; }

    /// <summary>Window of <see cref="LiftPace.OfLastLifts"/>.</summary>
    public required int WindowLifts { get; init; }

    /// <summary>Window of <see cref="LiftPace.OfLastTime"/>, s flown.</summary>
    public required double WindowS { get; init; }

    /// <summary>The totals of a day.</summary>
    /// <param name="lifts">Lifts; those struck out count nowhere.</param>
    /// <param name="flown">Time in the air.</param>
    /// <param name="windowLifts">Lifts that the moving average is taken over, 1 or more.</param>
    /// <param name="windowS">Flown time that the other is taken over, s, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A window outside what is said.</exception>
    public static LiftTotals Of(IEnumerable<KeptLift> lifts, FlownTime flown, int windowLifts = UsualLifts, double windowS = UsualTimeS)
    {
        ArgumentNullException.ThrowIfNull(lifts);
        ArgumentNullException.ThrowIfNull(flown);
        ArgumentOutOfRangeException.ThrowIfLessThan(windowLifts, 1);
        if (!(windowS > 0 && double.IsFinite(windowS)))
            throw new ArgumentOutOfRangeException(nameof(windowS), windowS, "The window is above 0 s.");
        IReadOnlyList<KeptLift> counted = CountedLift.Of(lifts);
        double[] masses = [.. counted.Select(l => l.LoadKg).OfType<double>().Where(double.IsFinite)];
        return new()
        {
            Lifts = counted.Count,
            LiftsWithMass = masses.Length,
            LiftsMeasured = counted.Count(l => l.LoadMeasured && l.LoadKg is not null),
            CarriedKg = masses.Sum(),
            FlownS = flown.TotalS,
            PerHour = flown.TotalS > 0 ? counted.Count / (flown.TotalS / 3600) : null,
            Pace = PaceOf(counted, flown, windowLifts, windowS),
            WindowLifts = windowLifts,
            WindowS = windowS,
        };
    }

    private static List<LiftPace> PaceOf(IReadOnlyList<KeptLift> counted, FlownTime flown, int windowLifts, double windowS)
    {
        List<LiftPace> pace = [];
        int first = 0;
        foreach (KeptLift lift in counted)
        {
            if (CountedLift.TimeS(lift) is not { } at)
                continue;
            double now = flown.BeforeS(at);
            double? since = pace.Count + 1 > windowLifts ? pace[^windowLifts].FlownS : pace.Count + 1 == windowLifts ? 0 : null;
            pace.Add(new(lift, at, now, since is { } s && now > s ? windowLifts / ((now - s) / 3600) : null, null));
            while (pace[first].FlownS <= now - windowS)
                first++;
            if (now >= windowS)
                pace[^1] = pace[^1] with { OfLastTime = (pace.Count - first) / (windowS / 3600) };
        }
        return pace;
    }
}
