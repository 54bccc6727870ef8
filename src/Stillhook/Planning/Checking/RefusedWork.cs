using System.Text.RegularExpressions;

namespace Stillhook.Planning.Checking;

/// <summary>Work that is recognised and refused: people on the line, and loads that stay in touch with ground or water.</summary>
internal static partial class RefusedWork
{
    public static IEnumerable<RequestFinding> Findings(LiftRequest request)
    {
        for (int i = 0; i < request.Loads.Count; i++)
        {
            PlannedLoad load = request.Loads[i];
            string path = LoadCheck.Path(i);
            if (load.Class is LoadClass.C)
                yield return Refused(path + ".class", "A class C load stays in touch with ground or water, such as line stringing.", "Take it out of this job.");
            else if (load.Class is LoadClass.D)
                yield return Refused(path + ".class", "Class D is for people and special approvals.", "Take it out of this job.");
            foreach ((string member, string? text) in new[] { (".name", load.Name), (".family", load.Family) })
            {
                if (text is not null && Strung().IsMatch(text))
                    yield return Refused(path + member, $"'{LoadCheck.Shown(text)}' says that a line is pulled or strung.", "Take it out of this job; if it is lifted clear, name the load by what it is.");
                if (text is not null && Carried().IsMatch(text))
                    yield return People(path + member, text);
            }
            if (load.Note is not null && CarriedInNote().IsMatch(load.Note))
                yield return People(path + ".note", load.Note);
        }
        if (request.Load?.Name is { } single && Carried().IsMatch(single))
            yield return People("load.name", single);
    }

    private static RequestFinding People(string path, string text) =>
        Refused(path, $"'{LoadCheck.Shown(text)}' says that people hang on the line.", "Carrying people is never planned or debriefed here. If nobody hangs on the line, name the load by what it is.");

    private static RequestFinding Refused(string path, string what, string mend) => RequestCheck.Error("refused-work", path, $"{what} It is outside what is planned here.", mend);

    [GeneratedRegex(@"\b(persons?|people|personnel|passengers?|humans?|rescue[drs]?|casualty|casualties|patients?|hec|fire\s?fighters?|line[mw][ae]n|workers?|crew transfer|(man|men)[- ]?(basket|cage|on)|life[- ]?buoy)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Carried();

    [GeneratedRegex(@"\b(string(ing|s)|(pull|pilot|draw)(ing)?[- ](rope|line|wire))\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Strung();

    // A note may well speak of the people who receive the load, so it takes more than the word. The gap is bounded to keep long texts quick.
    [GeneratedRegex(@"\b(human external|hec|(men|man|crew|persons?|people) (ride|rides|riding|hang|hangs|hanging))\b|\b(persons?|people|passengers?|casualty|patients?)\b.{0,40}\b(carried|on the (line|hook)|under the (line|hook)|in the (basket|net|cage))\b|\b(carry|carries|carrying|lift|lifts|lifting)\b.{0,20}\b(persons?|people|passengers?|casualty|patients?)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex CarriedInNote();
}
