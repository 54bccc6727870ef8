using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>Plans the approaches that a brief needs: each delivery site for the wind of the job, for winds asked for, and for the same wind from the other side.</summary>
public static class BriefedApproaches
{
    private const int FlightsOfOthers = 500;

    /// <summary>The approaches.</summary>
    /// <param name="request">The job.</param>
    /// <param name="lift">Its lift plan.</param>
    /// <param name="options">How approaches are planned; with a load, only that load's site.</param>
    /// <param name="winds">Winds that a card of its own is asked for.</param>
    public static IEnumerable<BriefedApproach> Of(LiftRequest request, LiftPlan lift, ApproachOptions options, IReadOnlyList<Wind> winds)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(lift);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(winds);
        foreach ((Site site, string? load) in Sites(request, lift, options))
        {
            ApproachOptions here = options with { Site = site.Name, Load = load };
            ApproachPlan planned = ApproachPlanner.Plan(request, lift, here);
            yield return new(site.Name, planned);
            foreach (Wind wind in winds)
                yield return new(site.Name, InWind(request, lift, here, wind), ApproachReason.AskedFor);
            if (planned.Situation?.Wind is { } now && now.Speed.MetersPerSecond > 0.25)
                yield return new(site.Name, InWind(request, lift, here with { Flights = FlightsOfOthers }, new((now.FromDeg + 180) % 360, now.Speed)), ApproachReason.OtherSide);
        }
    }

    private static ApproachPlan InWind(LiftRequest request, LiftPlan lift, ApproachOptions options, Wind wind) =>
        ApproachPlanner.Plan(new ApproachShift(Wind: wind).Applied(request), lift, options with { Shift = options.Shift with { Wind = wind } });

    /// <summary>Each delivery site that a load goes to, with its heaviest load that lifts, else its heaviest; the sites' own order.</summary>
    private static IEnumerable<(Site Site, string? Load)> Sites(LiftRequest request, LiftPlan lift, ApproachOptions options)
    {
        if (options.Load is { } asked)
        {
            PlannedLoad? load = request.Loads.FirstOrDefault(l => string.Equals(l.Number, asked, StringComparison.OrdinalIgnoreCase));
            if ((options.Site is { } named ? request.SiteOf(named, SiteUse.Delivery) : request.SiteOf(load?.Delivery, SiteUse.Delivery)) is { } its)
                yield return (its, asked);
            yield break;
        }
        foreach (Site site in request.Sites.Where(s => s.Use == SiteUse.Delivery && (options.Site is null || string.Equals(s.Name, options.Site, StringComparison.OrdinalIgnoreCase))))
        {
            LoadPlan[] here = [.. lift.Loads.Where(l => request.SiteOf(l.OnHook.Load.Delivery, SiteUse.Delivery) == site)];
            if (here.OrderByDescending(l => l.Verdict == LoadVerdict.Lifts).ThenByDescending(l => l.OnHook.NeedKg).FirstOrDefault() is { } heaviest)
                yield return (site, heaviest.OnHook.Load.Number);
            else if (request.Loads.Count == 0)
                yield return (site, null);
        }
    }
}
