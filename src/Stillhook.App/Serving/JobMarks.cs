using System.Text;
using Stillhook.App.Commands;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Debriefing;
using Stillhook.Files.Cards;
using Stillhook.Files.Jobs;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>The crew's figures of a job with the marks in force at one of its delivery sites: what pages and commands hold deliveries against.</summary>
internal static class JobMarks
{
    private const int TrialFlights = 100;

    /// <summary>The figures of a job with one delivery site; with several, without marks, since each has its own.</summary>
    /// <param name="job">The job.</param>
    public static LiftSetup Setup(JobFile job) => OnlySite(job.Request) is { } site ? Setup(job, site, null, null) : LiftSetup.From(job.Request) with { Clock = JobArgument.ClockOf(job) };

    /// <summary>The figures for one site.</summary>
    /// <param name="job">The job, of a card the text that it was issued from.</param>
    /// <param name="site">Name of the delivery site.</param>
    /// <param name="cardAt">When the card was issued, in the sites' own time; null when none was.</param>
    /// <param name="ground">Elevation grid handed in for the job; null without one.</param>
    /// <param name="briefed">What the issued brief was made of; null without one.</param>
    public static LiftSetup Setup(JobFile job, string site, DateTimeOffset? cardAt, ElevationGrid? ground, BriefedOrder? briefed = null)
    {
        ApproachOptions options = ApproachCommand.Options(job, ground) with { Flights = TrialFlights };
        return MarksInForce.At(job.Request, site, cardAt, briefed, options) with { Clock = JobArgument.ClockOf(job) };
    }

    /// <summary>The card that a flight was flown with: the last one issued before its record begins, else the first issued while it ran; null without one.</summary>
    /// <param name="store">The store.</param>
    /// <param name="job">Key of its job; null when none is known.</param>
    /// <param name="request">That job.</param>
    /// <param name="record">The flight's record.</param>
    public static IssuedCard? CardOf(WorkStore store, Guid? job, LiftRequest request, FlightRecord record)
    {
        if (job is not { } key || OnlySite(request) is null || record.Count == 0)
            return null;
        double from = Array.Find(record.TimeS, double.IsFinite), to = Array.FindLast(record.TimeS, double.IsFinite);
        IssuedCard[] cards = [.. store.Jobs.Cards(key).Where(c => c.IssuedAt.ToUnixTimeSeconds() <= to)];
        return cards.LastOrDefault(c => c.IssuedAt.ToUnixTimeSeconds() <= from) ?? cards.FirstOrDefault();
    }

    /// <summary>The figures that a flight flown with a card is held against; without a card against the planned approach.</summary>
    public static LiftSetup Setup(WorkStore store, JobFile job, IssuedCard? card)
    {
        if (card is null || OnlySite(job.Request) is not { } site)
            return Setup(job);
        JobFile then = JobFile.Read(TextAt(store.Jobs.Revisions(card.Job), card.IssuedAt));
        return then.IsUsable ? Setup(then, site, Local(card.IssuedAt, then), null, BriefOf(store, card)) : Setup(job);
    }

    /// <summary>What the brief was made of that a card was issued with; null when it is not kept.</summary>
    public static BriefedOrder? BriefOf(WorkStore store, IssuedCard? card) =>
        card is not null && store.Jobs.Cards(card.Job).LastOrDefault(c => c.Name == CardFiles.DocumentName && c.IssuedAt == card.IssuedAt) is { } document && store.Jobs.CardContent(document.Key) is { } bytes
            ? BriefDocuments.OrderOf(Encoding.UTF8.GetString(bytes)) : null;

    /// <summary>The lift plan in the order of the brief issued last, which the people on the ground have in their hands; without one, or when it holds no more, in the order of the pages.</summary>
    /// <param name="store">The store.</param>
    /// <param name="job">The job, with a usable file.</param>
    /// <returns>The plan, and whose order it is, in words.</returns>
    public static (LiftPlan Plan, string OrderOf) PlanInForce(WorkStore store, OpenJob job)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(job);
        PlanOptions options = job.PlanOptions();
        IssuedCard? card = store.Jobs.Cards(job.Kept.Key).LastOrDefault();
        if (BriefOf(store, card) is { Numbers.Count: > 0 } briefed)
        {
            LiftPlan issued = Job.Plan(briefed.InOrder(job.File.Request), options);
            if (issued.Order is not null && briefed.Numbers.SequenceEqual(issued.Order.Lifts.Select(s => s.Number)))
                return (issued, $"as on the card of {JobArgument.ClockOf(job.File).Minute(card!.IssuedAt.ToUnixTimeSeconds())}");
            return (Job.Plan(job.File.Request, options), "of the plan as it stands now: the card's no longer holds");
        }
        return (Job.Plan(job.File.Request, options), card is null ? "of the plan: no card is issued" : "of the plan: the card's was not kept");
    }

    /// <summary>A card belongs to a site when its name holds the site's; one that names no site belongs to all.</summary>
    public static bool IsOf(IssuedCard card, string site, IReadOnlyList<string> sites) => Names(card.Name, site) || !sites.Any(s => Names(card.Name, s));

    /// <summary>The job's text as it stood at a moment.</summary>
    public static string TextAt(IReadOnlyList<JobRevision> revisions, DateTimeOffset at) => (revisions.LastOrDefault(r => r.At <= at) ?? revisions[0]).Text;

    /// <summary>A moment in the job's own time.</summary>
    public static DateTimeOffset? Local(DateTimeOffset? at, JobFile job) => at is { } moment ? JobArgument.Local(job, moment) : null;

    private static string? OnlySite(LiftRequest request) => request.Sites.Where(s => s.Use == SiteUse.Delivery).ToArray() is [var only] ? only.Name : null;

    private static bool Names(string card, string site) => Plain(card).Contains(Plain(site), StringComparison.Ordinal);

    private static string Plain(string text) => string.Concat(text.Where(char.IsLetterOrDigit)).ToLowerInvariant();
}
