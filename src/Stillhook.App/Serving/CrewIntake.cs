using System.Text;
using Stillhook.App.Commands;
using Stillhook.App.Pages;
using Stillhook.Files.Days;
using Stillhook.Files.Jobs;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Takes a crew sheet in: its lines become entries of the job's day; those that stand already are not added again.</summary>
internal static class CrewIntake
{
    private const int HeadBytes = 256;

    /// <summary>True of a table that begins like a crew sheet. The stream is set back to where it was.</summary>
    public static bool IsSheet(Stream content)
    {
        ArgumentNullException.ThrowIfNull(content);
        long at = content.Position;
        byte[] head = new byte[HeadBytes];
        int read = content.ReadAtLeast(head, HeadBytes, throwOnEndOfStream: false);
        content.Position = at;
        string first = Encoding.UTF8.GetString(head, 0, read).TrimStart('\uFEFF').Split('\n')[0];
        return first.Split(',', ';', '\t')[0].Trim().Equals(CrewSheet.Heading.Split(',')[0], StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Takes the sheet in for a job.</summary>
    /// <param name="name">Name of the file.</param>
    /// <param name="content">Its bytes.</param>
    /// <param name="job">The job that it is of; its day and time zone say what the clock times mean.</param>
    /// <param name="store">Where to.</param>
    /// <param name="by">Who takes it in.</param>
    /// <param name="now">When.</param>
    public static Upload TakeIn(string name, Stream content, JobFile? job, WorkStore store, string by, DateTimeOffset now)
    {
        if (job is not { IsUsable: true, Request: { Date: { } date, TimeZone: not null } })
            return new(name, null, false, [new(Severity.Error, "crew-sheet-without-day", null, 1, "This is a crew sheet, and its clock times need a day and a time zone.", "Choose a job above that has both, and hand it in again.")]) { Crew = new(null, 0, 0) };
        using StreamReader text = new(content, Encoding.UTF8, leaveOpen: true);
        CrewSheet sheet = CrewSheet.Read(text, time => JobArgument.MomentOf(job, date, time.ToTimeSpan().TotalMinutes)?.ToUnixTimeMilliseconds() / 1000.0);
        (int added, int standing) = Keep(store.Days, new(date, job.Request.Aircraft?.Name), sheet, by, now);
        return new(name, null, false, sheet.Findings) { Crew = new(date, added, standing) };
    }

    /// <summary>Adds the lines that don't stand yet; how many were added and how many stood.</summary>
    public static (int Added, int Standing) Keep(DayStore days, WorkDay day, CrewSheet sheet, string by, DateTimeOffset now)
    {
        int added = New(sheet.Tally, e => days.Add(day, e, by, now)) + New(sheet.Times, e => days.Add(day, e, by, now)) + New(sheet.Events, e => days.Add(day, e, by, now)) + New(sheet.Fuel, e => days.Add(day, e, by, now));
        return (added, sheet.Tally.Count + sheet.Times.Count + sheet.Events.Count + sheet.Fuel.Count - added);

        int New<T>(IReadOnlyList<T> entries, Func<T, Guid> add)
        {
            HashSet<T> standing = [.. days.Entries<T>(day).Where(e => e.WithdrawnBy is null).Select(e => e.Entry)];
            return entries.Count(e => !standing.Contains(e) && add(e) != Guid.Empty);
        }
    }
}
