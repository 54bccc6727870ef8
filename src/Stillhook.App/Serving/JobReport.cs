using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>The customer report of a job with the days that it is made from.</summary>
/// <param name="Days">Days of the job with lifts, in order.</param>
/// <param name="Report">The report.</param>
internal sealed record JobReport(IReadOnlyList<DayWork> Days, CustomerReport Report)
{
    /// <summary>The job of the last day, as kept; null when its text can't be used.</summary>
    public LiftRequest? Last => Days[^1].Job;

    /// <summary>All lifts of the work.</summary>
    public IEnumerable<KeptLift> Lifts => Days.SelectMany(d => d.Lifts);

    /// <summary>The report of a job; null while no lift of it is kept. Jobs of the same name on other days are the same work.</summary>
    public static JobReport? Of(WorkStore store, KeptJob job)
    {
        DayWork[] days = [.. store.Jobs.List().Where(j => j.Day is not null && string.Equals(j.Name, job.Name, StringComparison.OrdinalIgnoreCase))
            .Select(j => (Day: j.Day!.Value, j.Aircraft, j.TimeZone)).Distinct()
            .Select(j => store.Days.Read(new(j.Day, j.Aircraft), j.TimeZone)).Where(d => d.Lifts.Count > 0).OrderBy(d => d.Day)];
        return days.Length == 0 ? null : new(days, CustomerReporter.Report(days));
    }
}
