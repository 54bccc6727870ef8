using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Tests.Approaching;
using UnitsNet;

namespace Stillhook.Tests.Briefing;

/// <summary>Briefs to read cards of: the mark card, the example job, a job about which hardly anything is known. Invented.</summary>
internal static class BriefedJobs
{
    public static BriefIssue Issue { get; } = new(new DateTimeOffset(2026, 6, 1, 6, 40, 0, TimeSpan.FromHours(2)), "planner A");

    /// <summary>Drop 2 100 ft, line 100 ft and load 10 ft, 0.5 NM, 8 degrees, 40 kt, calm standard air.</summary>
    public static LiftRequest MarkCard { get; } = MakeMarkCard();

    public static Brief MarkCardBrief { get; } = Of(MarkCard);

    /// <summary>The example job of the repository.</summary>
    public static LiftRequest Example { get; } = ReadExample();

    public static Brief ExampleBrief { get; } = Of(Example);

    /// <summary>Eighty loads with long names and an unmarked sling; no wind, no rotor, no people, no spots, nobody to reach.</summary>
    public static LiftRequest Dark { get; } = MarkCard with
    {
        Job = "Böschungsstützmauer Überlängenträger Großbaustelle Höflerälpele oberhalb Schönwies, zweiter Bauabschnitt",
        Sites = [.. MarkCard.Sites.Select(s => s with { Name = s.Use == Stillhook.Debriefing.SiteUse.Delivery ? "Böschungsstützmauer Höflerälpele West" : s.Name, Weather = s.Weather! with { Wind = null } })],
        Crew = [MarkCard.Crew[0] with { Name = "Jürgen Großschädl-Überegger" }],
        Loads = [.. Enumerable.Range(1, 80).Select(i => MarkCard.Loads[0] with
        {
            Number = FormattableString.Invariant($"L{i:00}"),
            Name = FormattableString.Invariant($"Überlängenträger mit Schwerlastkonsole für Böschungsstützmauer, Größe {i}"),
            Mass = Mass.FromKilograms(400 + i),
            HowKnown = MassKnownBy.Estimated,
            Attachment = i < 80 ? null : new() { Legs = 2, Sling = new() { Name = "Rundschlinge ohne Anhänger, grün", Kind = PartKind.TextileSling } },
        })],
    };

    public static Brief DarkBrief { get; } = Of(Dark);

    public static Brief Of(LiftRequest request, BriefIssue? issue = null, params Stillhook.Debriefing.Wind[] winds)
    {
        LiftPlan plan = Job.Plan(request, new());
        return Job.Brief(request, plan, [.. BriefedApproaches.Of(request, plan, ApproachJobs.Quick, winds)], issue ?? Issue);
    }

    private static LiftRequest MakeMarkCard()
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(2100 * 0.3048, ApproachJobs.Wind(0, 0), 15 - 0.0065 * 2100 * 0.3048));
        return job with
        {
            Line = new() { Length = Length.FromFeet(100) },
            Loads = [job.Loads[0] with { Height = Length.FromFeet(10) }],
            Approach = new() { Start = Length.FromMeters(926), Glide = Angle.FromDegrees(8), EntrySpeed = Speed.FromKnots(40) },
        };
    }

    private static LiftRequest ReadExample()
    {
        using FileStream stream = File.OpenRead(Repository.File("examples/path-repair.json"));
        return JobFile.Read(stream).Request;
    }
}
