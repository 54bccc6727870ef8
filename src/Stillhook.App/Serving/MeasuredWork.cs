using Stillhook.App.Commands;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>What the store knows from flights before, for plan, quote and debrief; and the hovers of a day with the fuel that is known of it.</summary>
internal static class MeasuredWork
{
    /// <summary>Rotations and hovers of a job's aircraft. It feeds forecast and quote; limits stay those of the chart.</summary>
    public static MeasuredBefore For(WorkStore store, LiftRequest job)
    {
        string? aircraft = job.Aircraft?.Name;
        IReadOnlyList<CycleBaseline> cycles = CycleBaseline.Of(store.Lifts.ForBaselines(null, aircraft));
        if (aircraft is null)
            return new() { Cycles = cycles };
        IReadOnlyList<HoverPoint> hovers = store.Flights.Hovers(aircraft);
        return new() { Cycles = cycles, Hover = HoverBaseline.Learn(aircraft, hovers).Baseline, LastDay = HoverDay.Last(aircraft, hovers) is { Baseline: not null } last ? last : null };
    }

    /// <summary>A kept day's hovers against all before it; null where the aircraft has no hovers at all.</summary>
    public static HoverDay? OfDay(WorkStore store, DayWork day)
    {
        string[] aircraft = [.. day.Flights.Select(f => f.Aircraft).OfType<string>().Distinct()];
        if (day.Flights.Count == 0 || aircraft.Length != 1 || store.Flights.Hovers(aircraft[0]) is not { Count: > 0 } hovers)
            return null;
        double from = day.Flights.Min(f => f.Recorded.FromS), to = day.Flights.Max(f => f.Recorded.ToS);
        return HoverDay.Of(aircraft[0], [.. hovers.Where(h => h.AtS < from)], [.. hovers.Where(h => h.AtS >= from && h.AtS <= to)], day.Job?.Policy?.HoverShift?.Percent);
    }

    /// <summary>A record's hovers, kept or not, against those of the days before it.</summary>
    public static HoverDay OfRecord(WorkStore store, Debrief debrief, FlightRecord record, JobFile job, LiftPlan? plan)
    {
        LiftRequest request = job.Request;
        string aircraft = request.Aircraft?.Name ?? "";
        IReadOnlyList<PlannedLoad>? order = plan is { IsPlanned: true } ? MeasuredFlight.InOrder(plan) : null;
        MeasuredFlight flight = MeasuredFlight.From(debrief, record, request, order);
        Func<double, DateTimeOffset> clock = JobArgument.ClockOf(job).At;
        DateTimeOffset first = clock(flight.Flight.Recorded.FromS);
        DayWork day = store.Days.Read(new(DateOnly.FromDateTime(first.DateTime), request.Aircraft?.Name), request.TimeZone);
        FlownTime flown = FlownTime.Of([.. day.Flights, flight.Flight]);
        HoverFuel fuel = new(request, plan, FuelUse.Of(day.Fuel, flight.Lifts, flown), flown);
        (IReadOnlyList<HoverPoint> hovers, string? why) = HoverPoints.Find(debrief, record, flight.Lifts, new() { Job = request, Fuel = fuel.At, Clock = clock, Weather = JobArgument.PlanOptions(job), Pilot = flight.Flight.Pilot });
        if (hovers.Count == 0)
            return new(aircraft, null, null, null, why, null, null);
        double midnightS = first.AddTicks(-first.TimeOfDay.Ticks).ToUnixTimeMilliseconds() / 1000.0;
        return HoverDay.Of(aircraft, [.. store.Flights.Hovers(aircraft).Where(h => h.AtS < midnightS)], hovers, request.Policy?.HoverShift?.Percent);
    }

    /// <summary>The hovers of a job's day with the fuel on board as it is known now. Said is how many by which source.</summary>
    /// <param name="store">Where they are kept.</param>
    /// <param name="job">The job, with its day.</param>
    /// <param name="plan">Its plan; null when none could be made.</param>
    public static IReadOnlyDictionary<FuelFrom, int> BringUpToDate(WorkStore store, LiftRequest job, LiftPlan? plan)
    {
        if (job.Date is not { } date)
            return new Dictionary<FuelFrom, int>();
        DayWork day = store.Days.Read(new(date, job.Aircraft?.Name), job.TimeZone);
        FlownTime flown = FlownTime.Of(day.Flights);
        HoverFuel fuel = new(job, plan, FuelUse.Of(day.Fuel, day.Lifts, flown), flown);
        List<HoverPoint> all = [];
        foreach (KeptFlight flight in day.Flights)
        {
            IReadOnlyList<HoverPoint> kept = store.Flights.HoversOf(flight.Id), now = fuel.BringUpToDate(kept, [.. day.Lifts.Where(l => l.FlightId == flight.Id)]);
            if (!kept.SequenceEqual(now))
                store.Flights.SaveHovers(flight.Id, now);
            all.AddRange(now);
        }
        return all.Where(h => h.FuelFrom is not null).CountBy(h => h.FuelFrom!.Value).ToDictionary();
    }
}
