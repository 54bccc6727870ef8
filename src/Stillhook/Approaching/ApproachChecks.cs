using System.Globalization;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Rotor;
using Stillhook.Planning;

namespace Stillhook.Approaching;

/// <summary>What the pilot must look at before flying an approach: trade practice that it breaks and why, cautions, what is not known.</summary>
internal static class ApproachChecks
{
    private const double LongTrailDeg = 20, SlightSlipDeg = 10, OftenMissed = 0.25, NoseLimitDeg = 15, HighDensityAltitudeM = 1500, SurgeMs2 = 0.03 * Gravity.Standard;

    public static IReadOnlyList<CheckItem> Of(ApproachPlan plan, Surroundings surroundings)
    {
        ApproachSituation s = plan.Situation!;
        return [.. Entered(s), .. Known(s), .. Power(plan, s), .. plan.Way is { } way ? [.. Flown(plan, s, way), .. Side(s, way), .. Around(plan, s, way, surroundings)] : Array.Empty<CheckItem>()];
    }

    private static IEnumerable<CheckItem> Known(ApproachSituation s)
    {
        if (s.Wind is null)
            yield return Item("no-wind", "sites.weather.wind", Text($"No wind given: no direction is ruled out for wind. Sinks are held to what {s.Rules.GustSpreadMs.Value / ApproachGates.KnotMs:0} kt from behind would permit, and the simulated flights draw as much from anywhere. Type --wind."));
        if (s.QnhPa is null)
            yield return Item("no-qnh", "sites.weather", "No altimeter setting given: standard pressure is taken for the air, and a reading over the spot must be made before gates can be flown.");
        if (s.Site.Recon is null)
            yield return Item("no-recon", "sites.recon", "No altimeter reading over the spot with the load touching: gates rest on the entered elevation. Fly one and enter it with its setting and time.");
        if (s.Rules.PeopleClearanceM.From == InputFrom.Default)
            yield return Item("stand-off-default", "approach.peopleClearance", Text($"How far people stand off, {s.Rules.PeopleClearanceM.Value:0} m, is a default, not set by the operator: set yours."));
        if (s.Listed is { HowKnown: not MassKnownBy.Weighed })
            yield return Item("not-weighed", "loads", "The load is not weighed: power in hand and trail rest on a guess.");
    }

    private static IEnumerable<CheckItem> Entered(ApproachSituation s)
    {
        if (s.Request is { FlyEnteredGates: true, Gates.Count: > 0 })
            yield return new(CheckVerdict.ToConfirm, "entered-gates", "flyEnteredGates", s.Site.Name, "The job says to fly the gates entered in it; the marks here are the planned approach's, not those. A card issued with these marks stands above the entered gates from then on.", CheckItem.CommonPractice, Red: true);
    }

    private static IEnumerable<CheckItem> Power(ApproachPlan plan, ApproachSituation s)
    {
        double reserve = s.Rules.HoverReservePercent.Value;
        if (s.NotLifted is { } why)
            yield return new(CheckVerdict.Fails, "not-lifted", "loads", s.LoadName, $"The lift plan does not lift this load: {why} Power here is that with the least fuel that would fly it.", CheckItem.CommonPractice);
        if (s.Hover is not { } hover)
            yield return new(CheckVerdict.Fails, "power-not-judged", "aircraft.hoverOutOfGroundEffect", s.LoadName, "Power over the spot is not judged: no lift plan could be made, or the chart does not cover this place. There is no power-in gate and no reject gate.", CheckItem.CommonPractice, Red: true);
        else if (hover.LeftPercent < reserve)
            yield return new(CheckVerdict.ToConfirm, "reject-planned", "policy.powerMargin", s.LoadName, Text($"Less than {reserve:0.#} % left over the spot ({HoverRatio.Shown(hover.LeftPercent):0} %): plan a reject."), "NZ-135.95", Red: true);
        double high = Physics.Air.DensityAltitude.OfDensityM(s.Load.AirDensityKgM3);
        if (high > HighDensityAltitudeM)
            yield return Item("high-site", "sites", Text($"Density altitude {Math.Round(high / 0.3048 / 100) * 100:0} ft: expect more power and a faster sink. Plan a reject."));
        if (plan.Way is not null && s.Hover is not null && plan.Reject is null)
            yield return new(CheckVerdict.Fails, "no-way-out", "sites", s.Site.Name, "No way out keeps the load clear once the start mark is passed: fly this approach only if the load may be left behind, or find another direction.", CheckItem.CommonPractice);
    }

    private static IEnumerable<CheckItem> Flown(ApproachPlan plan, ApproachSituation s, WayIn way)
    {
        LoadPath path = way.Path;
        if (plan.PowerIn is { SinkMs: > VortexRing.AmberSinkMs } gate)
            yield return Item("late-power", "approach", Text($"The power-in gate comes with {ApproachGates.RoundSink(gate.SinkMs):0} ft/min of sink: good practice has power in early with a low sink."));
        if (path.PeakHookSurgeMs2() > SurgeMs2)
            yield return Item("not-one-slow-down", "approach", "The slow-down is not one smooth motion: the aircraft has to pick up speed again on the way.");
        if (plan.Gates.Where(g => g.Broken > OftenMissed).MaxBy(g => g.Broken) is { } missed)
            yield return Item("mark-missed", "approach", Text($"{100 * missed.Broken:0} % of the simulated flights are off the mark {missed.DistanceM:0} m before the spot: too short or too steep for a hand to fly well. A start mark farther out helps."));
        if (WaySearch.AmberSinkFromM(path) is { } amberM)
            yield return new(CheckVerdict.ToConfirm, "sink-amber", "approach.slowSinkLimit", s.LoadName, Text($"Over 300 ft/min below 30 kt of air speed from {amberM:0} m on, inside the limit: no quieter path was found. Power on before the speed is gone."), "FAA-H-8083-21");
        double trail = double.RadiansToDegrees(Math.Atan2(Math.Abs(path.Hook[0].East - path.Load[0].East), path.Hook[0].Up - path.Load[0].Up));
        if (trail > LongTrailDeg)
            yield return Item("light-load", "loads", Text($"Light for its size: it trails {trail:0}° at {s.Rules.EntrySpeedMs.Value / ApproachGates.KnotMs:0} kt. Build up speed slowly and watch line and load; a slower start mark trails less."));
        if (s.HoverInducedMs is null)
            yield return Item("wake-not-judged", "aircraft.rotor", "No rotor entered: the sink limit is the handbook's 300 ft/min alone.");
    }

