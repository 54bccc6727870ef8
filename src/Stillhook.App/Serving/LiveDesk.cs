using Stillhook.App.Commands;
using Stillhook.Debriefing;
using Stillhook.Files.Live;
using Stillhook.Following;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>A flight that is being listened to: its sources, the flight itself, and what the crew writes of it.</summary>
/// <param name="flight">The flight.</param>
/// <param name="input">Its sources and their journal.</param>
/// <param name="store">Where the crew's entries go.</param>
public sealed class LiveDesk(LiveFlight flight, LiveInput input, WorkStore store)
{
    /// <summary>The flight.</summary>
    public LiveFlight Flight { get; } = flight;

    /// <summary>Its sources and their journal.</summary>
    public LiveInput Input { get; } = input;

    /// <summary>The clock that times are shown by.</summary>
    public SiteClock Clock { get; } = flight.Setup.Job is { } job ? JobArgument.ClockOf(job.File) : SiteClock.Utc;

    /// <summary>The day that entries belong to: that of the job, else today.</summary>
    public WorkDay Day => new(Flight.Setup.Job?.Kept.Day ?? DateOnly.FromDateTime(Clock.At(Flight.NowS).DateTime), Flight.Setup.Job?.Kept.Aircraft);

    /// <summary>The deliveries with their loads, and what comes next, as things stand.</summary>
    public LiveLoads Loads(LiveState state) => LiveLoads.Of(state.Deliveries, Flight.Setup.Plan, Written());

    /// <summary>Number and mass of a delivered load as a person says; what was said before is withdrawn, and stays readable.</summary>
    /// <param name="delivery">Number of the delivery.</param>
    /// <param name="loadNumber">Number of the load; null when not said.</param>
    /// <param name="loadKg">Its mass, kg; null when not said.</param>
    /// <param name="by">Who says so.</param>
    /// <returns>False when there is no such delivery.</returns>
    public bool Write(int delivery, string? loadNumber, double? loadKg, string by)
    {
        if (Flight.State().Deliveries.FirstOrDefault(d => d.Number == delivery && !d.Withdrawn) is not { } meant)
            return false;
        DateTimeOffset now = Flight.Clock.GetUtcNow();
        foreach (DayEntry<TallyEntry> before in store.Days.Entries<TallyEntry>(Day).Where(e => e.WithdrawnAt is null && LiveLoads.IsOf(e.Entry, meant)))
            store.Days.Withdraw(before.Key, by, now, "written anew");
        store.Days.Add(Day, new TallyEntry(delivery, meant.Rotation.DeliveryTimeS, loadNumber, loadKg, null), by, now);
        Flight.Events.Publish("tally");
        return true;
    }

    /// <summary>Marks this moment, to be named afterwards.</summary>
    public double Mark(string by)
    {
        double now = Flight.NowS;
        store.Days.Add(Day, new EventMark(now, EventKind.TimeMark, null), by, Flight.Clock.GetUtcNow());
        Flight.Events.Publish("mark");
        return now;
    }

    /// <summary>Moments marked since the flight began.</summary>
    public IReadOnlyList<double> Marks() =>
        [.. store.Days.Entries<EventMark>(Day).Where(e => e.WithdrawnAt is null && e.Entry.Kind == EventKind.TimeMark).Select(e => e.Entry.AtS).Order()];

    /// <summary>The whole flight from its journal, as a record of its own; null when nothing is kept.</summary>
    public FlightRecord? WholeRecord()
    {
        if (Input.JournalFolder is not { } folder)
            return null;
        WholeFlight whole = new(Flight.Setup.Name);
        LiveInput.Rebuild(folder, whole);
        return whole.Record.ToRecord();
    }

    private IReadOnlyList<TallyEntry> Written() => [.. store.Days.Entries<TallyEntry>(Day).Where(e => e.WithdrawnAt is null).Select(e => e.Entry)];

    /// <summary>Keeps every position and value of the journal.</summary>
    private sealed class WholeFlight(string name) : ISampleSink
    {
        public LiveRecord Record { get; } = new(name, double.PositiveInfinity);

        public void Take(string source, in FixSample fix, double arrivedS) => Record.Add(fix);

        public void Take(string source, in ChannelSample sample, double arrivedS) => Record.Add(sample);

        public void Link(string source, bool up, string why, double atS)
        {
            if (!up)
                Record.Break();
        }
    }
}
