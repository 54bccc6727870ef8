using System.Globalization;
using Stillhook.Files.Pictures;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Pages.Days;

/// <summary>One entry of a day as it is listed.</summary>
/// <param name="Key">Its key.</param>
/// <param name="AtS">When it begins, s since 1970 UTC; null when no time was written.</param>
/// <param name="Time">Its time in words.</param>
/// <param name="What">What it says.</param>
/// <param name="By">Who wrote it.</param>
/// <param name="At">When it was written.</param>
/// <param name="Withdrawn">Who withdrew it and why; null while it stands.</param>
/// <param name="IsTally">Whether it is a line of the tally.</param>
public sealed record DayLine(Guid Key, double? AtS, string Time, string What, string By, DateTimeOffset At, string? Withdrawn, bool IsTally);

/// <summary>All that people wrote of a day as lines in order of time.</summary>
internal static class DayEntries
{
    public static IReadOnlyList<DayLine> Of(DayStore days, WorkDay day, DayWork work, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(days);
        string Clock(double? timeS) => timeS is { } t ? DayClock.Text(work, t) : "no time";
        string Span(Stretch s) => $"{Clock(s.FromS)} to {Clock(s.ToS)}";
        IEnumerable<DayLine> lines =
        [
            .. days.Entries<TallyEntry>(day).Select(e => Line(e, e.Entry.AtS, Clock(e.Entry.AtS), Words(Number($"Tally line {e.Entry.Number}:"), e.Entry.LoadNumber is { } load ? $"load {load}" : "a delivery", e.Entry.LoadKg is { } kg ? units.Mass(kg) : null, e.Entry.Note))),
            .. days.Entries<TimeMark>(day).Select(e => Line(e, e.Entry.When.FromS, Span(e.Entry.When), Words(e.Entry.IsBreak ? "Break" : Sentence(TimeSplit.UseWords(e.Entry.Use)), e.Entry.Note))),
            .. days.Entries<EventMark>(day).Select(e => Line(e, e.Entry.AtS, Clock(e.Entry.AtS), Words(OccurrencePrompt.EventWords(e.Entry.Kind), e.Entry.Note))),
            .. days.Entries<FuelEntry>(day).Select(e => Line(e, e.Entry.AtS, Clock(e.Entry.AtS), Words(e.Entry.OnBoardKg is { } on ? $"Fuel gauge {units.Mass(on)}" : null, e.Entry.TakenOnKg is { } taken ? $"fuel taken on {units.Mass(taken)}" : null))),
            .. days.Entries<AirReading>(day).Select(e => Line(e, e.Entry.AtS, Clock(e.Entry.AtS), Words("Read", e.Entry.QnhPa is { } qnh ? "QNH " + units.Pressure(qnh) : null, e.Entry.TemperatureC is { } celsius ? units.Sentence(Number($"{celsius:0.#} °C")) : null, e.Entry.ReadWind() is { } wind ? Number($"wind {wind.FromDeg:000}/{wind.Speed.Knots:0} kt") : null))),
            .. days.Entries<RecheckMark>(day).Select(e => Line(e, e.Entry.AtS, Clock(e.Entry.AtS), e.Entry.PutAside ? "Offered check put aside" : "Offered check taken")),
            .. days.Entries<DutySpell>(day).Select(e => Line(e, e.Entry.When.FromS, Span(e.Entry.When), Words($"Duty of {e.Entry.Person}", e.Entry.Note))),
        ];
        return [.. lines.OrderBy(l => l.AtS ?? double.MaxValue).ThenBy(l => l.Key)];
    }

    private static DayLine Line<T>(DayEntry<T> e, double? atS, string time, string what) => new(e.Key, atS, time, what, e.By, e.At,
        e.WithdrawnBy is null ? null : $"Withdrawn by {e.WithdrawnBy}{(e.WithdrawnWhy is { Length: > 0 } why ? ": " + why : "")}", e is DayEntry<TallyEntry>);

    private static string Words(params string?[] parts) => Sentence(string.Join(", ", parts.Where(p => !string.IsNullOrEmpty(p))).Replace(":,", ":", StringComparison.Ordinal));

    private static string Sentence(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    private static string Number(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
