using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stillhook.Adjusting;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;
using Stillhook.Store;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook next</c>: only the line for the next approach, from what is kept since the card or from records named; with readings of now, what they move.</summary>
internal sealed class NextCommand
{
    private const string Stop = "Conditions moved. Land and re-brief.";

    private readonly Argument<string[]> records = RecordArguments.Create(atLeastOne: false);
    private readonly SetupOptions setup = new();
    private readonly StoreOption store = new();
    private readonly Option<Pressure?> qnh = QuantityOption.Create<Pressure>("--qnh", "Altimeter setting now, such as 1011hPa", QuantityText.TryPressure);
    private readonly Option<Temperature?> oat = QuantityOption.Create<Temperature>("--oat", "Outside air temperature now, such as 24C", QuantityText.TryTemperature);
    private readonly Option<string?> at = new("--at") { Description = "Site where the temperature was read; the first pick-up when left out", HelpName = "SITE" };
    private readonly Option<TimeOnly?> time = QuantityOption.Create<TimeOnly>("--time", "Local time of the readings, such as 10:30; now on the job's day, else that of the last delivery", QuantityText.TryClock, "CLOCK");
    private readonly Option<Mass?> fuel = QuantityOption.Create<Mass>("--fuel", "Fuel aboard now, such as 180kg", QuantityText.TryMass);
    private readonly Option<string?> units = PlanCommand.UnitsOption();

    public static Command Create()
    {
        NextCommand next = new();
        Command command = new("next", """
            Only what to change on the next approach: at most two changes, or the same again.
            Without a record: from everything kept of the job's day since the last card was issued, one line a delivery site; --job then names a kept job.
            With setting, temperature or wind as read now (any one alone): what they move, the marks for them, and what was not read again.
            With a record, --wind is the wind of the debrief, and counts as read now beside --qnh or --oat.
            Example: stillhook next
            Example: stillhook next --qnh 1011hPa --oat 24C --wind 300/9kt
            Example: stillhook next day.gpx --line 30m --load 780kg
            Exit code: 0 done, 1 no delivery to learn from or land and re-brief, 2 nothing could be used.
            """) { next.records };
        foreach (Option option in (Option[])[.. next.setup.All, next.qnh, next.oat, next.at, next.time, next.fuel, next.units, next.store.Place])
            command.Options.Add(option);
        command.SetAction(arguments => arguments.GetValue(next.records) is { Length: > 0 } ? next.FromRecords(arguments) : StoreOption.Guarded(() => next.FromStore(arguments)));
        return command;
    }

