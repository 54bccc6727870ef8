using Stillhook.Adjusting;
using Stillhook.App.Pages;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>A flight with its debrief in memory.</summary>
/// <param name="Flight">As kept.</param>
/// <param name="Given">What the job file said, before anything was typed on the page.</param>
/// <param name="Debrief">Worked out with the job file's and the typed figures.</param>
/// <param name="Next">The next approach.</param>
/// <param name="Channels">Load, torque and power as recorded.</param>
/// <param name="JobFindings">What could not be read in the job file.</param>
public sealed record OpenFlight(Flight Flight, LiftSetup Given, Debrief Debrief, NextApproach Next, IReadOnlyList<Channel> Channels, IReadOnlyList<Finding> JobFindings)
{
    /// <summary>How many cards of its job were issued when it was worked out: one more may be the card it is held against.</summary>
    internal int Cards { get; init; }
}

/// <summary>The job that a record is taken in for.</summary>
/// <param name="Key">Its key in the store.</param>
/// <param name="Text">Text of its job file, kept with the flight.</param>
/// <param name="InOrder">Its loads in the order they were to be flown, where this record is the whole of them; null gives no load numbers.</param>
/// <param name="GoesOn">The record is the first part of them, and the rest is still to come.</param>
public sealed record FlightJob(Guid Key, string Text, IReadOnlyList<PlannedLoad>? InOrder = null, bool GoesOn = false);

/// <summary>Works debriefs out once, keeps the last few in memory, and sees that what was measured is in the store.</summary>
internal sealed class FlightDebriefs(ServingOptions options)
{
    // Four usual flights, or two of eight hours at ten fixes a second: some 60 MB each (bench/results/pages.md).
    private const int Kept = 4, MostFixes = 600_000;
    private const double SameLiftS = 30;
    private const int LongFixes = 100_000;
    private readonly Lock guard = new();
    private readonly LinkedList<OpenFlight> recent = [];

    // Flights of one job are opened one after the other: its approach is planned once for them.
    private (string Text, Guid? Card, LiftSetup Setup)? marks;

    /// <summary>The flight's debrief; null when there is no such flight.</summary>
    public OpenFlight? Open(long id)
    {
        if (options.Store.Flights.Find(id) is not { } flight)
            return null;
        lock (guard)
        {
            OpenFlight? known = recent.FirstOrDefault(f => f.Flight.Id == id && SameFigures(f.Flight, flight) && f.Cards == Cards(id, null));
            if (known is not null)
            {
                recent.Remove(known);
                recent.AddFirst(known);
                return known;
            }
            using Stream record = options.Store.Flights.OpenRecord(id)!;
            return Work(flight, options.Steps.Read(record, flight.Name), null, anew: false);
        }
    }

    /// <summary>The debrief of a flight whose record was just read.</summary>
    /// <param name="flight">As kept.</param>
    /// <param name="record">Its record.</param>
    /// <param name="job">The job it was flown for; null when none is known.</param>
    public OpenFlight Open(Flight flight, FlightRecord record, FlightJob? job = null)
    {
        lock (guard)
            return Work(flight, record, job, anew: false);
    }

    /// <summary>Measures a flight anew after the crew's figures changed: its lifts are kept as now measured, people's corrections stay. Null when there is no such flight.</summary>
    public OpenFlight? MeasureAnew(long id)
    {
        if (options.Store.Flights.Find(id) is not { } flight)
            return null;
        lock (guard)
        {
            using Stream record = options.Store.Flights.OpenRecord(id)!;
            return Work(flight, options.Steps.Read(record, flight.Name), null, anew: true);
        }
    }

    private OpenFlight Work(Flight flight, FlightRecord record, FlightJob? flownFor, bool anew)
    {
        JobFile? job = flight.JobText is null ? null : JobFile.Read(flight.JobText);
        LiftSetup given = job is { IsUsable: true } ? Given(flight, job, flownFor, record) : new();
        (Debrief debrief, NextApproach next) = options.Steps.Debrief(record, CrewFigures.Apply(given, flight.Typed));
        OpenFlight open = new(flight, given, debrief with { Track = debrief.Track?.WithoutFixes() }, next, record.Channels, job?.Findings ?? []) { Cards = Cards(flight.Id, flownFor) };
        foreach (OpenFlight old in recent.Where(f => f.Flight.Id == flight.Id).ToList())
            recent.Remove(old);
        recent.AddFirst(open);
        while (recent.Count > Kept || (recent.Count > 1 && recent.Sum(f => f.Debrief.Track?.Count ?? 0) > MostFixes))
            recent.RemoveLast();
        if (record.Count > LongFixes)
            GiveBackSoon();
        KeepSummary(open, record);
        KeepLifts(open, record, job is { IsUsable: true } ? job.Request : null, flownFor, anew);
        return open;
    }

    private LiftSetup Given(Flight flight, JobFile job, FlightJob? flownFor, FlightRecord record)
    {
        IssuedCard? card = JobMarks.CardOf(options.Store, JobOf(flight.Id, flownFor), job.Request, record);
        if (marks is not { } known || known.Text != flight.JobText || known.Card != card?.Key)
            marks = known = (flight.JobText!, card?.Key, JobMarks.Setup(options.Store, job, card));
        return known.Setup;
    }

    private Guid? JobOf(long flight, FlightJob? flownFor) => flownFor?.Key ?? options.Store.Flights.Flown(flight).Job;

    private int Cards(long flight, FlightJob? flownFor) => JobOf(flight, flownFor) is { } job ? options.Store.Jobs.Cards(job).Count : 0;

    /// <summary>Working a long record out leaves some hundred megabytes behind; they go back to the machine once the page is on its way.</summary>
    private static void GiveBackSoon() => _ = Task.Run(async () =>
    {
        await Task.Delay(TimeSpan.FromSeconds(1));
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
    });

    private void KeepLifts(OpenFlight open, FlightRecord record, LiftRequest? request, FlightJob? flownFor, bool anew)
    {
        long id = open.Flight.Id;
        if (!anew && options.Store.Flights.HasWork(id))
            return;
        (Guid? job, string? pilot, string? aircraft) = options.Store.Flights.Flown(id);
        MeasuredFlight measured = MeasuredFlight.From(open.Debrief, record, request, flownFor?.InOrder, pilot, flownFor?.GoesOn == true);
        IReadOnlyList<KeptLift> before = anew ? [.. options.Store.Lifts.OfFlight(id).Where(l => !l.AsKept.AddedByHand).Select(l => l.AsKept)] : [];
        options.Store.Flights.SaveWork(id, new()
        {
            Recorded = measured.Flight.Recorded,
            Airborne = measured.Flight.Airborne,
            Pilot = measured.Flight.Pilot,
            Aircraft = measured.Flight.Aircraft ?? aircraft,
            Job = flownFor?.Key ?? job,
            Lifts = [.. measured.Lifts.Select(l => Listed(l, before))],
            Exceedances = measured.Flight.Exceedances,
            Track = open.Debrief.Track,
        });
    }

    /// <summary>What the list of loads said of a lift stays with it when it is measured anew.</summary>
    private static KeptLift Listed(KeptLift lift, IReadOnlyList<KeptLift> before) =>
        before.FirstOrDefault(b => b.DeliveryTimeS is { } at && lift.DeliveryTimeS is { } now && Math.Abs(at - now) <= SameLiftS) is not { } same ? lift : lift with
        {
            LoadNumber = lift.LoadNumber ?? same.LoadNumber,
            Family = lift.Family ?? same.Family,
            LoadKg = lift.LoadKg ?? (same.LoadMeasured ? null : same.LoadKg),
        };

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
