using System.Globalization;
using Stillhook.App.Commands;
using Stillhook.Debriefing;
using Stillhook.Files.Live;
using Stillhook.Following;
using Stillhook.Planning.Rechecking;
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

    /// <summary>All that is kept of the day.</summary>
    public DayWork Work() => store.Days.Read(Day, Flight.Setup.Job?.Kept.TimeZone);

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

    /// <summary>Writes down what was read now: setting, temperature, wind and fuel, whatever of them was read.</summary>
    public void Read(Shift read, string by)
    {
        ArgumentNullException.ThrowIfNull(read);
        double now = Flight.NowS;
        DateTimeOffset at = Flight.Clock.GetUtcNow();
        if (read is not { QnhPa: null, TemperatureC: null, Wind: null })
            store.Days.Add(Day, new AirReading(now, read.QnhPa, read.TemperatureC, read.Wind?.FromDeg, read.Wind?.Speed.MetersPerSecond), by, at);
        if (read.FuelKg is { } fuel)
            store.Days.Add(Day, new FuelEntry(now, fuel, null), by, at);
        Flight.Events.Publish("read");
    }

    /// <summary>The check that is offered is taken, or put aside.</summary>
    /// <returns>Address of the plan's check with what was read filled in; null without a job.</returns>
    public string? Recheck(bool putAside, string by)
    {
        LiveShown shown = LiveShown.Of(this);
        store.Days.Add(Day, new RecheckMark(shown.State.NowS, putAside), by, Flight.Clock.GetUtcNow());
        Flight.Events.Publish("recheck");
        return Flight.Setup.Job is { } job ? $"{job.Address}/plan{Readings(shown)}#recheck" : null;
    }

    /// <summary>A time on the ground was a break: engine off, nobody fuelling.</summary>
    /// <returns>False when there is no such time that nobody marked yet.</returns>
    public bool WasBreak(double fromS, string by)
    {
        if (LiveShown.Of(this).MayBeBreaks.Where(s => Math.Abs(s.FromS - fromS) < 1).Select(s => (Stretch?)s).FirstOrDefault() is not { } stand)
            return false;
        store.Days.Add(Day, new TimeMark(stand, TimeUse.Other, null, IsBreak: true), by, Flight.Clock.GetUtcNow());
        Flight.Events.Publish("break");
        return true;
    }

    /// <summary>The whole flight from its journal, as a record of its own; null when nothing is kept.</summary>
    public FlightRecord? WholeRecord()
    {
        if (Input.JournalFolder is not { } folder)
            return null;
        WholeFlight whole = new(Flight.Setup.Name);
        LiveInput.Rebuild(folder, whole);
        return whole.Record.ToRecord();
    }

    /// <summary>What was read, the fuel aboard and the loads delivered, as the plan's check takes them.</summary>
    private string Readings(LiveShown shown)
    {
        Shift read = shown.Offer?.Shift ?? new();
        string[] listed = [.. Flight.Setup.Job!.File.Request.Loads.Select(l => l.Number)], gone = [.. listed.Where(shown.Loads.Gone.Contains)];
        string? Text(FormattableString? text) => text?.ToString(CultureInfo.InvariantCulture);
        return QueryString.Create(new Dictionary<string, string?>
        {
            ["qnh"] = read.QnhPa is { } qnh ? Text($"{qnh / 100:0.#}hPa") : null,
            ["oat"] = read.TemperatureC is { } celsius ? Text($"{celsius:0.#}C") : null,
            ["wind"] = read.Wind is { } wind ? Text($"{wind.FromDeg:000}/{wind.Speed.Knots:0}kt") : null,
            ["time"] = Clock.Minute(read.Minute is { } minute ? shown.State.NowS - Clock.At(shown.State.NowS).TimeOfDay.TotalSeconds + minute * 60 : shown.State.NowS),
            ["fuel"] = shown.Fuel.Kg is { } fuel ? Text($"{Math.Ceiling(fuel):0}kg") : null,
            ["delivered"] = gone.Length > 0 && gone.Length < listed.Length ? string.Join(", ", gone) : null,
        }.Where(q => q.Value is not null)).ToString();
    }

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
