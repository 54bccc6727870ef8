using Stillhook.Planning.Rigging;

namespace Stillhook.Planning.Papers;

/// <summary>Holds the papers that were entered against the day of the job. What was not entered is said, never taken as good.</summary>
/// <remarks>docs/method/papers-and-quote.md has each rule with its source and what it leaves out.</remarks>
public static class PapersChecker
{
    /// <summary>Checks crew, aircraft and rigging of a job.</summary>
    public static PapersReport Check(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        IEnumerable<CheckItem> items = [.. Day(request), .. Crew(request), .. AircraftPapers.Of(request), .. RiggingInspections(request)];
        return new([.. items.OrderByDescending(i => i.Colour)]);
    }

    private static IEnumerable<CheckItem> Day(LiftRequest request) => request.Date is null
        ? [new(CheckVerdict.ToConfirm, "papers-day", "date", "job", "The day of the job is not entered: no date can be judged.", CheckItem.CommonPractice)]
        : [];

    private static IEnumerable<CheckItem> Crew(LiftRequest request)
    {
        if (!request.Crew.Any(c => c.Role == CrewRole.Pilot))
            yield return new(CheckVerdict.ToConfirm, "papers-no-pilot", "crew", "crew", "No pilot is entered.", "14CFR-61.3");
        if (request.Crew.All(c => c.Role == CrewRole.Pilot))
            yield return new(CheckVerdict.ToConfirm, "papers-no-ground-crew", "crew", "crew", "No ground crew is entered.", "SPO-HESLO");
        for (int i = 0; i < request.Crew.Count; i++)
            foreach (CheckItem item in request.Crew[i].Role == CrewRole.Pilot ? PilotPapers.Of(request, i) : GroundCrew(request, i))
                yield return item;
    }

    private static IEnumerable<CheckItem> GroundCrew(LiftRequest request, int i) =>
        [Paper.Dated("papers-task-training", "Task training", Paper.CrewPath(i, "taskTrainingUntil"), request.Crew[i].Name, request.Crew[i].TaskTrainingUntil, request.Date, "SPO-HESLO")];

    /// <summary>Each part once, though many loads may name the same sling.</summary>
    private static IEnumerable<CheckItem> RiggingInspections(LiftRequest request)
    {
        IEnumerable<(RiggingPart Part, string Path)> parts = request.Rigging.Select((p, i) => (p, FormattableString.Invariant($"rigging[{i}]")));
        IEnumerable<(RiggingPart Part, string Path)> slings = request.Loads.Select((l, i) => (Part: l.Attachment?.Sling, Path: FormattableString.Invariant($"loads[{i}].attachment.sling")))
            .Where(s => s.Part is not null).Select(s => (s.Part!, s.Path));
        return parts.Concat(slings.DistinctBy(s => s.Part)).Select(p => Inspection.Of(p.Part, p.Path, request.Date));
    }
}
