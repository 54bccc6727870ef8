using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Recording;
using Stillhook.Reporting;

namespace Stillhook.Files.Days;

/// <summary>What a crew wrote of its day, read from one table: deliveries tallied, what waiting was for, fuel, events.</summary>
/// <remarks>
/// A heading <c>what,from,to,load,massKg,fuelKg,note</c>, then a line an entry; comma, semicolon or tab between the cells, a point in numbers, the sites' clock in <c>from</c> and <c>to</c> (14:05 or 14:05:30).
/// <c>what</c>: delivery; waitingOnCustomer, weather, fuel, defect, other or break with from and to; gauge or uplift with fuelKg; unplannedRelease, jettison, snag, performanceShortfall, injury or damage.
/// The note comes last and may hold anything. A line that can't be read is a finding; the others are taken.
/// </remarks>
/// <param name="Tally">Deliveries in the order written.</param>
/// <param name="Times">What stretches were for.</param>
/// <param name="Events">Events.</param>
/// <param name="Fuel">Gauge readings and uplifts.</param>
/// <param name="Findings">What could not be read, with its line.</param>
public sealed record CrewSheet(IReadOnlyList<TallyEntry> Tally, IReadOnlyList<TimeMark> Times, IReadOnlyList<EventMark> Events, IReadOnlyList<FuelEntry> Fuel, IReadOnlyList<Finding> Findings)
{
    /// <summary>The heading.</summary>
    public const string Heading = "what,from,to,load,massKg,fuelKg,note";

    private const int Columns = 7;

    /// <summary>Reads a sheet.</summary>
    /// <param name="text">The table.</param>
    /// <param name="momentS">Local clock time of the day to s since 1970 UTC; null where the clocks skip it.</param>
    public static CrewSheet Read(TextReader text, Func<TimeOnly, double?> momentS)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(momentS);
        Reading reading = new(momentS);
        string heading = text.ReadLine() ?? "";
        char between = heading.Contains(';', StringComparison.Ordinal) ? ';' : heading.Contains('\t', StringComparison.Ordinal) ? '\t' : ',';
        if (!heading.TrimStart('\uFEFF').Split(between).Select(h => h.Trim()).SequenceEqual(Heading.Split(','), StringComparer.OrdinalIgnoreCase))
            return new([], [], [], [], [new(Severity.Error, "crew-sheet-heading", 1, 1, "The first line is not the heading of a crew sheet.", $"Begin with: {Heading}")]);
        for (int line = 2; text.ReadLine() is { } row; line++)
            if (row.Trim().Trim(between).Length > 0)
                reading.Add(line, [.. row.Split(between, Columns).Select(c => c.Trim())]);
        return reading.Sheet();
    }

    private sealed class Reading(Func<TimeOnly, double?> momentS)
    {
        private readonly List<TallyEntry> tally = [];
        private readonly List<TimeMark> times = [];
        private readonly List<EventMark> events = [];
        private readonly List<FuelEntry> fuel = [];
        private readonly List<Finding> findings = [];

        public CrewSheet Sheet() => new(tally, times, events, fuel, findings);

        public void Add(int line, string[] cells)
        {
            string Cell(int i) => i < cells.Length ? cells[i] : "";
            string? note = Cell(6).Trim('"') is { Length: > 0 } words ? words : null;
            bool isBreak = Is(Cell(0), "break");
            if (!TryTime(Cell(1), out double? from) || !TryTime(Cell(2), out double? to) || !TryNumber(Cell(4), out double? massKg) || !TryNumber(Cell(5), out double? fuelKg))
                Refuse(line, $"A time or number of '{string.Join(",", cells)}' can't be read.", "Times as 14:05 or 14:05:30, numbers with a point and 0 or more.");
            else if (Is(Cell(0), "delivery"))
                tally.Add(new(tally.Count + 1, from, Cell(3) is { Length: > 0 } load ? load : null, massKg, note));
            else if (Is(Cell(0), "gauge") || Is(Cell(0), "uplift"))
                if (from is { } at && fuelKg is { } kg)
                    fuel.Add(Is(Cell(0), "gauge") ? new(at, kg, null) : new(at, null, kg));
                else
                    Refuse(line, $"A {Cell(0)} needs a time and its fuel.", "Write from and fuelKg.");
            else if (isBreak || (Named(Cell(0), out TimeUse use) && use != TimeUse.Flown))
                if (from is { } begun && to is { } ended && ended > begun)
                    times.Add(new(new(begun, ended), isBreak ? TimeUse.Other : Enum.Parse<TimeUse>(Cell(0), ignoreCase: true), note, isBreak));
                else
                    Refuse(line, $"'{Cell(0)}' needs when it began and when it ended.", "Write from and, later than it, to.");
            else if (Named(Cell(0), out EventKind kind))
                if (from is { } when)
                    events.Add(new(when, kind, note));
                else
                    Refuse(line, $"'{Cell(0)}' needs its time.", "Write from.");
            else
                Refuse(line, $"'{Cell(0)}' is nothing that a crew sheet knows.", "delivery; waitingOnCustomer, weather, fuel, defect, other, break; gauge, uplift; unplannedRelease, jettison, snag, performanceShortfall, injury, damage, timeMark.");
        }

        private static bool Is(string cell, string word) => string.Equals(cell, word, StringComparison.OrdinalIgnoreCase);

        // Names only: the library's own parsing would take numbers too.
        private static bool Named<T>(string cell, out T value)
            where T : struct, Enum => Enum.TryParse(cell, ignoreCase: true, out value) && cell.All(char.IsLetter);

        private void Refuse(int line, string what, string mend) => findings.Add(new(Severity.Warning, "crew-sheet-line", line, 1, what, mend));

        private bool TryTime(string cell, out double? timeS)
        {
            timeS = null;
            if (cell.Length == 0)
                return true;
            if (!SiteClock.TryTime(cell, out TimeOnly time))
                return false;
            timeS = momentS(time);
            return timeS is not null;
        }

        private static bool TryNumber(string cell, out double? number)
        {
            number = null;
            if (cell.Length == 0)
                return true;
            bool read = double.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value);
            number = read ? value : null;
            return read;
        }
    }
}
