namespace Stillhook.Reporting;

/// <summary>A break that fell due.</summary>
/// <param name="DueAtS">When the flying since the last break reached the limit, s since 1970 UTC.</param>
/// <param name="TakenAtS">When the next break began; null when none followed that day.</param>
/// <param name="FlownOverS">Flown past the limit before it, s.</param>
public sealed record BreakDue(double DueAtS, double? TakenAtS, double FlownOverS)
{
    /// <summary>From due to taken, s; null when none followed.</summary>
    public double? LateS => TakenAtS - DueAtS;
}

/// <summary>One pilot's flying against the rule that asks for a break: after so much flying, so much rest [BARS].</summary>
/// <remarks>
/// Only what the crew marked as a break counts, less what of it was flown or spent fuelling: hot refuelling is no break. Pieces of a break shorter than the rule asks for do not count together.
/// Long spells on the ground that nobody marked are listed and not counted.
/// </remarks>
/// <param name="Pilot">Who; null for flights without a pilot's name, all of which count together.</param>
/// <param name="FlownS">Flown that day, s.</param>
/// <param name="LongestS">Most flown without a break, s.</param>
/// <param name="SinceBreakS">Flown since the last break, or since the day began, s.</param>
/// <param name="Due">Breaks that fell due.</param>
/// <param name="Breaks">Breaks that count.</param>
/// <param name="Unmarked">Times on the ground as long as a break between flights, not marked as one and not counted.</param>
/// <param name="AfterS">Flying after which a break is due, s.</param>
/// <param name="LengthS">Length of a break, s.</param>
public sealed record BreakClock(
    string? Pilot, double FlownS, double LongestS, double SinceBreakS, IReadOnlyList<BreakDue> Due, IReadOnlyList<Stretch> Breaks, IReadOnlyList<Stretch> Unmarked, double AfterS, double LengthS)
{
    private const double ExactS = 0.5;

    /// <summary>True when flying went on past the limit without a break.</summary>
    public bool FlownOver => Due.Any(d => d.FlownOverS > ExactS);

    /// <summary>The clocks of a day, one a pilot, in order of name.</summary>
    /// <param name="flights">Flights of the day.</param>
    /// <param name="marks">What the crew says that stretches were for.</param>
    /// <param name="afterS">Flying after which a break is due, s, above 0.</param>
    /// <param name="lengthS">Length of a break, s, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A rule outside what is said.</exception>
    public static IReadOnlyList<BreakClock> Of(IEnumerable<KeptFlight> flights, IEnumerable<TimeMark> marks, double afterS, double lengthS)
    {
        ArgumentNullException.ThrowIfNull(flights);
        ArgumentNullException.ThrowIfNull(marks);
        if (!(afterS > 0 && double.IsFinite(afterS)))
            throw new ArgumentOutOfRangeException(nameof(afterS), afterS, "Flying until a break is above 0 s.");
        if (!(lengthS >= 0 && double.IsFinite(lengthS)))
            throw new ArgumentOutOfRangeException(nameof(lengthS), lengthS, "A break is 0 s or longer.");
        List<TimeMark> all = [.. marks];
        return [.. flights.GroupBy(f => f.Pilot).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => Of(g.Key, FlownTime.Of(g), all, afterS, lengthS))];
    }

    private static BreakClock Of(string? pilot, FlownTime flown, List<TimeMark> marks, double afterS, double lengthS)
    {
        IEnumerable<Stretch> noRest = marks.Where(m => m.Use == TimeUse.Fuel).Select(m => m.When).Concat(flown.Stretches);
        IReadOnlyList<Stretch> breaks = [.. StretchSet.Without(marks.Where(m => m.IsBreak && m.Use != TimeUse.Fuel).Select(m => m.When), noRest).Where(b => b.LengthS >= lengthS)];
        List<BreakDue> due = [];
        double since = 0, longest = 0, at = double.NegativeInfinity;
        foreach (Stretch air in flown.Stretches)
        {
            if (breaks.Any(b => b.FromS >= at && b.ToS <= air.FromS))
                since = 0;
            if (since < afterS && since + air.LengthS >= afterS)
                due.Add(new(air.FromS + afterS - since, null, 0));
            since += air.LengthS;
            if (since > afterS)
                due[^1] = due[^1] with { FlownOverS = since - afterS };
            (longest, at) = (Math.Max(longest, since), air.ToS);
        }
        due = [.. due.Select(d => d with { TakenAtS = breaks.Where(b => b.FromS >= d.DueAtS).Select(b => (double?)b.FromS).FirstOrDefault() })];
        double sinceNow = breaks.Any(b => b.FromS >= at) ? 0 : since;
        return new(pilot, flown.TotalS, longest, sinceNow, due, breaks, OnGround(flown, breaks, lengthS), afterS, lengthS);
    }

    private static List<Stretch> OnGround(FlownTime flown, IReadOnlyList<Stretch> breaks, double lengthS)
    {
        List<Stretch> ground = [];
        for (int i = 0; i + 1 < flown.Stretches.Count; i++)
            ground.Add(new(flown.Stretches[i].ToS, flown.Stretches[i + 1].FromS));
        return [.. ground.Where(g => g.LengthS >= lengthS && !breaks.Any(b => StretchSet.CommonS(b, g) > 0))];
    }
}
