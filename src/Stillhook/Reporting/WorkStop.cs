using System.Globalization;

namespace Stillhook.Reporting;

/// <summary>A stop of the work.</summary>
/// <remarks>Both times are rounded to the minute first, and the length is their difference: what is printed adds up, and stops that follow on one another lose nothing. A stop is off by less than a minute.</remarks>
/// <param name="From">Start by the sites' clock, whole minute.</param>
/// <param name="To">End by the sites' clock, whole minute.</param>
/// <param name="Cause">Why; never <see cref="TimeUse.Flown"/>.</param>
/// <param name="IsBreak">The crew rested.</param>
/// <param name="Marked">False when nobody said what it was for.</param>
/// <param name="Note">Remark of the crew where it is the customer's business: what was waited for, weather, fuel.</param>
public sealed record WorkStop(DateTimeOffset From, DateTimeOffset To, TimeUse Cause, bool IsBreak, bool Marked, string? Note)
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
        _ => IsBreak ? "the crew had its break" : Marked ? "other work" : "not noted what for",
    };

    private string Remark => Note is null ? "" : " " + char.ToUpperInvariant(Note[0]) + Note[1..].TrimEnd('.') + ".";

    /// <summary>A stop of the day; null for time flown and for what is shorter than a minute on the clock.</summary>
    internal static WorkStop? Of(TimeStretch stretch, DayWork day)
    {
        if (stretch.Use == TimeUse.Flown)
            return null;
        (DateTimeOffset from, DateTimeOffset to) = (WholeMinute(day.Clock(stretch.When.FromS)), WholeMinute(day.Clock(stretch.When.ToS)));
        bool customers = stretch.Use is TimeUse.WaitingOnCustomer or TimeUse.Weather or TimeUse.Fuel;
        return to <= from ? null : new(from, to, stretch.Use, stretch.IsBreak, stretch.Marked, customers && !string.IsNullOrWhiteSpace(stretch.Note) ? stretch.Note.Trim() : null);
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
