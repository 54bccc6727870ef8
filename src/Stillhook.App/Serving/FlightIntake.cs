using Stillhook.App.Commands;
using Stillhook.App.Pages;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Recording;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Takes records in from the pages: each is read, kept byte for byte, measured, and its lifts are kept.</summary>
internal sealed class FlightIntake(ServingOptions options, FlightDebriefs debriefs)
{
    /// <summary>Takes one record in. One that holds no usable fix is not kept and says why.</summary>
    /// <param name="fileName">Name of the file as handed in.</param>
    /// <param name="content">Its bytes; read twice, so it can be set back to its start.</param>
    /// <param name="job">The job it was flown for; its rigging is counted. Null when none is known.</param>
    /// <param name="by">Who takes it in, for the counts.</param>
    /// <param name="takenInBy">Key of the account that takes it in for itself; null when it is nobody's own.</param>
    /// <param name="mayRead">Whether whoever takes it in may read a flight that is there already; null where all may be read.</param>
    public Upload TakeIn(string fileName, Stream content, FlightJob? job = null, string by = "this device", string? takenInBy = null, Func<long, bool>? mayRead = null)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(content);
        string name = Upload.NameOf(fileName, "record");
        FlightRecord record = options.Steps.Read(content, name);
        if (record.Count == 0)
            return new(name, null, false, record.Findings);
        JobFile? flown = job is null ? null : JobFile.Read(job.Text);
        Finding? other = flown is { IsUsable: true } ? RecordPlace.OtherJob(record, flown.Request) : null;
        if (other is not null)
            job = null;
        content.Position = 0;
        DateTimeOffset now = options.Clock.GetUtcNow();
        AddedFlight added = options.Store.Flights.Add(name, content, now, job?.Text, takenInBy: takenInBy);
        if (added.AlreadyThere && mayRead?.Invoke(added.Flight.Id) == false)
            return Upload.SomebodyElses(name);
        OpenFlight open = added.AlreadyThere ? debriefs.Open(added.Flight.Id)! : debriefs.Open(added.Flight, record, job);
        if (job is not null && !added.AlreadyThere && flown is { IsUsable: true })
            ImportCommand.Count(options.Store, flown.Request, added.Flight.Id, by, now);
        return new(name, open, added.AlreadyThere, other is null ? open.Debrief.Findings : [other, .. open.Debrief.Findings]);
    }
}
