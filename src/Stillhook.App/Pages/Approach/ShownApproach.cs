using System.Globalization;
using Stillhook.App.Serving;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.App.Pages.Approach;

/// <summary>An approach as the page shows it.</summary>
/// <param name="Job">The job.</param>
/// <param name="Planned">The approach as planned from the job.</param>
/// <param name="Plan">The one shown: as planned, or as tried.</param>
/// <param name="Try">What was tried.</param>
/// <param name="Units">Units of the person.</param>
/// <param name="Load">Load asked for; null when left to the program.</param>
/// <param name="Site">Site asked for; null when left to the program.</param>
/// <param name="Sliding">True for the fast answer while a slider moves.</param>
public sealed record ShownApproach(OpenJob Job, ApproachPlan Planned, ApproachPlan Plan, ApproachTry Try, DisplayUnits Units, string? Load, string? Site, bool Sliding)
{
    private Surroundings? surroundings;

    /// <summary>True when something else than planned is shown.</summary>
    public bool IsTried => !Try.Shift.IsEmpty && Try.Mistakes.Count == 0;

    /// <summary>What stands round the spot; null when nothing could be planned.</summary>
    public Surroundings? Surroundings => surroundings ??= Plan.Situation is { } s ? new(s.Request, s.Site, s.Rules, s.Options.Ground) : null;

    /// <summary>What moved against the plan; null when nothing was tried.</summary>
    public IReadOnlyList<string>? Changes => IsTried && Plan.Situation is not null ? ApproachChanges.Between(Planned, Plan, Try.Shift) : null;

    /// <summary>Delivery sites of the job.</summary>
    public IEnumerable<string> Sites => Job.File.Request.Sites.Where(s => s.Use == SiteUse.Delivery).Select(s => s.Name);

    /// <summary>The wind speed that alternatives are asked for.</summary>
    public TryField WindsField => new("speed", "Wind speed", Units.SpeedUnit, 1, Units.Name == "m" ? 110 : 60, 1, 40, 1, Units.Name == "m" ? "20" : "10");

    /// <summary>Address of a part of this approach, with what is chosen and tried.</summary>
    public string Part(string name) => $"{Job.Address}/approach/{name}{Query(tried: true)}";

    /// <summary>Address of the working of a figure; null for a load tried with another mass, which only this page knows.</summary>
    public string? Why(string figure)
    {
        if (Plan.Figures.Find(figure) is null || (IsTried && Try.Shift.Load is not null))
            return null;
        List<string> query = [.. Chosen()];
        if (IsTried && Try.Shift.Wind is { } wind)
            query.Add("wind=" + Uri.EscapeDataString(FormattableString.Invariant($"{wind.FromDeg:0.###}/{wind.Speed.Knots:0.###}kt")));
        if (IsTried && Try.Shift.Temperature is { } oat)
            query.Add("oat=" + Uri.EscapeDataString(FormattableString.Invariant($"{oat.DegreesCelsius:0.###}C")));
        if (IsTried && Try.Shift.Line is { } line)
            query.Add("line=" + Uri.EscapeDataString(FormattableString.Invariant($"{line.Meters:0.###}m")));
        return WhyRoutes.Address(Job, figure, "?" + string.Join('&', query));
    }

    /// <summary>What is chosen and tried, as a query.</summary>
    public string Query(bool tried)
    {
        List<string> query = Load is null && Site is null && !IsTried ? [] : [.. Chosen()];
        if (tried && IsTried)
            query.AddRange([.. Try.Typed.Select(t => $"{t.Key}={Uri.EscapeDataString(t.Value)}"), "in=" + Units.Name]);
        return query.Count == 0 ? "" : "?" + string.Join('&', query);
    }

    private IEnumerable<string> Chosen()
    {
        if (Load is not null || Plan.Situation?.Listed is not null)
            yield return "load=" + Uri.EscapeDataString(Load ?? Plan.Situation!.Listed!.Number);
        if (Site is not null)
            yield return "site=" + Uri.EscapeDataString(Site);
    }

    /// <summary>A number in words that do not follow the machine's culture.</summary>
    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
