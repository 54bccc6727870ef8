using Stillhook.Briefing;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.Files.Cards;

/// <summary>A brief in single facts, so that a later one can be held against it.</summary>
public static class BriefLines
{
    /// <summary>The facts, in the order in which they are briefed.</summary>
    /// <param name="brief">The brief.</param>
    /// <param name="units">Units; two briefs are held against each other in the same.</param>
    public static IReadOnlyList<BriefLine> Of(Brief brief, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(brief);
        ArgumentNullException.ThrowIfNull(units);
        CardUnits u = new(units);
        return [.. Day(brief, u), .. brief.Cockpit.SelectMany(c => Cockpit(c, u)), .. OtherWays(brief, u), .. brief.LoadMasters.SelectMany(s => Loads(s, u)), .. brief.Receivers.SelectMany(Receiver), .. Rest(brief, u)];
    }

    private static IEnumerable<BriefLine> Day(Brief brief, CardUnits u)
    {
        if (brief.Request.Aircraft?.Name is { } aircraft)
            yield return new("Plan", "aircraft", aircraft);
        if (brief.Request.Date is { } date)
            yield return new("Plan", "day", date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        CrewBrief crew = brief.Crew;
        yield return new("Plan", "loads that lift", CardUnits.Text($"{crew.Loads.Lift} of {crew.Loads.All}"));
        if (crew.Day is { } day)
            yield return new("Plan", "time", $"{ClockText.Of(day.FromMinute)} to {ClockText.Of(day.ToMinute)}");
        if (crew.Fuel is { } fuel)
            yield return new("Plan", "fuel at the start", u.Mass(fuel.StartKg));
        yield return new("Plan", "order and stops", crew.Order.Count > 0 ? CockpitPrint.OrderLine(crew.Order) : "none");
        foreach ((CrewRole role, string? names) in crew.Roles)
            yield return new("Who does what", CrewBriefPrint.Words(role).ToLowerInvariant(), names ?? "nobody entered");
        foreach (SiteWeather w in crew.Weather)
            yield return new("Weather", w.Site, CrewBriefPrint.Weather(w, u));
    }

    private static IEnumerable<BriefLine> Cockpit(CockpitCard c, CardUnits u)
    {
        string topic = $"Approach to {c.Site}{(c.Reason == ApproachReason.AskedFor ? ", further wind" : "")}";
        if (c.Blocked is { } why)
        {
            yield return new(topic, "way in", "NONE: " + u.Sentence(why));
            yield break;
        }
        yield return new(topic, "worked for", c.Load);
        yield return new(topic, "wind", u.Wind(c.Wind));
        yield return new(topic, "QNH", c.QnhPa is { } qnh ? u.Pressure(qnh) : "not given");
        yield return new(topic, "course", CardUnits.Text($"{c.CourseDeg:000}°"));
        yield return new(topic, "over the spot, load touching", CardUnits.Text($"{c.OverTheSpotFt:0} ft"));
        foreach (CockpitMark m in c.Marks)
            yield return new(topic, "mark " + m.Label, CardUnits.Text($"{(m.Name.Length > 0 ? m.Name + ", " : "")}{(m.Landmark is { } seen ? seen + ", " : "")}{m.DistanceM:0} m, {m.AltimeterFt:0} ft, {u.MarkSpeed(m.AirMs ?? m.GroundMs)} {u.SpeedUnit}{(m.AirMs is null ? " over ground" : "")}, sink {u.SinkDown(m.SinkMs)} {u.SinkUnit}"));
        yield return new(topic, "power in", c.PowerIn is { Mark: var p } ? CardUnits.Text($"{p.AltimeterFt:0} ft, {p.DistanceM:0} m") : "not judged");
        yield return new(topic, "reject", c.Reject is { Mark: var r } reject ? CardUnits.Text($"{r.AltimeterFt:0} ft, {r.DistanceM:0} m, way out turn {reject.TurnDeg:0}°") : "not judged");
        yield return new(topic, "power left over the spot", c.PowerLeftPercent is { } left ? CardUnits.Text($"{Approaching.HoverRatio.Shown(left):0} %") : "not judged");
        if (c.Period is { } period)
            yield return new(topic, "one swing", Approaching.ApproachSituation.SwingText(period.FreeS, period.HeldS));
    }

    private static IEnumerable<BriefLine> OtherWays(Brief brief, CardUnits u) => brief.Crew.Ways.Where(w => w.Reason == ApproachReason.OtherSide)
        .Select(w => new BriefLine($"Approach to {w.Site}", "wind from the other side", w.Blocked is { } why ? "NONE: " + u.Sentence(why) : CardUnits.Text($"course {w.CourseDeg:000}°, start {w.StartM:0} m, {w.StartFt:0} ft")));

    private static IEnumerable<BriefLine> Loads(LoadMasterSheet sheet, CardUnits u)
    {
        foreach (LoadRow l in sheet.Loads)
            yield return new("Loads", "load " + l.Number, $"{(l.Name is { Length: > 0 } name ? name + ", " : "")}{u.Mass(l.MassKg)} {l.HowKnown.ToString().ToLowerInvariant()}, most {u.MassDown(l.MostKg)} {u.MassUnit}, to {l.Delivery}{(l.Proving ? ", first of its kind" : "")}");
        foreach ((string number, string? name, string why) in sheet.NotFlown)
            yield return new("Loads", "load " + number, $"{(name is { Length: > 0 } ? name + ", " : "")}NOT FLOWN: {u.Sentence(why)}");
        foreach (ChainSketch chain in sheet.Chains)
            yield return new("Rigging", $"{string.Join(", ", chain.Parts.Select(p => p.Name).DefaultIfEmpty("no parts entered"))}", Rigging(chain, u));
    }

    private static string Rigging(ChainSketch chain, CardUnits u)
    {
        string[] said = [chain.Parts.FirstOrDefault(p => p.Weakest)?.Name is { } weakest ? $"weakest: {weakest}." : "weakest part not known.", .. chain.Parts.Select(p => u.Sentence(p.Remark)), .. chain.Remarks];
        return string.Join(' ', said.Where(t => t.Length > 0));
    }

    private static IEnumerable<BriefLine> Receiver(ReceiverSheet sheet)
    {
        string topic = "Receiver at " + sheet.Site;
        yield return new(topic, "stand at least", sheet.StandOffM is { } m ? CardUnits.Text($"{m:0} m from the spot") : "not worked out");
        yield return new(topic, "escape side", sheet.EscapeSideDeg is { } deg ? CardUnits.Text($"{Compass.Word(deg)} ({deg:000}°)") : "not entered");
        foreach (StandingSpot p in sheet.People)
            yield return new(topic, p.Name, CardUnits.Text($"{p.DistanceM:0} m to the {Compass.Word(p.BearingDeg)}{(p.TooNear ? ", too near" : "")}"));
        foreach (ReceiverRow l in sheet.Loads.Where(l => l.Note is { Length: > 0 }))
            yield return new(topic, "load " + l.Number, l.Note!);
    }

    private static IEnumerable<BriefLine> Rest(Brief brief, CardUnits u)
    {
        foreach (Hazard h in brief.Crew.Hazards)
            yield return new("Hazards", u.Sentence(h.Text), CrewBriefPrint.Hazard(h with { Text = "" }, u).TrimEnd(' ', ':') is { Length: > 0 } subjects ? subjects : "seen");
        foreach (EmergencySpot s in brief.Crew.EmergencySpots)
            yield return new("Emergency spots", s.Name, CardUnits.Text($"{s.DistanceM:0} m to the {Compass.Word(s.BearingDeg)} of {s.Site}"));
        foreach (Contact c in brief.Request.Contacts)
            yield return new("Contacts", c.Name, c.Reach + (c.For is { Length: > 0 } why ? ": " + why : ""));
    }
}
