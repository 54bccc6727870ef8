using Stillhook.Approaching;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.Briefing;

/// <summary>Makes the brief of the whole crew.</summary>
internal static class CrewBriefs
{
    public static CrewBrief Of(LiftPlan plan, IReadOnlyList<BriefedApproach> approaches)
    {
        LiftRequest request = plan.Request;
        return new()
        {
            Roles = [.. Enum.GetValues<CrewRole>().Select(r => (r, request.Crew.Any(c => c.Role == r) ? string.Join(", ", request.Crew.Where(c => c.Role == r).Select(c => c.Name)) : null))],
            Weather = [.. request.Sites.Select(s => Weather(s, approaches))],
            Ways = [.. approaches.Select(Way)],
            Hazards = Hazards(plan, approaches),
            EmergencySpots = [.. request.Sites.SelectMany(Spots)],
            Order = TankRun.Of(plan.Order),
            Loads = (plan.Loads.Count(l => l.Verdict == LoadVerdict.Lifts), plan.Loads.Count),
            Day = plan.Order is { Timeline: { Steps.Count: > 0 } day } ? (day.Steps[0].FromMinute, day.FinishMinute) : null,
            Fuel = plan.Order is { Timeline.Steps: { Count: > 0 } steps } && plan.Figures.Find("reserve")?.Value.Quantity is Mass reserve ? (steps[0].FuelFromKg, reserve.Kilograms) : null,
            FuelIfNotMeansKg = plan.Order?.SlowEnds?.FuelKg,
        };
    }

    private static SiteWeather Weather(Site site, IReadOnlyList<BriefedApproach> approaches) => new(site.Name, site.Weather,
        site.Weather?.Time is { } time && approaches.Select(a => a.Plan.Situation).FirstOrDefault(s => s is not null) is { } s ? s.Options.Plan.SiteClock(time) : null, site.Forecast.MaxBy(f => f.Temperature.DegreesCelsius));

    private static WayBrief Way(BriefedApproach a)
    {
        ApproachPlan plan = a.Plan;
        string? blocked = CockpitCards.Blocked(plan);
        if (blocked is not null || plan.Gates.Count == 0)
            return new(a.Site, a.Reason, plan.Situation?.Wind, blocked ?? "No marks.", double.NaN, double.NaN, double.NaN, null, null, null);
        ApproachGate? reject = plan.Gate(ApproachGates.RejectName);
        return new(a.Site, a.Reason, plan.Situation?.Wind, null, plan.CourseDeg, plan.Gates[0].DistanceM, plan.Gates[0].AltimeterFt, reject?.AltimeterFt, reject?.DistanceM, plan.Reject is { } r ? (plan.CourseDeg + r.TurnDeg + 360) % 360 : null);
    }

    private static IReadOnlyList<Hazard> Hazards(LiftPlan plan, IReadOnlyList<BriefedApproach> approaches)
    {
        IEnumerable<CheckItem> planned = approaches.Where(a => a.Reason == ApproachReason.Planned && a.Plan.Situation is not null).SelectMany(a => a.Plan.Checks.Select(c => c with { Subject = a.Site })).Where(c => c.Verdict != CheckVerdict.Passes);
        IEnumerable<CheckItem> obstacles = plan.Request.Sites.SelectMany(s => s.Obstacles.Select(o => new CheckItem(CheckVerdict.ToConfirm, "obstacle", "sites", s.Name, FormattableString.Invariant($"{o.Name}, {Math.Ceiling(o.Height.Meters):0} m high, stands at the site."), CheckItem.CommonPractice)));
        IEnumerable<CheckItem> wires = plan.Wires.Where(w => w.Item.Verdict == CheckVerdict.Passes).Select(w => new CheckItem(CheckVerdict.ToConfirm, "wire", "sites", w.Site, FormattableString.Invariant($"{w.Wire} is near: keep {Math.Ceiling(((Length)w.Needed.Value.Quantity).Meters):0} m from it."), CheckItem.CommonPractice));
        return
        [
            .. plan.ToLookAt.Concat(planned).Concat(wires).Concat(obstacles).GroupBy(i => (i.Verdict, i.Red, i.Text))
                .Select(g => new Hazard(g.Key.Verdict, g.Key.Red, [.. g.Select(i => i.Subject).Distinct()], g.Key.Text)).OrderByDescending(h => h.Verdict).ThenByDescending(h => h.Red),
        ];
    }

    private static IEnumerable<EmergencySpot> Spots(Site site)
    {
        LocalFrame frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
        return site.EmergencySpots.Select(spot => (spot, Place: frame.ToEnu(spot.Latitude.Degrees, spot.Longitude.Degrees, 0)))
            .Select(p => new EmergencySpot(site.Name, p.spot.Name ?? "place without a name", p.Place.Horizontal, ReceiverSheets.Bearing(p.Place)));
    }
}
