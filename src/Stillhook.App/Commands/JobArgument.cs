using System.CommandLine;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary>The job file named on the command line.</summary>
internal static class JobArgument
{
    public static Argument<FileInfo> Create() => new("JOB") { Description = "Job file (docs/job-file.md)" };

    /// <summary>Reads the file; null, with every finding told, when it can't be used. Notes are for check-file.</summary>
    public static JobFile? Read(FileInfo file)
    {
        JobFile job = JobFiles.Read(file);
        FindingText.Write(file.Name, job.Findings.Where(f => f.Severity != Severity.Note));
        return job.IsUsable ? job : null;
    }

    /// <summary>How to plan a job: the sites' clock by the job's own time zone, the solver in its own process.</summary>
    /// <param name="job">The job file.</param>
    /// <param name="quick">Without the solver.</param>
    public static PlanOptions PlanOptions(JobFile job, bool quick = false)
    {
        PlanOptions options = new() { Solver = quick ? null : SolveOrderCommand.Child() };
        return Zone(job) is { } zone ? options with { SiteClock = time => TimeOnly.FromTimeSpan(TimeZoneInfo.ConvertTime(time, zone).TimeOfDay) } : options;
    }

    /// <summary>The moment of a local clock minute on a day of the job; null without a time zone, or when the clocks are put forward over it.</summary>
    public static DateTimeOffset? MomentOf(JobFile job, DateOnly day, double minute)
    {
        DateTime local = day.ToDateTime(TimeOnly.MinValue).AddMinutes(minute);
        return Zone(job) is { } zone && !zone.IsInvalidTime(local) ? new DateTimeOffset(local, zone.GetUtcOffset(local)) : null;
    }

    /// <summary>A moment in the sites' own time; in UTC where their time zone is not known.</summary>
    public static DateTimeOffset Local(JobFile job, DateTimeOffset at) => Zone(job) is { } zone ? TimeZoneInfo.ConvertTime(at, zone) : at.ToUniversalTime();

    /// <summary>The sites' own clock; UTC where their time zone is not known.</summary>
    public static SiteClock ClockOf(JobFile job) => Zone(job) is { } zone ? new(job.Request.TimeZone!, timeS => TimeZoneInfo.ConvertTime(DateTimeOffset.UnixEpoch.AddSeconds(timeS), zone)) : SiteClock.Utc;

    private static TimeZoneInfo? Zone(JobFile job) =>
        job.Request.TimeZone is { } name && TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone) ? zone : null;

    /// <summary>Tells what keeps a job from being planned, with the lines of the file; what was told when the file was read is not told again.</summary>
    public static void WriteFindings(FileInfo file, JobFile job, LiftPlan plan) =>
        FindingText.Write(file.Name, plan.Findings.Select(f => new Finding(f.Severity, f.Code, job.LineOf(f.Path), 1, $"{f.Path}: {f.What}", f.Mend)).Except(job.Findings));
}
