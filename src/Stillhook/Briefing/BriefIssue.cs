using Stillhook.Approaching;

namespace Stillhook.Briefing;

/// <summary>When and by whom a brief is issued. The cards are dated by it, not by a clock: the same issue gives the same cards.</summary>
/// <param name="At">The moment, with the offset of the sites' own time.</param>
/// <param name="By">Who issues it; null when nobody said.</param>
/// <param name="For">What was read that it is made for instead of the job as planned, a clause; null for the job as planned.</param>
public sealed record BriefIssue(DateTimeOffset At, string? By = null, string? For = null);

/// <summary>Why an approach stands in a brief.</summary>
public enum ApproachReason
{
    /// <summary>For the wind of the job.</summary>
    Planned,

    /// <summary>For a wind that was asked for: it has a cockpit card of its own.</summary>
    AskedFor,

    /// <summary>For the same wind from the other side: a line in the crew's brief, so that nobody has to invent one in the air.</summary>
    OtherSide,
}

/// <summary>An approach that is briefed.</summary>
/// <param name="Site">Name of the delivery site.</param>
/// <param name="Plan">The approach; it may be refused.</param>
/// <param name="Reason">Why it stands here.</param>
public sealed record BriefedApproach(string Site, ApproachPlan Plan, ApproachReason Reason = ApproachReason.Planned);
