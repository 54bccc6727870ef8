using System.CommandLine;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary>The job file named on the command line.</summary>
internal static class JobArgument
{
    public static Argument<FileInfo> Create() => new("JOB") { Description = "Job file (docs/job-file.md)" };

    /// <summary>Reads the file; null, with every finding told, when it can't be used.</summary>
    public static JobFile? Read(FileInfo file)
    {
        JobFile job = ReadFile(file);
        FindingText.Write(file.Name, job.Findings);
        return job.IsUsable ? job : null;
    }

    /// <summary>The file with its findings, whatever they are.</summary>
    public static JobFile ReadFile(FileInfo file)
    {
        try
        {
            using FileStream stream = file.OpenRead();
            return JobFile.Read(stream);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return JobFile.Unreadable(new(Severity.Error, "job-not-readable", null, 1, $"The job file can't be opened: {e.Message}", "Check the path and the permission."));
        }
    }

    /// <summary>How to plan a job: the sites' clock by the job's own time zone.</summary>
    public static PlanOptions PlanOptions(JobFile job)
    {
        PlanOptions options = new();
        if (job.Request.TimeZone is not { } name || !TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone))
            return options;
        return options with { SiteClock = time => TimeOnly.FromTimeSpan(TimeZoneInfo.ConvertTime(time, zone).TimeOfDay) };
    }

    /// <summary>Tells what keeps a job from being planned, with the lines of the file.</summary>
    public static void WriteFindings(FileInfo file, JobFile job, LiftPlan plan) =>
        FindingText.Write(file.Name, plan.Findings.Select(f => new Finding(f.Severity, f.Code, job.LineOf(f.Path), 1, $"{f.Path}: {f.What}", f.Mend)));
}
