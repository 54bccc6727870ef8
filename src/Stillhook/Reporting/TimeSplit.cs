using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>A stretch of the day and what it was for.</summary>
/// <param name="When">The stretch.</param>
/// <param name="Use">What for.</param>
/// <param name="Note">Remark of the mark that it follows.</param>
/// <param name="Marked">False when nobody said: it counts as other.</param>
/// <param name="IsBreak">The crew rested.</param>
public sealed record TimeStretch(Stretch When, TimeUse Use, string? Note, bool Marked, bool IsBreak = false);

/// <summary>The day split by what its time was for; the parts add up to the day, in seconds and in whole minutes.</summary>
/// <remarks>
/// Every moment counts once. Recorded flight counts as flown whatever is marked. Where marks overlap the first of this row stands: flown, defect, weather, fuel, other, waiting on
/// customer: in doubt nothing is put down to the customer. What nobody marked is other. Whole minutes are given out by the largest remainder, so that they add up to the rounded day.
/// </remarks>
public sealed record TimeSplit
{
    private static readonly TimeUse[] Rank = [TimeUse.Flown, TimeUse.Defect, TimeUse.Weather, TimeUse.Fuel, TimeUse.Other, TimeUse.WaitingOnCustomer];
    private const double WorthSayingS = 30;

    /// <summary>Start to end of what is split.</summary>
    public required Stretch Day { get; init; }

    /// <summary>The stretches in order; they fill the day without gap or overlap.</summary>
    public required IReadOnlyList<TimeStretch> Stretches { get; init; }

    /// <summary>Seconds of each use.</summary>
    public required IReadOnlyDictionary<TimeUse, double> Seconds { get; init; }

    /// <summary>Whole minutes of each use; they add up to <see cref="TotalMinutes"/>.</summary>
    public required IReadOnlyDictionary<TimeUse, int> Minutes { get; init; }

    /// <summary>The day to the nearest minute.</summary>
    public required int TotalMinutes { get; init; }

    /// <summary>Time that nobody marked, s; it stands under other.</summary>
    public double UnmarkedS => Stretches.Where(s => !s.Marked).Sum(s => s.When.LengthS);

    /// <summary>Marks that overlapped or were not real, and what was done.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The split of a day: from the first duty, flight or mark to the last, unless said; null when there is none of them.</summary>
    public static TimeSplit? Of(DayWork work, Stretch? day = null)
    {
        ArgumentNullException.ThrowIfNull(work);
        FlownTime flown = FlownTime.Of(work.Flights);
        List<TimeMark> marks = [.. work.TimeMarks.Where(m => StretchSet.IsReal(m.When)).OrderBy(m => Array.IndexOf(Rank, m.Use)).ThenBy(m => m.When.FromS).ThenBy(m => m.When.ToS).ThenBy(m => m.Note, StringComparer.Ordinal)];
        Stretch[] all = [.. work.Duty.Select(d => d.When).Where(StretchSet.IsReal), .. flown.Stretches, .. marks.Select(m => m.When)];
        if (day is { } given && !StretchSet.IsReal(given))
            throw new ArgumentOutOfRangeException(nameof(day), day, "The day ends after it starts.");
        if (day is null && all.Length == 0)
            return null;
        Stretch whole = day ?? new(all.Min(s => s.FromS), all.Max(s => s.ToS));
        List<TimeStretch> stretches = Fill(whole, flown, marks);
        Dictionary<TimeUse, double> seconds = Enum.GetValues<TimeUse>().ToDictionary(u => u, u => stretches.Where(s => s.Use == u).Sum(s => s.When.LengthS));
        int total = (int)Math.Round(whole.LengthS / 60, MidpointRounding.AwayFromZero);
        return new()
        {
            Day = whole,
            Stretches = stretches,
            Seconds = seconds,
            Minutes = WholeMinutes(seconds, total),
            TotalMinutes = total,
            Findings = [.. Unreal(work), .. Overlaps(work, marks, flown), .. Outside(whole, marks)],
        };
    }

