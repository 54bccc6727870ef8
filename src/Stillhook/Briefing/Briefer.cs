using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>Makes a brief of a plan and its approaches.</summary>
public static class Briefer
{
    /// <summary>The brief.</summary>
    /// <param name="request">The job.</param>
    /// <param name="plan">Its lift plan.</param>
    /// <param name="approaches">Approaches that are briefed.</param>
    /// <param name="issue">When and by whom it is issued.</param>
    public static Brief Brief(LiftRequest request, LiftPlan plan, IReadOnlyList<BriefedApproach> approaches, BriefIssue issue)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(approaches);
        ArgumentNullException.ThrowIfNull(issue);
        return new()
        {
            Request = request,
            Issue = issue,
            Cockpit = [.. approaches.Where(a => a.Reason != ApproachReason.OtherSide).Select(a => CockpitCards.Of(plan, a))],
            LoadMasters = LoadMasterSheets.Of(plan),
            Receivers = ReceiverSheets.Of(plan, approaches),
            Crew = CrewBriefs.Of(plan, approaches),
        };
    }
}
