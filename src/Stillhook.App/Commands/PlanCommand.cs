using System.CommandLine;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook plan JOB</c>: can each load be lifted, in which order, with how much fuel, on which rigging; with readings of the day, what changed.</summary>
internal static class PlanCommand
{
    public static Command Create()
    {
        Argument<FileInfo> job = JobArgument.Create();
        Option<bool> json = new("--json") { Description = "Write the plan for machines (schema: stillhook schema plan)" };
        Option<string?> units = UnitsOption();
        Option<bool> quick = new("--quick") { Description = "Order by the quick search alone, without the solver" };
        Option<Pressure?> qnh = QuantityOption.Create<Pressure>("--qnh", "Altimeter setting now, such as 1011hPa or 29.85inHg: tells what changed", QuantityText.TryPressure);
        Option<Temperature?> oat = QuantityOption.Create<Temperature>("--oat", "Outside air temperature now, such as 24C", QuantityText.TryTemperature);
        Option<Wind?> wind = QuantityOption.Create<Wind>("--wind", "Wind now, from degrees true / speed, such as 240/18kt", QuantityText.TryWind);
        Option<string?> at = new("--at") { Description = "Site where the temperature was read; the first pick-up when left out", HelpName = "SITE" };
        Option<TimeOnly?> time = QuantityOption.Create<TimeOnly>("--time", "Local time of the readings, such as 10:30; the planned start when left out", QuantityText.TryClock, "CLOCK");
        Option<Mass?> fuel = QuantityOption.Create<Mass>("--fuel", "Fuel aboard now, such as 180kg", QuantityText.TryMass);
        Option<string?> delivered = new("--delivered") { Description = "Numbers of the loads already delivered, with commas: 1,2,5", HelpName = "LOADS" };
        Option<string?> store = StoreOption.Measured();
        Command command = new("plan", """
            Can it be lifted: each load at both sites with what limits it, the order with fuel, rigging, wires, papers, quote.
            With readings of the day it tells what changed instead.
            Example: stillhook plan examples/path-repair.json
            Example: stillhook plan examples/path-repair.json --qnh 1011hPa --oat 24C --wind 240/18kt
            Exit code: 0 every load lifts, 1 a load does not lift, 2 the job file can't be planned.
            """) { job, json, units, quick, qnh, oat, wind, at, time, fuel, delivered, store };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            FileInfo file = arguments.GetValue(job)!;
            if (JobArgument.Read(file) is not { } jobFile)
                return ExitCode.BadInput;
            PlanOptions options = JobArgument.PlanOptions(jobFile, arguments.GetValue(quick));
            if (StoreOption.Existing(arguments.GetValue(store)) is { } flights)
                options = options with { Measured = MeasuredWork.For(flights, jobFile.Request) };
            Shift shift = new()
            {
                QnhPa = arguments.GetValue(qnh)?.Pascals,
                TemperatureC = arguments.GetValue(oat)?.DegreesCelsius,
                Wind = arguments.GetValue(wind),
                ReadAt = arguments.GetValue(at),
                Minute = arguments.GetValue(time)?.ToTimeSpan().TotalMinutes,
                FuelKg = arguments.GetValue(fuel)?.Kilograms,
                Delivered = arguments.GetValue(delivered)?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) ?? [],
            };
            DisplayUnits display = Units(arguments.GetValue(units), jobFile);
            return shift.IsEmpty ? Plan(file, jobFile, options, display, arguments.GetValue(json)) : Recheck(file, jobFile, options, shift, display, arguments.GetValue(json));
        }));
        return command;
    }

    /// <summary>The units asked for, else the job's own, else ft and kg.</summary>
    public static DisplayUnits Units(string? asked, JobFile job) => DisplayUnits.Named(asked ?? job.Request.Units?.ToString().ToLowerInvariant());

    public static Option<string?> UnitsOption()
    {
        Option<string?> units = new("--units") { Description = "ft: ft, kt, kg, hPa; m: m, km/h, kg, hPa; lb: ft, kt, lb, inHg. The job's own units when left out" };
        units.AcceptOnlyFromAmong("ft", "m", "lb");
        return units;
    }

    private static int Plan(FileInfo file, JobFile job, PlanOptions options, DisplayUnits units, bool json)
    {
        LiftPlan plan = Job.Plan(job.Request, options);
        if (json)
            WriteJson(output => LiftPlanDocuments.Write(output, plan, job.LineOf));
        if (!plan.IsPlanned)
        {
            JobArgument.WriteFindings(file, job, plan);
            return ExitCode.BadInput;
        }
        if (!json)
            new PlanText(Console.Out, plan, units).Write();
        return plan.AllLift ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static int Recheck(FileInfo file, JobFile job, PlanOptions options, Shift shift, DisplayUnits units, bool json)
    {
        if (Rechecker.Refuse(job.Request, shift) is { } refused)
        {
            Console.Error.WriteLine("stillhook: " + refused);
            return ExitCode.BadInput;
        }
        Recheck recheck = Job.Recheck(job.Request, options, shift);
        if (!recheck.Before.IsPlanned || !recheck.After.IsPlanned)
        {
            JobArgument.WriteFindings(file, job, recheck.Before.IsPlanned ? recheck.After : recheck.Before);
            return ExitCode.BadInput;
        }
        if (json)
            WriteJson(output => RecheckDocuments.Write(output, recheck, job.LineOf));
        else
            new RecheckText(Console.Out, recheck, units).Write();
        return recheck.After.AllLift ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    /// <summary>A document to standard output, in UTF-8.</summary>
    public static void WriteJson(Action<Stream> write)
    {
        using Stream output = Console.OpenStandardOutput();
        write(output);
        output.WriteByte((byte)'\n');
    }
}