    private static List<TimeStretch> Fill(Stretch day, FlownTime flown, List<TimeMark> marks)
    {
        double[] cuts = [.. flown.Stretches.Concat(marks.Select(m => m.When)).SelectMany(s => new[] { s.FromS, s.ToS }).Where(t => t > day.FromS && t < day.ToS).Append(day.FromS).Append(day.ToS).Distinct().Order()];
        List<TimeStretch> filled = [];
        for (int i = 0; i + 1 < cuts.Length; i++)
        {
            Stretch piece = new(cuts[i], cuts[i + 1]);
            TimeMark? mark = marks.FirstOrDefault(m => StretchSet.CommonS(m.When, piece) > 0);
            TimeStretch next = flown.Stretches.Any(s => StretchSet.CommonS(s, piece) > 0) ? new(piece, TimeUse.Flown, null, true) : new(piece, mark?.Use ?? TimeUse.Other, mark?.Note, mark is not null, mark?.IsBreak ?? false);
            if (filled.Count > 0 && filled[^1] with { When = piece } == next)
                filled[^1] = next with { When = new(filled[^1].When.FromS, piece.ToS) };
            else
                filled.Add(next);
        }
        return filled;
    }

    /// <summary>Whole minutes that add up: each part rounded down, what is left given to the largest remainders.</summary>
    private static Dictionary<TimeUse, int> WholeMinutes(Dictionary<TimeUse, double> seconds, int total)
    {
        Dictionary<TimeUse, int> minutes = seconds.ToDictionary(s => s.Key, s => (int)Math.Floor(s.Value / 60));
        int left = total - minutes.Values.Sum();
        foreach (TimeUse use in seconds.OrderByDescending(s => s.Value / 60 - Math.Floor(s.Value / 60)).ThenBy(s => s.Key).Select(s => s.Key).Take(left))
            minutes[use]++;
        return minutes;
    }

    private static IEnumerable<Finding> Unreal(DayWork work)
    {
        int unreal = work.TimeMarks.Count(m => !StretchSet.IsReal(m.When));
        if (unreal > 0)
            yield return new(Severity.Warning, "mark-without-length", null, unreal, string.Create(CultureInfo.InvariantCulture, $"{unreal} time marks end before they start or have no time."), "They were left out; correct their times.");
    }

    private static IEnumerable<Finding> Overlaps(DayWork work, List<TimeMark> marks, FlownTime flown)
    {
        for (int i = 0; i < marks.Count; i++)
            for (int j = i + 1; j < marks.Count; j++)
                if (marks[i].Use != marks[j].Use && StretchSet.CommonS(marks[i].When, marks[j].When) > 0)
                    yield return new(Severity.Note, "marks-overlap", null, 1,
                        $"{Words(marks[i], work)} and {Words(marks[j], work)} overlap.", $"The time in common counts as {UseWords(marks[i].Use)}.");
        foreach (TimeMark mark in marks.Where(m => m.Use != TimeUse.Flown && flown.BetweenS(m.When.FromS, m.When.ToS) >= WorthSayingS))
            yield return new(Severity.Note, "mark-while-flown", null, 1,
                string.Create(CultureInfo.InvariantCulture, $"{flown.BetweenS(mark.When.FromS, mark.When.ToS) / 60:0.0} min of {Words(mark, work)} were in the air by the record."), "They count as flown.");
    }

    private static IEnumerable<Finding> Outside(Stretch day, List<TimeMark> marks)
    {
        int outside = marks.Count(m => m.When.FromS < day.FromS || m.When.ToS > day.ToS);
        if (outside > 0)
            yield return new(Severity.Note, "mark-outside-day", null, outside, string.Create(CultureInfo.InvariantCulture, $"{outside} time marks reach outside the day that is split."), "Only what lies inside counts.");
    }

    private static string Words(TimeMark mark, DayWork work) => $"'{UseWords(mark.Use)}' {DayText.Clock(work, mark.When.FromS)} to {DayText.Clock(work, mark.When.ToS)}";

    /// <summary>A use in the crew's words.</summary>
    public static string UseWords(TimeUse use) => use switch
    {
        TimeUse.Flown => "flown",
        TimeUse.WaitingOnCustomer => "waiting on customer",
        TimeUse.Weather => "weather",
        TimeUse.Fuel => "fuel",
        TimeUse.Defect => "defect",
        _ => "other",
    };
}
