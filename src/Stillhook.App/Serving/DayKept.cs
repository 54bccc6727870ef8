using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>A day as it is kept now.</summary>
internal sealed class DayKept
{
    public DayKept(WorkStore store, WorkDay day)
    {
        Work = store.Days.Read(day);
        KeptJob[] jobs = [.. store.Jobs.List().Where(j => j.Day == day.Day)];
        IReadOnlyList<KeptFlight> flights = day.Aircraft is null ? Work.Flights : store.Days.Read(day with { Aircraft = null }).Flights;
        Aircraft = [.. jobs.Select(j => j.Aircraft).Concat(flights.Select(f => f.Aircraft)).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase)];
        Stamp = StampOf(store.Days, day, string.Join(' ', jobs.Select(j => $"{j.Key} {j.Text}")));
    }

    public DayWork Work { get; }

    /// <summary>Aircraft of the day's jobs and flights, each once.</summary>
    public IReadOnlyList<string> Aircraft { get; }

    /// <summary>Another text whenever something of the day was written, withdrawn, corrected or taken in.</summary>
    public string Stamp { get; }

    private string StampOf(DayStore days, WorkDay day, string jobs)
    {
        StringBuilder all = new(jobs);
        void Add<T>() => all.AppendJoin(' ', days.Entries<T>(day).Select(e => e.Key + e.WithdrawnBy));
        Add<TallyEntry>();
        Add<TimeMark>();
        Add<EventMark>();
        Add<FuelEntry>();
        Add<DutySpell>();
        Add<AirReading>();
        Add<RecheckMark>();
        all.AppendJoin(' ', Work.Flights.Select(f => f.Name)).Append(CultureInfo.InvariantCulture, $" {Work.Lifts.Count} {Work.Corrections.Count}");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all.ToString())))[..16];
    }
}
