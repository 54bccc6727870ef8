using System.Globalization;

namespace Stillhook.Reporting;

/// <summary>A day cut into stretches that don't overlap, each with what it was for, in order of time.</summary>
/// <param name="day">The day.</param>
public delegate IReadOnlyList<TimeMark> DaySplit(DayWork day);

/// <summary>A stop of the work.</summary>
/// <remarks>Both times are rounded to the minute first, and the length is their difference: what is printed adds up, and stops that follow on one another lose nothing. A stop is off by less than a minute.</remarks>
/// <param name="From">Start by the sites' clock, whole minute.</param>
/// <param name="To">End by the sites' clock, whole minute.</param>
/// <param name="Cause">Why; never <see cref="TimeUse.Flown"/>.</param>
/// <param name="IsBreak">The crew rested.</param>
/// <param name="Note">Remark of the crew where it is the customer's business: what was waited for, weather, fuel.</param>
public sealed record WorkStop(DateTimeOffset From, DateTimeOffset To, TimeUse Cause, bool IsBreak, string? Note)
{
    /// <summary>Length, min.</summary>
    public int Minutes => (int)Math.Round((To - From).TotalMinutes);

    /// <summary>The stop in a sentence.</summary>
    public string Sentence => string.Create(CultureInfo.InvariantCulture, $"{From:HH:mm} to {To:HH:mm}, {Minutes} min: {Words}.{Remark}");

    private string Words => Cause switch
    {
        TimeUse.WaitingOnCustomer => "the crew was ready and waited for the customer",
        TimeUse.Weather => "the crew waited for the weather",
        TimeUse.Fuel => "the aircraft was fuelled",
        TimeUse.Defect => "aircraft or rigging was not serviceable",
        _ => IsBreak ? "the crew had its break" : "other work, or not noted",
    };

    private string Remark => Note is null ? "" : " " + char.ToUpperInvariant(Note[0]) + Note[1..].TrimEnd('.') + ".";

    /// <summary>A stop of the day; null for time flown and for what is shorter than a minute on the clock.</summary>
    internal static WorkStop? Of(TimeMark mark, Func<double, DateTimeOffset> clock)
    {
        if (mark.Use == TimeUse.Flown)
            return null;
        (DateTimeOffset from, DateTimeOffset to) = (WholeMinute(clock(mark.When.FromS)), WholeMinute(clock(mark.When.ToS)));
        bool customers = mark.Use is TimeUse.WaitingOnCustomer or TimeUse.Weather or TimeUse.Fuel;
        return to <= from ? null : new(from, to, mark.Use, mark.IsBreak, customers && !string.IsNullOrWhiteSpace(mark.Note) ? mark.Note.Trim() : null);
    }

    private static DateTimeOffset WholeMinute(DateTimeOffset time)
    {
        DateTimeOffset half = time.AddSeconds(30);
        return half.AddTicks(-(half.Ticks % TimeSpan.TicksPerMinute));
    }
}

/// <summary>Time lost to one cause.</summary>
/// <param name="Cause">Why.</param>
/// <param name="Minutes">Sum of the stops as shown, min.</param>
/// <param name="Stops">How many stops.</param>
public sealed record StandbyTime(TimeUse Cause, int Minutes, int Stops);
