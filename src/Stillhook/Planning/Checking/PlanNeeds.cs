using Stillhook.Debriefing;

namespace Stillhook.Planning.Checking;

/// <summary>What a plan can't do without. Nothing here has a default that could be honest.</summary>
internal static class PlanNeeds
{
    private const double FarM = 150_000;

    public static IEnumerable<RequestFinding> Findings(LiftRequest request) => [.. Day(request), .. Fuel(request), .. FarApart(request), .. Aircraft(request.Aircraft ?? new()), .. PowerMargin(request), .. Pilots(request), .. Sites(request), .. Loads(request)];

    private static IEnumerable<RequestFinding> Day(LiftRequest request)
    {
        if (request.Date is null)
            yield return Missing("date", "the day of the work", "papers and inspections are checked against it");
        if (request.Day?.Start is null)
            yield return Missing("day.start", "the clock time of the first take-off", "the forecast is followed from there");
    }

    private static IEnumerable<RequestFinding> Aircraft(Aircraft aircraft)
    {
        (object? Value, string Member, string What, string Why)[] needs =
        [
            (aircraft.EquippedMass, "equippedMass", "the equipped mass", "from the weighing record, as flown"),
            (aircraft.HookLimit, "hookLimit", "the rated load of the cargo hook", "from its plate and the flight manual"),
            (aircraft.ExternalGrossLimit, "externalGrossLimit", "the highest gross mass with an external load", "from the flight manual's limitations"),
            (aircraft.HoverOutOfGroundEffect, "hoverOutOfGroundEffect", "the hover chart out of ground effect", "typed in from the flight manual"),
            (aircraft.Fuel, "fuel", "tank and burn", "fuel is mass: it decides what can be lifted"),
            (aircraft.Speeds, "speeds", "speeds and hover times", "from the last jobs or the operator's own figures"),
        ];
        return needs.Where(n => n.Value is null).Select(n => Missing("aircraft." + n.Member, n.What, n.Why));
    }

    private static IEnumerable<RequestFinding> Fuel(LiftRequest request)
    {
        if (request is { Day.StartFuel: { } start, Aircraft.Fuel.Tank: var tank } && start > tank)
            yield return RequestCheck.Error("fuel-over-tank", "day.startFuel", $"{ChartAxes.Text(start)} of fuel at the start; the tank takes {ChartAxes.Text(tank)}.", "Write what is aboard at the first take-off, or leave it out and the plan chooses it.");
    }

    /// <summary>A sign forgotten in a longitude puts a site on another continent.</summary>
    private static IEnumerable<RequestFinding> FarApart(LiftRequest request)
    {
        for (int i = 1; i < request.Sites.Count; i++)
            if (RotationLegs.DistanceM(request.Sites[0], request.Sites[i]) > FarM)
                yield return RequestCheck.Error("site-far", SiteCheck.Path(i), string.Create(System.Globalization.CultureInfo.InvariantCulture, $"'{LoadCheck.Shown(request.Sites[i].Name)}' is {RotationLegs.DistanceM(request.Sites[0], request.Sites[i]) / 1000:0} km from '{LoadCheck.Shown(request.Sites[0].Name)}'."),
                    "Look at the signs of latitude and longitude: north and east are positive.");
    }

    private static IEnumerable<RequestFinding> PowerMargin(LiftRequest request)
    {
        if (request.Policy?.PowerMargin is { Percent: > 0 } && request.Aircraft is { HoverTorque: null })
            yield return Missing("aircraft.hoverTorque", "the hover torque page", "policy.powerMarginPercent keeps power in hand, and only that page says how much power a mass takes; a margin in mass is policy.massMarginKg");
    }

    private static IEnumerable<RequestFinding> Pilots(LiftRequest request)
    {
        if (!request.Crew.Any(c => c.Role == CrewRole.Pilot && c.FliesAlong()))
            yield return Missing("crew", "a pilot aboard with his or her mass", "role pilot and massKg");
        for (int i = 0; i < request.Crew.Count; i++)
            if (request.Crew[i] is { Mass: null } member && member.FliesAlong())
                yield return Missing(ChartAxes.At("crew", i) + ".mass", $"the mass of {LoadCheck.Shown(member.Name)}", "with clothing and kit; who flies along is lifted too");
    }

    private static IEnumerable<RequestFinding> Sites(LiftRequest request)
    {
        foreach ((SiteUse use, string word) in new[] { (SiteUse.PickUp, "pick-up"), (SiteUse.Delivery, "delivery") })
            if (!request.Sites.Any(s => s.Use == use))
                yield return Missing("sites", $"a {word} site", "with its position, elevation and weather");
        for (int i = 0; i < request.Sites.Count; i++)
        {
            Site site = request.Sites[i];
            if (site.Use == SiteUse.Base)
                continue;
            if (site.Elevation is null)
                yield return Missing(SiteCheck.Path(i) + ".elevation", $"the elevation of '{LoadCheck.Shown(site.Name)}'", "from a survey, a map or an altimeter");
            if (site.Weather is null)
                yield return Missing(SiteCheck.Path(i) + ".weather", $"the weather at '{LoadCheck.Shown(site.Name)}'", "QNH and temperature there");
        }
    }

    private static IEnumerable<RequestFinding> Loads(LiftRequest request)
    {
        if (request.Loads.Count == 0)
            yield return Missing("loads", "the load list", "each load with its number, mass and how the mass is known");
        if (request.Rigging.Count == 0)
            yield return Missing("rigging", "every part between the cargo hook and the loads' slings", "each with its rated load and mass: what hangs on the hook is lifted too");
        for (int i = 0; i < request.Rigging.Count; i++)
            if (request.Rigging[i] is { Mass: null } part && part.Kind != PartKind.CargoHook)
                yield return Missing(ChartAxes.At("rigging", i) + ".mass", $"the mass of {LoadCheck.Shown(part.Name)}", "it hangs on the hook and is lifted too");
        if (request.Policy?.Method == PayloadMethod.Interagency && request.Aircraft is { WeightReduction: null })
            yield return Missing("aircraft.weightReduction", "the fixed weight reduction of the type", "from the contract; the interagency form subtracts it");
        if (request.Day is { Start: { } start, LatestEnd: { } end } && end <= start)
            yield return RequestCheck.Error("day-ends-before-start", "day.latestEnd", $"The day ends at {end:HH\\:mm}, before it starts at {start:HH\\:mm}.", "Write clock times of one day; a plan does not run past midnight.");
        if (request.Line?.Length is null)
            yield return Missing("line.length", "the length of the line", "the line alone");
    }

    private static RequestFinding Missing(string path, string what, string why) =>
        RequestCheck.Error("plan-needs", path, $"A plan needs {what}.", $"Write {path}: {why}.");
}
