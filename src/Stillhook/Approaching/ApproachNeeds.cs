using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Checking;

namespace Stillhook.Approaching;

/// <summary>Which load and site an approach is for, and what it can't do without.</summary>
internal static class ApproachNeeds
{
    /// <summary>The site and load asked for; else the heaviest load that lifts, and its site.</summary>
    public static (Site? Site, PlannedLoad? Load, RequestFinding? Missing) Choose(LiftRequest request, LiftPlan? lift, ApproachOptions options)
    {
        if (!request.Sites.Any(s => s.Use == SiteUse.Delivery))
            return (null, null, RequestCheck.Error("approach-needs", "sites", "An approach needs a delivery site.", "Write sites: with its position and elevation."));
        Site? named = options.Site is null ? null : request.Sites.FirstOrDefault(s => s.Use == SiteUse.Delivery && string.Equals(s.Name, options.Site, StringComparison.OrdinalIgnoreCase));
        if (options.Site is not null && named is null)
            return (null, null, RequestCheck.Error("no-such-site", "sites", $"There is no delivery site '{options.Site}'.", "Sites: " + string.Join(", ", request.Sites.Where(s => s.Use == SiteUse.Delivery).Select(s => s.Name)) + "."));
        PlannedLoad? load = options.Load is null ? null : request.Loads.FirstOrDefault(l => string.Equals(l.Number, options.Load, StringComparison.OrdinalIgnoreCase));
        if (options.Load is not null && load is null)
            return (null, null, RequestCheck.Error("no-such-load", "loads", $"There is no load '{options.Load}'.", "Loads: " + string.Join(", ", request.Loads.Select(l => l.Number)) + "."));
        if (load is not null && named is not null && request.SiteOf(load.Delivery, SiteUse.Delivery) != named)
            return (null, null, RequestCheck.Error("load-elsewhere", "loads", $"Load {load.Number} does not go to {named.Name}.", "Leave out the load or the site."));
        load ??= Heaviest(request, lift, named);
        Site? site = named ?? (load is null ? request.SiteOf(null, SiteUse.Delivery) : request.SiteOf(load.Delivery, SiteUse.Delivery));
        return site is null ? (null, null, RequestCheck.Error("no-such-site", "loads", $"Load {load!.Number} goes to '{load.Delivery}', which is not a delivery site.", "Write the name of a delivery site.")) : (site, load, null);
    }

    // Where none lifts, or none is judged, the heaviest of all: its approach says what is lacking.
    private static PlannedLoad? Heaviest(LiftRequest request, LiftPlan? lift, Site? site)
    {
        List<PlannedLoad> here = [.. request.Loads.Where(l => site is null || request.SiteOf(l.Delivery, SiteUse.Delivery) == site)];
        LoadPlan? Planned(PlannedLoad load) => lift?.Loads.First(p => p.OnHook.Load == load);
        List<PlannedLoad> lifting = [.. here.Where(l => Planned(l)?.Verdict is null or LoadVerdict.Lifts)];
        return (lifting.Count > 0 ? lifting : here).MaxBy(l => Planned(l)?.OnHook.NeedKg ?? l.Mass.Kilograms);
    }

    public static IEnumerable<RequestFinding> Findings(LiftRequest request, Site site, PlannedLoad? load)
    {
        string path = SiteCheck.Path(request.Sites.ToList().IndexOf(site));
        if (site.Elevation is null && site.Recon is null)
            yield return Missing(path + ".elevation", $"the elevation of '{site.Name}' or an altimeter reading over it", "gates are altimeter readings");
        if (request.Line?.Length is null)
            yield return Missing("line.length", "the length of the line", "the line alone; it sets swing, heights and the path itself");
        string at = load is null ? "load" : $"loads[{request.Loads.ToList().IndexOf(load)}]";
        if ((load?.Mass ?? request.Load?.Mass) is not { } mass)
            yield return Missing("loads", "a load with its mass", "drag and mass set how it trails");
        else if (mass.Kilograms <= 0)
            yield return Missing(at + ".mass", $"a load of more than 0 kg (it says {mass.Kilograms.ToString("0.#", CultureInfo.InvariantCulture)} kg)", "weighed; for the way without a load see the limits for the empty line");
    }

    private static RequestFinding Missing(string path, string what, string why) => RequestCheck.Error("approach-needs", path, $"An approach needs {what}.", $"Write {path}: {why}.");
}
