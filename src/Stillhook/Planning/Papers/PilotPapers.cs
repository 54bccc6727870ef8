using System.Globalization;

namespace Stillhook.Planning.Papers;

/// <summary>Licence, medical, level, recurrent training and terrain hours of one pilot.</summary>
internal static class PilotPapers
{
    private const string Source = "SPO-HESLO";
    private const double LongLineM = 20, RecencyHours = 20, TerrainHours = 20;
    private const int RecurrentYears = 2, LevelWhenLineIsNotKnown = 2;

    public static IEnumerable<CheckItem> Of(LiftRequest request, int i)
    {
        CrewMember pilot = request.Crew[i];
        yield return Paper.Dated("papers-licence", "Licence", Paper.CrewPath(i, "licenceUntil"), pilot.Name, pilot.LicenceUntil, request.Date, "14CFR-61.3");
        yield return Paper.Dated("papers-medical", "Medical", Paper.CrewPath(i, "medicalUntil"), pilot.Name, pilot.MedicalUntil, request.Date, "14CFR-61.3");
        yield return Level(request, pilot, i);
        if (request.Policy?.SlingLevel is null && request.Loads.Any(l => l.Construction == true))
            yield return new(CheckVerdict.ToConfirm, "papers-construction", "policy.slingLevel", pilot.Name, "Construction work is on the list: whether it asks for level 3 or 4 is the operator's word.", Source);
        yield return Recurrent(request, pilot, i);
        yield return FlightPart(request, pilot, i);
        yield return Terrain(pilot, i);
    }

    private static CheckItem Level(LiftRequest request, CrewMember pilot, int i)
    {
        int asked = request.Policy?.SlingLevel ?? (request.Line?.Length is { } line ? line.Meters < LongLineM ? 1 : 2 : LevelWhenLineIsNotKnown);
        string why = request.Policy?.SlingLevel is not null ? "by the operator's word" : request.Line?.Length is null ? "taken because the line is not entered" : asked == 1 ? "short line" : "long line";
        string need = string.Create(CultureInfo.InvariantCulture, $"the job asks for level {asked} ({why})");
        CheckItem Item(CheckVerdict verdict, string text) => new(verdict, "papers-sling-level", Paper.CrewPath(i, "slingLevel"), pilot.Name, text, Source);
        return pilot.SlingLevel switch
        {
            null => Item(CheckVerdict.ToConfirm, $"Sling level: not entered; {need}."),
            int held when held < asked => Item(CheckVerdict.Fails, string.Create(CultureInfo.InvariantCulture, $"Sling level {held} held; {need}.")),
            int held => Item(CheckVerdict.Passes, string.Create(CultureInfo.InvariantCulture, $"Sling level {held} held; {need}.")),
        };
    }

    private static CheckItem Recurrent(LiftRequest request, CrewMember pilot, int i) =>
        Paper.Dated("papers-recurrent", "Recurrent sling training, every two years", Paper.CrewPath(i, "lastSlingCheck"), pilot.Name, TwoYearPoint(pilot), request.Date, Source);

    /// <summary>The flight part of the recurrent training: waived with 20 h in 12 months, due without them from the two-year point on.</summary>
    private static CheckItem FlightPart(LiftRequest request, CrewMember pilot, int i)
    {
        CheckItem Item(CheckVerdict verdict, string text) => new(verdict, "papers-recurrent-flight", Paper.CrewPath(i, "slingTimeLastYear"), pilot.Name, text, Source);
        if (pilot.SlingTimeLastYear is not { } flown)
            return Item(CheckVerdict.ToConfirm, "Sling-load hours of the last 12 months: not entered; 20 h waive the flight part of the recurrent training.");
        string hours = Hours(flown.Hours);
        if (flown.Hours >= RecencyHours - 1e-9)
            return Item(CheckVerdict.Passes, $"No extra flight training needed at the two-year point: {hours} in 12 months, 20 h waive it.");
        if (TwoYearPoint(pilot) is not { } point || request.Date is not { } day)
            return Item(CheckVerdict.ToConfirm, $"Flight training due at the two-year point: {hours} in 12 months, 20 h would waive it. When that is can't be judged.");
        return day < point
            ? Item(CheckVerdict.Passes, $"Flight training due at the two-year point on {Paper.Text(point)} unless the hours rise: {hours} in 12 months, 20 h would waive it.")
            : Item(CheckVerdict.Fails, $"Flight training due since {Paper.Text(point)}: {hours} in 12 months, 20 h would waive it.");
    }

    private static CheckItem Terrain(CrewMember pilot, int i)
    {
        CheckItem Item(CheckVerdict verdict, string text) => new(verdict, "papers-terrain", Paper.CrewPath(i, "timeInThisTerrain"), pilot.Name, text, Source);
        return pilot.TimeInThisTerrain is not { } flown
            ? Item(CheckVerdict.ToConfirm, "Hours in this kind of terrain: not entered; 20 h are asked for.")
            : Item(flown.Hours >= TerrainHours - 1e-9 ? CheckVerdict.Passes : CheckVerdict.Fails, $"{Hours(flown.Hours)} in this kind of terrain; 20 h are asked for.");
    }

    private static DateOnly? TwoYearPoint(CrewMember pilot) => pilot.LastSlingCheck?.AddYears(RecurrentYears);

    /// <summary>Down to a tenth, so that 19.96 h never reads as 20.</summary>
    private static string Hours(double hours) => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(hours * 10 + 1e-6) / 10:0.#} h");
}
