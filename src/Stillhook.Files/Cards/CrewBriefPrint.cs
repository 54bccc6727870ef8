using System.Globalization;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Planning;

namespace Stillhook.Files.Cards;

/// <summary>The brief that the whole crew hears together.</summary>
internal static class CrewBriefPrint
{
    private const int MostSubjects = 4;

    public static PrintedCard Of(Brief brief, CardUnits u) =>
        CardPrints.Card(brief, "brief", "Brief of the crew", string.Join(", ", new[] { brief.Request.Job, brief.Request.Date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), brief.Request.Aircraft?.Name }.OfType<string>().Where(t => t.Length > 0)), Parts(brief, brief.Crew, u));

    private static IEnumerable<CardPart> Parts(Brief brief, CrewBrief crew, CardUnits u)
    {
        yield return new CardHeading("Plan");
        yield return new CardFacts([.. Plan(crew, u)]);
        yield return new CardHeading("Who does what");
        yield return new CardFacts([.. crew.Roles.Select(r => (Words(r.Role), r.Names ?? "nobody entered"))]);
        yield return new CardHeading("Weather");
        yield return new CardFacts([.. crew.Weather.Select(w => (w.Site, Weather(w, u)))]);
        yield return new CardHeading("Ways in, for the wind of the day and the other side");
        yield return crew.Ways.Count > 0 ? Ways(crew, u) : new CardText("None planned.", Strong: true);
        yield return new CardText(CardCautions.Gates, Strong: true, Boxed: true);
        yield return new CardHeading("Hazards");
        yield return new CardList([.. crew.Hazards.Select(h => Hazard(h, u)).DefaultIfEmpty("None in what was entered. Look for those that were not.")]);
        yield return new CardBlank("What is different today?", 2);
        yield return new CardHeading("Stop words");
        yield return new CardFacts(CrewWords.Stop, StrongNames: true);
        yield return new CardText(CardCautions.LostRadio, Strong: true, Boxed: true);
        yield return new CardHeading("When it goes wrong: talk it through, the manuals rule");
        yield return new CardFacts(CrewWords.Troubles, StrongNames: true);
        yield return new CardHeading("Emergency spots");
        yield return new CardList([.. crew.EmergencySpots.Select(Spot).DefaultIfEmpty("NONE ENTERED: choose one for each site before the first lift.")]);
        yield return new CardHeading("Contacts");
        yield return brief.Request.Contacts.Count > 0 ? new CardFacts([.. brief.Request.Contacts.Select(c => (c.Name, c.Reach + (c.For is { Length: > 0 } why ? ": " + why : "")))]) : new CardText("None entered.", Strong: true);
        yield return new CardBlank("Heard and understood", Math.Max(2, (crew.Roles.Count(r => r.Names is not null) + 1) / 2));
    }

    private static IEnumerable<(string, string)> Plan(CrewBrief crew, CardUnits u)
    {
        yield return ("Loads", crew.Loads.Lift == crew.Loads.All ? CardUnits.Text($"all {crew.Loads.All} lift") : CardUnits.Text($"{crew.Loads.Lift} of {crew.Loads.All} lift"));
        if (crew.Day is { } day)
            yield return ("Time", $"{ClockText.Of(day.FromMinute)} to {ClockText.Of(day.ToMinute)}");
        if (crew.Fuel is { } fuel)
            yield return ("Fuel", $"start with {u.Mass(fuel.StartKg)}; reserve {u.Mass(fuel.ReserveKg)}, never cut{(crew.FuelIfNotMeansKg is > 0.5 and { } more ? $". TO CONFIRM: {u.Mass(more)} more is burnt if the entered speeds are held in the middle of a leg and are not means over it" : "")}");
        yield return ("Order", crew.Order.Count > 0 ? CockpitPrint.OrderLine(crew.Order) : "none");
    }

    internal static string Words(CrewRole role) => role switch { CrewRole.Pilot => "Pilot", CrewRole.LoadMaster => "Load master", CrewRole.Signaller => "Signaller", CrewRole.HookUp => "Hook-up", _ => "Refueller" };

    internal static string Weather(SiteWeather w, CardUnits u)
    {
        if (w.Observed is not { } now)
            return "nobody observed it";
        string wind = now.Wind is { } x ? CardUnits.Text($"wind {x.From.Degrees % 360:000}/{u.Speed(x.Speed.MetersPerSecond)}{(x.Gust is { } gust ? $" gusts {u.Speed(gust.MetersPerSecond)}" : "")}") : "wind not given";
        string hot = w.Hottest is { } h ? CardUnits.Text($"; hottest {h.Temperature.DegreesCelsius:0.#} °C at {h.Hour:HH\\:mm}") : "; no forecast";
        return CardUnits.Text($"{u.Pressure(now.Qnh.Pascals)}, {now.Temperature.DegreesCelsius:0.#} °C, {wind}{(w.ObservedAt is { } at ? $" ({at:HH\\:mm})" : "")}{hot}");
    }

    private static CardTable Ways(CrewBrief crew, CardUnits u) => new("Ways in", [new("To", 24), new("Wind", 17), new("Course", 12, ToTheRight: true), new("Start", 21, ToTheRight: true), new("Decide by", 21, ToTheRight: true), new("Way out", 12, ToTheRight: true)],
        [.. crew.Ways.SelectMany(w => Rows(w, u))]);

    private static IEnumerable<CardRow> Rows(WayBrief w, CardUnits u)
    {
        string wind = u.Wind(w.Wind);
        if (w.Blocked is { } why)
            yield return new($"{w.Site}, wind {wind}: NONE. {u.Sentence(why)}");
        else
            yield return new(w.Site, wind, CardUnits.Text($"{w.CourseDeg:000}°"), CardUnits.Text($"{w.StartM:0} m, {w.StartFt:0} ft"), w.DecideFt is { } ft ? CardUnits.Text($"{w.DecideM:0} m, {ft:0} ft") : "not judged", w.OutDeg is { } goes ? CardUnits.Text($"{goes:000}°") : "-");
    }

    internal static string Hazard(Hazard h, CardUnits u)
    {
        string subjects = string.Join(", ", h.Subjects.Take(MostSubjects)) + (h.Subjects.Count > MostSubjects ? CardUnits.Text($" and {h.Subjects.Count - MostSubjects} more") : "");
        return $"{(h.Verdict == CheckVerdict.Fails ? "FAILS: " : h.Red ? "LOOK AT: " : "")}{subjects}: {u.Sentence(h.Text)}";
    }

    private static string Spot(EmergencySpot s) => CardUnits.Text($"{s.Name}: {s.DistanceM:0} m to the {Compass.Word(s.BearingDeg)} of {s.Site} ({s.BearingDeg:000}°).");
}
