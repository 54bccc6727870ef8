using Stillhook.Adjusting;
using Stillhook.App.Pages;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Recording;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>A flight with its debrief in memory.</summary>
/// <param name="Flight">As kept.</param>
/// <param name="Given">What the job file said, before anything was typed on the page.</param>
/// <param name="Debrief">Worked out with the job file's and the typed figures.</param>
/// <param name="Next">The next approach.</param>
/// <param name="Channels">Load, torque and power as recorded.</param>
/// <param name="JobFindings">What could not be read in the job file.</param>
public sealed record OpenFlight(Flight Flight, LiftSetup Given, Debrief Debrief, NextApproach Next, IReadOnlyList<Channel> Channels, IReadOnlyList<Finding> JobFindings);

/// <summary>Works debriefs out once and keeps the last few in memory.</summary>
internal sealed class FlightDebriefs(ServingOptions options)
{
    private const int Kept = 4;
    private readonly Lock guard = new();
    private readonly LinkedList<OpenFlight> recent = [];

    /// <summary>The flight's debrief; null when there is no such flight.</summary>
    public OpenFlight? Open(long id)
    {
        if (options.Store.Flights.Find(id) is not { } flight)
            return null;
        lock (guard)
        {
            OpenFlight? known = recent.FirstOrDefault(f => f.Flight.Id == id && SameFigures(f.Flight, flight));
            if (known is not null)
            {
                recent.Remove(known);
                recent.AddFirst(known);
                return known;
            }
            using Stream record = options.Store.Flights.OpenRecord(id)!;
            return Work(flight, options.Steps.Read(record, flight.Name));
        }
    }

    /// <summary>The debrief of a flight whose record was just read.</summary>
    public OpenFlight Open(Flight flight, FlightRecord record)
    {
        lock (guard)
            return Work(flight, record);
    }

    private OpenFlight Work(Flight flight, FlightRecord record)
    {
        JobFile? job = flight.JobText is null ? null : JobFile.Read(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(flight.JobText)));
        LiftSetup given = job is { IsUsable: true } ? LiftSetup.From(job.Request) : new();
        (Debrief debrief, NextApproach next) = options.Steps.Debrief(record, CrewFigures.Apply(given, flight.Typed));
        OpenFlight open = new(flight, given, debrief, next, record.Channels, job?.Findings ?? []);
        foreach (OpenFlight old in recent.Where(f => f.Flight.Id == flight.Id).ToList())
            recent.Remove(old);
        recent.AddFirst(open);
        if (recent.Count > Kept)
            recent.RemoveLast();
        KeepSummary(open, record);
        return open;
    }

    private void KeepSummary(OpenFlight open, FlightRecord record)
    {
        int deliveries = open.Debrief.Rotations.Count(r => r.Delivery is not null);
        double first = Array.Find(record.TimeS, double.IsFinite);
        string line = deliveries > 0 ? open.Next.Line : open.Debrief.NoRotationsBecause ?? "No delivery could be measured.";
        FlightSummary summary = new(ServingOptions.ProgramVersion, first > 0 ? first : null, deliveries, line);
        if (summary != open.Flight.Summary)
            options.Store.Flights.SaveSummary(open.Flight.Id, summary);
    }

    private static bool SameFigures(Flight a, Flight b) =>
        a.JobText == b.JobText && a.Typed.Count == b.Typed.Count && a.Typed.All(p => b.Typed.GetValueOrDefault(p.Key) == p.Value);
}
