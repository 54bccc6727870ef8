using Stillhook.Files.Jobs.Editing;

namespace Stillhook.App.Pages.Jobs;

/// <summary>A part of the Job page.</summary>
/// <param name="Name">Name in the address.</param>
/// <param name="Shown">Its heading.</param>
/// <param name="Paths">What of the job file lies in it.</param>
internal sealed record JobPart(string Name, string Shown, string[] Paths);

/// <summary>How the job file is laid out as a form: the parts in the order of the work, and which fields of a group are asked first.</summary>
internal static class JobParts
{
    /// <summary>The parts.</summary>
    public static IReadOnlyList<JobPart> All { get; } =
    [
        new("day", "Day and people", ["job", "date", "timeZone", "customer", "units", "enteredBy", "enteredAt", "day", "crew", "contacts"]),
        new("sites", "Sites", ["sites"]),
        new("aircraft", "Aircraft", ["aircraft"]),
        new("rigging", "Line and rigging", ["line", "rigging"]),
        new("loads", "Loads", ["loads"]),
        new("rules", "Rules and quote", ["policy", "approach", "quote", "load", "wind", "gates", "flyEnteredGates"]),
    ];

    /// <summary>The part of a name; the first one otherwise.</summary>
    public static JobPart Named(string? name) => All.FirstOrDefault(p => p.Name == name) ?? All[0];

    /// <summary>The part that a path lies in.</summary>
    public static JobPart Of(string path)
    {
        string head = path.Split('.', '[')[0];
        return All.FirstOrDefault(p => p.Paths.Contains(head)) ?? All[0];
    }

    /// <summary>What comes after a part; null after the last.</summary>
    public static JobPart? After(JobPart part) => All.SkipWhile(p => p != part).Skip(1).FirstOrDefault();

    private static readonly Dictionary<string, string[]> First = new()
    {
        ["contacts[]"] = ["name", "for", "reach"],
        ["crew[]"] = ["name", "role", "mass"],
        ["day"] = ["start", "latestEnd", "refuelStop", "refuelRate"],
        ["sites[]"] = ["name", "use", "latitude", "longitude", "elevation", "elevationFrom", "fuel", "crewClearSide"],
        ["sites[].weather"] = ["qnh", "temperature", "time", "dewPoint"],
        ["aircraft"] = ["name", "equippedMass", "equippedMassSource", "hookLimit", "externalGrossLimit", "grossLimit", "torqueLimit"],
        ["line"] = ["length", "rigging", "dragArea"],
        ["rigging[]"] = ["name", "kind", "ratedLoad", "mass", "inspectionDue"],
        ["loads[]"] = ["number", "name", "mass", "howKnown", "uncertainty", "family"],
        ["loads[].attachment"] = ["legs", "legAngle", "equalised"],
        ["policy"] = ["massMargin", "reserve", "contingency", "labelMargin", "estimateMargin", "wireClearance"],
        ["approach"] = ["entrySpeed", "slowDownLimit", "obstacleClearance", "peopleClearance", "crosswindLimit"],
        ["quote"] = ["cycle", "cycleSpread", "measuredOn", "ferry", "currency", "pricePerHour"],
    };

    /// <summary>The fields of a group that are asked first; all where it says nothing.</summary>
    public static IReadOnlyList<string> Usual(string group) => First.GetValueOrDefault(Kind(group)) ?? [.. JobForm.Members(group)];

    /// <summary>The other fields of a group.</summary>
    public static IReadOnlyList<string> More(string group) => First.TryGetValue(Kind(group), out string[]? first) ? [.. JobForm.Members(group).Except(first)] : [];

    private static string Kind(string path) => System.Text.RegularExpressions.Regex.Replace(path, "\\[[0-9]+\\]", "[]");
}
