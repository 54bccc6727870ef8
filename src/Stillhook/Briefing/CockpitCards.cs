using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>Makes a cockpit card of an approach: what is read in flight, and nothing below the first gate.</summary>
internal static class CockpitCards
{
    private const double SameSettingPa = 5; // nearer than that, both read the same on a dial

    /// <summary>The card.</summary>
    /// <param name="lift">Lift plan behind it.</param>
    /// <param name="briefed">The approach.</param>
    public static CockpitCard Of(LiftPlan lift, BriefedApproach briefed)
    {
        ApproachPlan plan = briefed.Plan;
        ApproachSituation? s = plan.Situation;
        CockpitCard card = new()
        {
            Site = briefed.Site,
            Load = s?.LoadName ?? "no load",
            Reason = briefed.Reason,
            Blocked = Blocked(plan),
            Remedies = plan.Remedies,
            Wind = s?.Wind,
            QnhPa = s?.QnhPa,
            QnhAt = s is { Site.Weather: { Time: { } read } observed } && s.Options.Shift.Qnh is null && Math.Abs(observed.Qnh.Pascals - (s.QnhPa ?? 0)) < SameSettingPa ? s.Options.Plan.SiteClock(read) : null,
            Recon = s?.Site.Recon is { } recon ? (recon.Altimeter.Feet, recon.Qnh.Pascals, s.Options.Plan.SiteClock(recon.Time)) : null,
            TemperatureC = s?.TemperatureC,
            Minute = s?.Minute,
            Order = TankRun.Of(lift.Order),
        };
        return card.Blocked is not null || s is null || plan.Way is not { } way ? card : Flown(card, lift, plan, s, way);
    }

    /// <summary>Why there is nothing to fly; null when there is.</summary>
    internal static string? Blocked(ApproachPlan plan) => plan.Situation is null
        ? string.Join(" ", plan.Findings.Where(f => f.Severity == Recording.Severity.Error).Select(f => f.What).DefaultIfEmpty("The approach could not be planned."))
        : !plan.IsOffered ? plan.Refused ?? "No approach that breaks nothing was found."
        : plan.Situation.NotLifted is { } why ? $"The lift plan does not lift this load: {why}" : null;

    private static CockpitCard Flown(CockpitCard card, LiftPlan lift, ApproachPlan plan, ApproachSituation s, WayIn way)
    {
        SectorCheck sector = plan.Sectors.First(x => x.CourseDeg == plan.CourseDeg);
        CockpitMark? powerIn = plan.Gate(ApproachGates.PowerInName) is { } p ? Mark("P", p) : null, reject = plan.Gate(ApproachGates.RejectName) is { } r ? Mark("R", r) : null;
        List<CockpitMark> marks = [];
        foreach (ApproachGate gate in ToTheFirstGate(plan))
            marks.Add(Mark((marks.Count + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), gate));
        return card with
        {
            CourseDeg = plan.CourseDeg,
            HeadwindMs = sector.HeadwindMs,
            CrosswindMs = sector.CrosswindMs,
            Marks = marks,
            OverTheSpotFt = plan.Gates[^1].AltimeterFt,
            PowerIn = powerIn is null ? null : new(powerIn, plan.LargestSinkAtPowerInMs, plan.Gate(ApproachGates.PowerInName)!.TorquePercent, plan.Gates[^1].TorquePercent),
            Reject = reject is null ? null : new(reject, plan.Reject!.TurnDeg),
            Period = (s.PeriodS, s.FreePeriodS),
            PowerLeftPercent = s.Hover?.LeftPercent,
            PlanRejectUnderPercent = s.Rules.HoverReservePercent.Value,
            Triggers = new(FtPerHPa(s.QnhPa), s.Rules.CrosswindMs.Value, s.Wind is { } wind ? wind.Speed.MetersPerSecond + s.GustMs : null, Heat(lift, s)),
            Sketch = SideSketch.Draw(way, marks, powerIn, reject),
            ToLookAt = [.. plan.Checks.Where(c => c.Verdict != CheckVerdict.Passes).OrderByDescending(c => c.Red).ThenByDescending(c => c.Verdict)],
            BareLine = plan.Empty is not null,
            Inputs = [.. plan.Figures.All.SelectMany(f => f.Inputs).Where(i => i.From is InputFrom.JobFile or InputFrom.Default or InputFrom.Typed).DistinctBy(i => (i.Name, i.Where))],
        };
    }

    /// <summary>Marks down to the first of power-in and reject; where neither was judged, those with something to do.</summary>
    private static IEnumerable<ApproachGate> ToTheFirstGate(ApproachPlan plan)
    {
        double[] gates = [.. new[] { plan.Gate(ApproachGates.PowerInName), plan.Gate(ApproachGates.RejectName) }.OfType<ApproachGate>().Select(g => g.DistanceM)];
        return plan.Gates.Where(g => g.DistanceM > 0 && g.Name is not (ApproachGates.PowerInName or ApproachGates.RejectName) && (gates.Length > 0 ? g.DistanceM > gates.Max() : g.Name.Length > 0));
    }

    private static CockpitMark Mark(string label, ApproachGate g) => new(label, g.Name, g.DistanceM, g.Landmark, g.AltimeterFt, g.AirKt is null ? null : g.AirMs, g.GroundMs, g.SinkMs);

    private static double? FtPerHPa(double? qnhPa) => qnhPa is { } qnh ? Altimeter.ReadsHighM(qnh, qnh - 100) / 0.3048 : null;

    /// <summary>When heat stops the card's load, and before it the load of this site that has the least to go at its own hour; only what the day can come near.</summary>
    private static IReadOnlyList<HeatStop> Heat(LiftPlan lift, ApproachSituation s)
    {
        HeatStop[] stops = [.. lift.Loads.Where(l => l.Verdict == LoadVerdict.Lifts && l.Payload is not null && l.Hot is { } h && h.TemperatureC <= HottestC(lift, s, h.Site) && lift.Request.SiteOf(l.OnHook.Load.Delivery, SiteUse.Delivery)?.Name == s.Site.Name)
            .Select(l => new HeatStop(l.Hot!.Site.Name, l.OnHook.Load.Number, l.Hot.TemperatureC, PlannedC(l), l.Lift?.HookOnMinute, l.Hot.ToEndOfChart)).OrderBy(h => h.TemperatureC - h.PlannedC)];
        return [.. stops.Take(1).Concat(stops.Where(h => h.LoadNumber == s.Listed?.Number)).DistinctBy(h => h.LoadNumber)];
    }

    /// <summary>The hottest that the day can come to at a site, °C: what is planned for between start and latest end, and what it may be off before a new load calculation is due [NWCG-PMS-510].</summary>
    private static double HottestC(LiftPlan lift, ApproachSituation s, Site site)
    {
        DayWeather day = s.Options.Plan.WeatherOf(lift.Request, site);
        double from = lift.Request.Day?.Start?.ToTimeSpan().TotalMinutes ?? 0, to = lift.Request.Day?.LatestEnd?.ToTimeSpan().TotalMinutes ?? lift.Order?.Timeline.FinishMinute ?? 24 * 60;
        return day.HottestC(from, Math.Max(from, to)) + new PolicyInForce(lift.Request).ReplanTemperatureC.Value;
    }

    private static double PlannedC(LoadPlan l) => (l.Payload!.PickUp.At.Site.Name == l.Hot!.Site.Name ? l.Payload.PickUp : l.Payload.Delivery).At.TemperatureC;
}