    private int FromRecords(ParseResult arguments)
    {
        bool readNow = arguments.GetValue(qnh) is not null || arguments.GetValue(oat) is not null;
        if (readNow && setup.JobText(arguments) is null)
            return Refused("what was read now moves the marks of a job: name its file with --job, or leave the record out to take the job that is kept.");
        if (RecordArguments.Debrief(arguments, records, setup) is not (Debrief debrief, NextApproach next))
            return ExitCode.BadInput;
        ConditionsText? now = readNow ? ReadNow(arguments, JobFiles.Read(new(setup.JobText(arguments)!)), null) : null;
        if (readNow && now is null)
            return ExitCode.BadInput;
        bool measured = debrief.Rotations.Any(r => r.Delivery is not null);
        if (!measured)
            Console.Out.WriteLine(debrief.NoRotationsBecause ?? "No delivery could be measured.");
        else if (now is { Stops: true })
            Console.Out.WriteLine(Stop);
        else
        {
            Write(next, "");
            if (debrief.Setup.Marks is { Of: not MarksOf.Nobody } marks)
                Console.Out.WriteLine($"Held against the {marks.Words}.");
        }
        now?.Write();
        return measured && now is not { Stops: true } ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private int FromStore(ParseResult arguments)
    {
        if (setup.FlightFigures(arguments) is { Count: > 0 } figures)
            return Refused($"{string.Join(", ", figures)}: without a record the figures are those of the kept job. Name the record, or change the job and take it in again.");
        WorkStore work = store.Open(arguments);
        if (KeptNext.Choose(work.Jobs.List(), setup.JobText(arguments), DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().DateTime), out string problem) is not { } job)
            return Refused(problem);
        KeptNext kept = KeptNext.Of(work, job);
        bool readNow = arguments.GetValue(qnh) is not null || arguments.GetValue(oat) is not null || setup.WindTyped(arguments) is not null;
        ConditionsText? now = readNow ? ReadNow(arguments, kept.File, kept) : null;
        if (readNow && now is null)
            return ExitCode.BadInput;
        if (now is { Stops: true })
            Console.Out.WriteLine(Stop);
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{job.Name}, {job.Day:yyyy-MM-dd}, as saved {kept.Day.Clock(kept.Saved.At.ToUnixTimeSeconds()):yyyy-MM-dd HH:mm} by {kept.Saved.By}"));
        foreach (SiteNext site in kept.Sites)
            if (now is { Stops: true })
                Console.Out.WriteLine($"{(site.Card.Site is { } name ? name + ": " : "")}what was learnt {site.Rests} was for the approach before.");
            else
                Write(site);
        now?.Write();
        bool moved = now is { Stops: true } || kept.Sites.Any(s => s.Next is { ConditionsMoved: true });
        return !moved && (readNow || kept.Sites.Any(s => s.Next is not null)) ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static void Write(SiteNext site)
    {
        string line = site.Next?.Line ?? "Nothing to learn from yet.";
        Console.Out.WriteLine($"{(site.Card.Site is { } name ? name + ": " : "")}{line} ({site.Rests})");
        if (site.Next is { } next)
            Rest(next, "  ");
        if (site.Card is { Site: not null, Setup.Gates.Count: 0 } && site.Next is not null)
            Console.Out.WriteLine("  No approach is planned there: only clear faults give advice.");
        foreach (string left in site.LeftOut)
            Console.Out.WriteLine("  left out: " + left);
    }

    private static void Write(NextApproach next, string indent)
    {
        Console.Out.WriteLine(next.Line);
        Rest(next, indent);
    }

    private static void Rest(NextApproach next, string indent)
    {
        if (next.Evidence.Length > 0)
            Console.Out.WriteLine(indent + next.Evidence);
        foreach (string stopped in next.Stopped)
            Console.Out.WriteLine(indent + stopped);
    }

    /// <summary>The shift re-check; null, with the reason told, when it can't be made. Loads known to be delivered are left out of what is still to fly.</summary>
    private ConditionsText? ReadNow(ParseResult arguments, JobFile job, KeptNext? kept)
    {
        if (!job.IsUsable)
        {
            Refused("the job can't be read, so nothing can be re-checked: stillhook check-file says what is wrong with it.");
            return null;
        }
        HashSet<string> listed = [.. job.Request.Loads.Select(l => l.Number)];
        string[] delivered = [.. (kept?.Day.Lifts ?? []).Where(l => !l.StruckOut).Select(l => l.LoadNumber).OfType<string>().Where(listed.Contains).Distinct()];
        bool allDone = listed.Count > 0 && delivered.Length == listed.Count;
        Shift shift = new()
        {
            QnhPa = arguments.GetValue(qnh)?.Pascals,
            TemperatureC = arguments.GetValue(oat)?.DegreesCelsius,
            Wind = setup.WindTyped(arguments),
            ReadAt = arguments.GetValue(at),
            Minute = (arguments.GetValue(time) ?? Now(kept))?.ToTimeSpan().TotalMinutes,
            FuelKg = arguments.GetValue(fuel)?.Kilograms,
            Delivered = allDone ? [] : delivered,
        };
        if (Rechecker.Refuse(job.Request, shift) is { } refused)
        {
            Refused(refused);
            return null;
        }
        return new(Console.Out, Job.Conditions(job.Request, ApproachCommand.Options(job, null), shift), shift, allDone, PlanCommand.Units(arguments.GetValue(units), job));
    }

    // On the job's own day the readings are of this minute; of a day gone by they belong to its last delivery.
    private static TimeOnly? Now(KeptNext? kept)
    {
        if (kept is null)
            return null;
        DateTimeOffset now = kept.Day.Clock(TimeProvider.System.GetUtcNow().ToUnixTimeSeconds());
        if (DateOnly.FromDateTime(now.DateTime) == kept.Day.Day)
            return TimeOnly.FromDateTime(now.DateTime);
        return kept.Day.Lifts.Max(l => l.DeliveryTimeS) is { } last ? TimeOnly.FromDateTime(kept.Day.Clock(last).DateTime) : null;
    }

    private static int Refused(string why)
    {
        Console.Error.WriteLine("stillhook: " + why);
        return ExitCode.BadInput;
    }
}