    private static IEnumerable<CheckItem> Side(ApproachSituation s, WayIn way)
    {
        HangingLoad hanging = way.Path.Hanging;
        double drift = double.RadiansToDegrees(Math.Atan2(hanging.WindRightMs, Math.Max(1, way.Path.Shape.EntryMs - hanging.WindAlongMs)));
        if (s.Request.Aircraft?.PilotSide is not { } side)
            yield return Item("pilot-side", "aircraft.pilotSide", "From which seat the load is watched was not entered: which side of the nose the spot should stand is not judged.");
        else
        {
            // Wind from the left turns the nose left of the way: the spot then stands to the right of the nose.
            double wanted = side == PilotSide.Right ? drift : -drift;
            string where = side == PilotSide.Right ? "right" : "left";
            if (wanted < -SlightSlipDeg)
                yield return Item("spot-behind-nose", "approach.course", Text($"The wind puts the spot {-wanted:0}° to the far side of the nose, more than a slight side-slip holds: another course, or the other seat, keeps it in sight."));
            else if (wanted < -1)
                yield return Item("spot-behind-nose", "approach.course", Text($"The wind puts the spot {-wanted:0}° to the far side of the nose: a slight side-slip must keep it in sight on the {where}, against the wind's drift."));
            else
                yield return new(CheckVerdict.Passes, "spot-in-sight", "approach.course", s.LoadName, Text($"Keep the spot a little to the {where} of the nose, {Math.Max(5, Math.Round(wanted / 5) * 5):0}° by a slight side-slip{(wanted >= 3 ? "; the wind's drift gives it by itself" : "")}."), CheckItem.CommonPractice);
        }
        if (Math.Abs(drift) > NoseLimitDeg)
            yield return Item("strong-drift", "approach.course", Text($"The wind turns the nose {Math.Abs(drift):0}° off the way at the start mark."));
        if (hanging.WindAlongMs > 0.5 * ApproachGates.KnotMs)
            yield return Item("light-tailwind", "approach.course", Text($"{hanging.WindAlongMs / ApproachGates.KnotMs:0.#} kt from behind: light, but expect more power and a faster sink. Plan a reject."));
        if (s.Sun is { } sun && WaySearch.SunInTheEyes(sun, way.CourseDeg))
            yield return Item("sun", "approach.course", Text($"The sun stands {WaySearch.Apart(sun.AzimuthDeg, way.CourseDeg):0}° off the nose, {sun.ElevationDeg:0}° high."));
    }

    private static IEnumerable<CheckItem> Around(ApproachPlan plan, ApproachSituation s, WayIn way, Surroundings surroundings)
    {
        CourseFrame course = new(way.CourseDeg);
        double mayCome = plan.Robustness is { } flights ? flights.MissM.NinetyFive + flights.SwingM.NinetyFive : 0;
        foreach ((string name, Enu place) in surroundings.People.Where(p => surroundings.IsReceiver(p.Place, course) || p.Place.Horizontal < Math.Max(s.Rules.PeopleClearanceM.Value, mayCome)))
            yield return new(place.Horizontal < mayCome ? CheckVerdict.Fails : CheckVerdict.ToConfirm, "person-near", "sites.people", name,
                Text($"{name} stands {place.Horizontal:0} m from the spot; in 95 of 100 simulated flights the load comes down and swings within {mayCome:0} m of it. Out from under until the load has touched."), CheckItem.CommonPractice, Red: place.Horizontal < mayCome);
        foreach ((string name, double over) in surroundings.Crossed(way.Path, way.CourseDeg))
            yield return new(CheckVerdict.ToConfirm, "wire-crossed", "sites.wires", name, Text($"The way in leads over or along {name}, the load at least {Math.Floor(over):0} m over its highest wire."), CheckItem.CommonPractice, Red: true);
        if (way.Path.Hanging is { LoadHeightM: 0 })
            yield return Item("load-height", "loads.height", "The load's own height is not entered: it is taken as 0, and every mark is too low by it.");
        if (!surroundings.HasGround)
            yield return Item("no-terrain", "approach.terrain", "No elevation grid: the ground on the way in and out is taken to be no higher than the spot. Look at the map.");
        foreach (Wire wire in s.Site.Wires.Where(w => w.From is null || w.To is null))
            yield return Item("wire-not-placed", "sites.wires", Text($"{wire.Name} is not on the map (from, to): it is not minded here."));
        if (way.Path.Hanging.Load.LineKgPerM == 0)
            yield return Item("line-mass", "rigging", "The line has no mass entered: swing and trail are those of a weightless one.");
    }

    private static CheckItem Item(string code, string path, string text) => new(CheckVerdict.ToConfirm, code, path, "approach", text, CheckItem.CommonPractice);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
