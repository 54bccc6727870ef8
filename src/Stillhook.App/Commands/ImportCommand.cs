using System.CommandLine;
using System.IO.Compression;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Days;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook import FILE...</c>: records of flights, worked out and kept with their job, and archives written by export.</summary>
internal static class ImportCommand
{
    public static Command Create()
    {
        StoreOption store = new();
        Argument<FileInfo[]> files = new("FILE") { Description = "Records (GPX, IGC, NMEA 0183, CSV; plain, gzip or zip) and archives of export", Arity = ArgumentArity.ZeroOrMore };
        Option<FileInfo?> job = new("--job") { Description = "Job file that the records belong to; it is kept too", HelpName = "FILE" };
        Option<FileInfo?> crew = new("--crew-sheet") { Description = "What the crew wrote: tally, waiting, fuel, events, as a table (" + CrewSheet.Heading + "); needs --job", HelpName = "FILE" };
        Option<string> by = new("--by") { Description = "Who takes them in", HelpName = "NAME", DefaultValueFactory = _ => Environment.UserName is { Length: > 0 } user ? user : "somebody" };
        Command command = new("import", """
            Takes records in, byte for byte, with what the debrief finds: lifts, hours, exceedances, counts of hook, line and rigging. The same bytes are kept once, so it can be started again at any time.
            Example: stillhook import day.gpx --job examples/path-repair.json
            Example: stillhook import --job examples/path-repair.json --crew-sheet crew.csv
            Exit code: 0 all kept, 1 some were refused, 2 nothing could be used.
            """) { files, job, crew, by, store.Place };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            if (arguments.GetValue(files)!.FirstOrDefault(f => f.Extension.Equals(".json", StringComparison.OrdinalIgnoreCase)) is { } json)
                return JobAsRecord(json);
            if (arguments.GetValue(job) is not { } file)
                return arguments.GetValue(crew) is not null || arguments.GetValue(files)!.Length == 0 ? Nothing() : Run(store.Open(arguments), arguments.GetValue(files)!, null, arguments.GetValue(by)!, again: false);
            if (JobArgument.Read(file) is not { } jobFile)
                return ExitCode.BadInput;
            WorkStore work = store.Open(arguments);
            FileInfo? sheet = arguments.GetValue(crew);
            PlannedJob planned = new(work, jobFile, File.ReadAllText(file.FullName), arguments.GetValue(by)!, TimeProvider.System.GetUtcNow());
            int records = Run(work, arguments.GetValue(files)!, planned, arguments.GetValue(by)!, again: sheet is not null);
            int all = sheet is null ? records : Math.Max(records, Crew(work, sheet, jobFile, arguments.GetValue(by)!));
            TellHovers(MeasuredWork.BringUpToDate(work, jobFile.Request, planned.Plan));
            return all;
        }));
        return command;
    }

    private static int Nothing()
    {
        Console.Error.WriteLine("stillhook: nothing to take in: name a record or an archive; a crew sheet needs --job for its day and clock.");
        return ExitCode.BadInput;
    }

    private static int JobAsRecord(FileInfo file)
    {
        Console.Error.WriteLine($"stillhook: {file.Name} is no record but, by its name, a job: give it with --job, and the day's records beside it. Nothing was taken in.");
        return ExitCode.BadInput;
    }

    /// <summary>Keeps the crew's own lines; those that stand already are not added again.</summary>
    private static int Crew(WorkStore store, FileInfo file, JobFile job, string by)
    {
        if (job.Request.Date is not { } date || job.Request.TimeZone is null)
        {
            Console.Error.WriteLine("stillhook: a crew sheet needs the day and the time zone of the job: write date and timeZone in the job file.");
            return ExitCode.BadInput;
        }
        using StreamReader text = file.OpenText();
        CrewSheet sheet = CrewSheet.Read(text, time => JobArgument.MomentOf(job, date, time.ToTimeSpan().TotalMinutes)?.ToUnixTimeMilliseconds() / 1000.0);
        FindingText.Write(file.Name, sheet.Findings);
        (int added, _) = CrewIntake.Keep(store.Days, new(date, job.Request.Aircraft?.Name), sheet, by, TimeProvider.System.GetUtcNow());
        Console.WriteLine(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{file.Name}: {added} lines of the crew kept."));
        return sheet.Findings.Count == 0 ? ExitCode.Done : sheet.Findings.Any(f => f.Severity == Severity.Error) ? ExitCode.BadInput : ExitCode.AnswerIsNo;
    }

    private static int Run(WorkStore store, FileInfo[] files, PlannedJob? job, string by, bool again)
    {
        TimeProvider clock = TimeProvider.System;
        int archives = 0;
        foreach (FileInfo archive in files.Where(IsArchive))
        {
            using FileStream stream = archive.OpenRead();
            ImportResult result = Archive.Import(store, stream);
            Console.WriteLine(result.AddedAnything ? $"{archive.Name}: {result.Jobs} jobs, {result.Flights} flights, {result.Lifts} lifts taken in." : $"{archive.Name}: all of it was there already.");
            archives++;
        }
        RecordSource[] sources = [.. files.Where(f => !IsArchive(f)).Select(f => new RecordSource(f.Name, f.OpenRead, job?.Text))];
        IReadOnlyList<BatchStep> steps = RecordBatch.TakeIn(store, sources, (source, stream) => Work(store, source, stream, job), clock, Tell);
        if (again)
            foreach (BatchStep step in steps.Where(s => s.Outcome == BatchOutcome.AlreadyThere && store.Flights.HoversOf(s.Flight!.Id).Count == 0))
                Again(store, step, job);
        if (job is not null)
            foreach (Flight flight in steps.Where(s => s.Outcome == BatchOutcome.Added).Select(s => s.Flight!))
                Count(store, job.File.Request, flight.Id, by, clock.GetUtcNow());
        int refused = steps.Count(s => s.Outcome == BatchOutcome.Refused);
        return refused == 0 ? ExitCode.Done : refused < steps.Count || archives > 0 ? ExitCode.AnswerIsNo : ExitCode.BadInput;
    }

    /// <summary>Takes one record in with its job, as the command does; null when it was there already.</summary>
    public static Flight? TakeIn(WorkStore store, string name, byte[] record, string jobText, string by)
    {
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        PlannedJob job = new(store, JobFile.Read(jobText), jobText, by, now);
        BatchStep step = RecordBatch.TakeIn(store, [new RecordSource(name, () => new MemoryStream(record), jobText)], (source, stream) => Work(store, source, stream, job), TimeProvider.System, _ => { })[0];
        if (step.Outcome != BatchOutcome.Added)
            return null;
        Count(store, job.File.Request, step.Flight!.Id, by, now);
        return step.Flight;
    }

    private static void Tell(BatchStep step) => (step.Outcome == BatchOutcome.Refused ? Console.Error : Console.Out).WriteLine(step.Outcome switch
    {
        BatchOutcome.Added => $"{step.Done} of {step.Of}: {step.Source.Name}: kept.",
        BatchOutcome.AlreadyThere => $"{step.Done} of {step.Of}: {step.Source.Name}: was there already.",
        _ => $"{step.Done} of {step.Of}: {step.Source.Name}: {step.Reason}",
    });

    /// <summary>A job of the same name and day is the same job: its text becomes the next revision.</summary>
    public static KeptJob Keep(WorkStore store, JobFile job, string text, string by, DateTimeOffset at)
    {
        LiftRequest r = job.Request;
        string name = r.Job ?? "job without a name";
        Guid? known = store.Jobs.List().FirstOrDefault(j => j.Name == name && j.Day == r.Date)?.Key;
        return store.Jobs.Save(new(name, text, r.Date, r.TimeZone, r.Aircraft?.Name), by, at, known);
    }

    /// <summary>Works a record out once more that was kept without hovers, since more is known now; what people corrected stays.</summary>
    private static void Again(WorkStore store, BatchStep step, PlannedJob? job)
    {
        using Stream stream = step.Source.Open();
        if (Work(store, step.Source, stream, job) is { Hovers.Count: > 0 } work)
            store.Flights.SaveWork(step.Flight!.Id, work);
    }

    private static void TellHovers(IReadOnlyDictionary<FuelFrom, int> hovers)
    {
        if (hovers.Values.Sum() is > 0 and int all)
            Console.WriteLine(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{all} hovers kept for the aircraft's baseline; fuel on board of {hovers.GetValueOrDefault(FuelFrom.Gauge)} by gauge readings, of {hovers.GetValueOrDefault(FuelFrom.Plan)} by the plan, of {hovers.GetValueOrDefault(FuelFrom.Assumed)} assumed."));
    }

    /// <summary>A job file with its plan, made once for all its records.</summary>
    private sealed class PlannedJob
    {
        private readonly JobFile file;
        private readonly Lazy<LiftPlan?> plan;

        /// <summary>Keeps the job; the plan is in the order of the card issued last.</summary>
        public PlannedJob(WorkStore store, JobFile file, string text, string by, DateTimeOffset at)
        {
            (this.file, Text) = (file, text);
            Kept = Keep(store, file, text, by, at);
            plan = new(() => file.Request.Loads.Count > 0 && JobMarks.PlanInForce(store, new(Kept, file)).Plan is { IsPlanned: true } made ? made : null);
        }

        private readonly System.Collections.Concurrent.ConcurrentDictionary<Guid, LiftSetup> setups = [];

        public JobFile File => file;

        /// <summary>What a record is held against, planned once for each card.</summary>
        public LiftSetup Setup(WorkStore store, Guid? key, FlightRecord record)
        {
            IssuedCard? card = JobMarks.CardOf(store, key, file.Request, record);
            return setups.GetOrAdd(card?.Key ?? Guid.Empty, _ => JobMarks.Setup(store, file, card));
        }

        public string Text { get; }

        /// <summary>The job as it is kept.</summary>
        public KeptJob Kept { get; }

        /// <summary>Null when none can be made.</summary>
        public LiftPlan? Plan => plan.Value;

        public HoverGiven Hovers(string? pilot) => new()
        {
            Job = file.Request, Fuel = new HoverFuel(file.Request, Plan).At, Clock = JobArgument.ClockOf(file).At, Weather = JobArgument.PlanOptions(file), Pilot = pilot,
        };
    }

    private static FlightWork? Work(WorkStore store, RecordSource source, Stream stream, PlannedJob? job)
    {
        FlightRecord record = RecordReader.Read(stream, source.Name);
        if (record.Count == 0)
            throw new FormatException(record.Findings.FirstOrDefault(f => f.Severity == Severity.Error)?.What ?? "No fix could be read.");
        if (job is not null && RecordPlace.OtherJob(record, job.File.Request) is { } other)
            throw new FormatException($"{other.What} Not kept: take it in without --job or with its own.");
        Debrief debrief = Job.Debrief(record, job is null ? new() : job.Setup(store, job.Kept.Key, record));
        MeasuredFlight measured = MeasuredFlight.From(debrief, record, job?.File.Request, job?.Plan is { } plan ? MeasuredFlight.InOrder(plan) : null);
        return new()
        {
            Recorded = measured.Flight.Recorded,
            Airborne = measured.Flight.Airborne,
            Pilot = measured.Flight.Pilot,
            Aircraft = measured.Flight.Aircraft,
            Job = job?.Kept.Key,
            Lifts = measured.Lifts,
            Hovers = job is null ? [] : HoverPoints.Find(debrief, record, measured.Lifts, job.Hovers(measured.Flight.Pilot)).Hovers,
            Exceedances = measured.Flight.Exceedances,
            Track = debrief.Track,
        };
    }

    /// <summary>Counts the flight's lifts and hours on every part of the job's rigging; one that is new is taken into use with nothing on it.</summary>
    internal static void Count(WorkStore store, LiftRequest job, long flight, string by, DateTimeOffset now)
    {
        if (store.Lifts.OfFlight(flight) is not { Count: > 0 } lifts || store.Flights.Find(flight) is null)
            return;
        DateTimeOffset first = DateTimeOffset.UnixEpoch.AddSeconds(lifts.Min(l => l.Lift.PickUpTimeS ?? l.Lift.DeliveryTimeS ?? now.ToUnixTimeSeconds()));
        // All time in the air, as the day sheet counts it: the line hangs there on the empty leg too.
        double hours = store.Flights.Airborne(flight).Sum(s => s.LengthS) / 3600;
        foreach (RiggingPart part in job.Rigging)
        {
            if (store.Parts.Log(part.Name).Count == 0)
                store.Parts.TakeIntoUse(part.Name, part.Kind, by, first.AddSeconds(-1));
            store.Parts.CountUse(part.Name, flight, lifts.Count, hours, by, first);
        }
    }

    private static bool IsArchive(FileInfo file)
    {
        try
        {
            using ZipArchive zip = ZipFile.OpenRead(file.FullName);
            return zip.GetEntry("manifest.json") is not null;
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }
}
