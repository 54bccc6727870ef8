using System.Globalization;
using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>Makes the customer's report of a job from what is kept of its days.</summary>
public static class CustomerReporter
{
    private static readonly StringComparer Numbers = StringComparer.OrdinalIgnoreCase;

    private static readonly TimeUse[] Causes = [TimeUse.WaitingOnCustomer, TimeUse.Weather, TimeUse.Fuel, TimeUse.Defect, TimeUse.Other];

    /// <summary>The report.</summary>
    /// <param name="days">One or several days of one job, in any order.</param>
    /// <param name="whyNotPlaced">Reasons by number of the load, as told; where there is none, the tally's remark on a load without a delivery time.</param>
    /// <exception cref="ArgumentException">No day, or days of jobs with different names.</exception>
    public static CustomerReport Report(IReadOnlyList<DayWork> days, IReadOnlyDictionary<string, string>? whyNotPlaced = null)
    {
        ArgumentNullException.ThrowIfNull(days);
        Refuse(days);
        List<DayWork> inOrder = [.. days.OrderBy(d => d.Day)];
        LiftRequest? job = inOrder.LastOrDefault(d => d.Job is not null)?.Job;
        Dictionary<string, PlannedLoad> list = LoadList(inOrder);
        (List<PlacedLoad> placed, int movedAgain) = Placed(inOrder, list);
        (DayWork Day, TimeStretch Stretch)[] times = [.. inOrder.SelectMany(d => (TimeSplit.Of(d)?.Stretches ?? []).Select(s => (d, s)))];
        List<WorkStop> stops = [.. times.Select(t => WorkStop.Of(t.Stretch, t.Day)).OfType<WorkStop>().OrderBy(s => s.From)];
        double flightTimeS = times.Where(t => t.Stretch.Use == TimeUse.Flown).Sum(t => t.Stretch.When.LengthS);
        FuelUse[] fuel = [.. inOrder.Select(d => FuelUse.Of(d.Fuel, d.Lifts, FlownTime.Of(d.Flights)))];
        StandbyTime[] standby = [.. Causes.Select(c => new StandbyTime(c, stops.Where(s => s.Cause == c).Sum(s => s.Minutes), stops.Count(s => s.Cause == c)))];
        ReportTotals totals = new(list.Count, placed.Count(p => p.OnList), placed.Count(p => !p.OnList), placed.Sum(p => p.MassKg ?? 0), placed.Count(p => p.MassKg is null), flightTimeS);
        return new()
        {
            Job = job?.Job,
            Customer = job?.Customer,
            Aircraft = [.. inOrder.SelectMany(d => d.Flights.Select(f => f.Aircraft).Append(d.Job?.Aircraft?.Name)).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase)],
            Days = [.. inOrder.Select(d => d.Day).Distinct()],
            UpTo = UpTo(inOrder),
            Units = job?.Units ?? ShownUnits.M,
            Sites = Sites(inOrder, placed),
            Placed = placed,
            NotPlaced = NotPlaced(inOrder, list, placed, whyNotPlaced),
            Totals = totals,
            Stops = stops,
            Standby = standby,
            LoadsByHour = ByHour(placed),
            Invoice = InvoiceDraft.Of(fuel, job?.Quote, flightTimeS, standby[0].Minutes),
            Remarks = [.. Remarks(totals, placed, movedAgain), .. Uncounted(inOrder, fuel)],
        };
    }

    private static void Refuse(IReadOnlyList<DayWork> days)
    {
        if (days.Count == 0)
            throw new ArgumentException("A report is of at least one day.", nameof(days));
        string[] jobs = [.. days.Select(d => d.Job?.Job?.Trim()).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase)];
        if (jobs.Length > 1)
            throw new ArgumentException($"The days are of different jobs, '{jobs[0]}' and '{jobs[1]}': a report is of one job.", nameof(days));
    }

    /// <summary>All loads of the days' lists by number; a later day's list says what holds.</summary>
    private static Dictionary<string, PlannedLoad> LoadList(IEnumerable<DayWork> days)
    {
        Dictionary<string, PlannedLoad> list = new(Numbers);
        foreach (PlannedLoad load in days.SelectMany(d => d.Job?.Loads ?? []))
            list[load.Number.Trim()] = load;
        return list;
    }

    /// <summary>Loads as they stand in the end. A load that was lifted again counts once, where it was left last.</summary>
    private static (List<PlacedLoad> Placed, int MovedAgain) Placed(IEnumerable<DayWork> days, Dictionary<string, PlannedLoad> list)
    {
        List<PlacedLoad> placed = [];
        foreach (DayWork day in days)
            foreach (KeptLift lift in day.Lifts.Where(IsPlaced))
                placed.Add(PlacedLoad.Of(lift, lift.LoadNumber is { } n ? list.GetValueOrDefault(n.Trim()) : null, day.Job, day.Clock));
        placed = [.. placed.OrderBy(p => p.At ?? DateTimeOffset.MaxValue)];
        List<PlacedLoad> last = [.. placed.Where((p, i) => p.Number is null || !placed.Skip(i + 1).Any(later => Numbers.Equals(later.Number, p.Number)))];
        return (last, placed.Count - last.Count);
    }

    private static bool IsPlaced(KeptLift lift) => !lift.StruckOut && (lift.DeliveryTimeS is not null || lift.AddedByHand);

    private static IReadOnlyList<LoadNotPlaced> NotPlaced(IReadOnlyList<DayWork> days, Dictionary<string, PlannedLoad> list, IReadOnlyList<PlacedLoad> placed, IReadOnlyDictionary<string, string>? why)
    {
        HashSet<string> there = placed.Select(p => p.Number).OfType<string>().Select(n => n.Trim()).ToHashSet(Numbers);
        List<TallyEntry> unplaced = [.. days.SelectMany(d => d.Tally).Where(t => t is { AtS: null, LoadNumber: not null } && !string.IsNullOrWhiteSpace(t.Note))];
        LiftRequest? job = days.LastOrDefault(d => d.Job is not null)?.Job;
        return [.. list.Values.Where(l => !there.Contains(l.Number.Trim())).Select(l => new LoadNotPlaced(
            l.Number, l.Name ?? l.Family, l.Mass.Kilograms, l.Delivery ?? job?.SiteOf(null, Debriefing.SiteUse.Delivery)?.Name,
            why?.GetValueOrDefault(l.Number) ?? unplaced.LastOrDefault(t => Numbers.Equals(t.LoadNumber!.Trim(), l.Number.Trim()))?.Note?.Trim()))];
    }

    private static IReadOnlyList<ReportSite> Sites(IEnumerable<DayWork> days, IReadOnlyList<PlacedLoad> placed)
    {
        Dictionary<string, Site> sites = new(Numbers);
        foreach (Site site in days.SelectMany(d => d.Job?.Sites ?? []))
            sites[site.Name] = site;
        return [.. sites.Values.Select(s => new ReportSite(s.Name, s.Use, new(s.Latitude.Degrees, s.Longitude.Degrees), placed.Count(p => Numbers.Equals(p.Site, s.Name))))];
    }

    private static List<HourCount> ByHour(IEnumerable<PlacedLoad> placed)
    {
        List<HourCount> hours = [];
        foreach (IGrouping<DateTime, DateTimeOffset> day in placed.Select(p => p.At).OfType<DateTimeOffset>().Select(WholeHour).GroupBy(h => h.Date))
            for (DateTimeOffset hour = day.Min(), last = day.Max(); hour <= last; hour = hour.AddHours(1))
                hours.Add(new(hour, day.Count(h => h == hour)));
        return hours;
    }

    private static DateTimeOffset WholeHour(DateTimeOffset time) => time.AddTicks(-(time.Ticks % TimeSpan.TicksPerHour));

    private static DateTimeOffset UpTo(List<DayWork> days)
    {
        DayWork last = days[^1];
        double[] times = [.. days.SelectMany(d => d.Flights).Select(f => f.Recorded.ToS), .. days.SelectMany(d => d.Lifts).Select(l => l.DeliveryTimeS).OfType<double>(), .. days.SelectMany(d => d.TimeMarks).Select(m => m.When.ToS)];
        return times.Length > 0 ? last.Clock(times.Max()) : new(last.Day, TimeOnly.MinValue, TimeSpan.Zero);
    }

    private static IEnumerable<string> Remarks(ReportTotals totals, IReadOnlyList<PlacedLoad> placed, int movedAgain)
    {
        if (placed.Any(p => p.Position is not null))
            yield return "Positions are those of the aircraft's recorder as the load touched the ground: good to some metres, not a survey.";
        if (placed.Count(p => p.Position is null) is > 0 and int unplaced)
            yield return Count(unplaced, "load has", "loads have") + " no recorded position.";
        if (totals.WithoutMass > 0)
            yield return Count(totals.WithoutMass, "load", "loads") + " without a known mass: not in the sum of masses.";
        if (placed.Count(p => p.MassBy == PlacedMassBy.Estimated) is > 0 and int estimated)
            yield return Count(estimated, "mass is an estimate", "masses are estimates") + " from the load list.";
        if (movedAgain > 0)
            yield return Count(movedAgain, "lift moved a load", "lifts moved loads") + " that had been placed before: such a load counts once, where it stands now.";
    }

    private static IEnumerable<string> Uncounted(IReadOnlyList<DayWork> days, IReadOnlyList<FuelUse> fuel)
    {
        if (days.SelectMany(d => d.Lifts).Count(l => !l.StruckOut && !IsPlaced(l)) is > 0 and int unseen)
            yield return Count(unseen, "lift", "lifts") + " without a recorded set-down: not counted as placed.";
        double unknownMin = fuel.Where(f => f.UsedKg is not null).Sum(f => f.UnknownFlownS) / 60;
        if (unknownMin >= 1)
            yield return string.Create(CultureInfo.InvariantCulture, $"The fuel of {unknownMin:0} min in the air lies outside the gauge readings and is not in the sum.");
    }

    private static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");
}
