using System.CommandLine;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Files.Pictures.Approach;
using Stillhook.Files.Reports;
using Stillhook.Files.Terrain;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook approach JOB</c>: where the load should go, and the marks to fly it by; with readings of the day, what moved.</summary>
internal static class ApproachCommand
{
    public static Command Create()
    {
        Argument<FileInfo> job = JobArgument.Create();
        ApproachChoice choice = new();
        Option<Length?> start = QuantityOption.Create<Length>("--start", "Pins the start mark, such as 0.5NM or 500m before the spot", QuantityText.TryLength);
        Option<Angle?> glide = QuantityOption.Create<Angle>("--glide", "Pins the path angle, such as 8deg", QuantityText.TryAngle);
        Option<Pressure?> qnh = QuantityOption.Create<Pressure>("--qnh", "Altimeter setting now, such as 1011hPa: tells what moved", QuantityText.TryPressure);
        Option<Temperature?> oat = QuantityOption.Create<Temperature>("--oat", "Outside air temperature now, such as 24C", QuantityText.TryTemperature);
        Option<Wind?> wind = QuantityOption.Create<Wind>("--wind", "Wind now, from degrees true / speed, such as 240/18kt", QuantityText.TryWind);
        Option<Length?> line = QuantityOption.Create<Length>("--line", "Length of the line now, such as 45m", QuantityText.TryLength);
        Option<Speed?> winds = QuantityOption.Create<Speed>("--winds", "Alternatives for this wind speed from eight directions, such as 10kt, with contacts", QuantityText.TrySpeed);
        Option<DirectoryInfo?> draw = new("--draw") { Description = "Pictures as SVG (side, plan, profile, scatter) and their numbers as CSV, written to this folder; those of before are replaced", HelpName = "FOLDER" };
        Option<bool> json = new("--json") { Description = "Write the plan for machines (schema: stillhook schema approach)" };
        Option<string?> units = PlanCommand.UnitsOption();
        Option<bool> quick = new("--quick") { Description = "Order by the quick search alone, without the solver" };
        Command command = new("approach", """
            Where the load should go: direction, marks by altimeter, distance, speed and sink, power-in and reject, and how it comes out in simulated flights.
            With readings of the day it plans again and tells what moved.
            Example: stillhook approach examples/path-repair.json --load 4
            Example: stillhook approach examples/path-repair.json --qnh 1011hPa --wind 240/12kt
            Example: stillhook approach examples/path-repair.json --winds 10kt
            Example: stillhook approach examples/path-repair.json --draw pictures
            Exit code: 0 an approach is offered, 1 there is none that breaks nothing, 2 the job file can't be planned or the pictures can't be written.
            """) { job, start, glide, qnh, oat, wind, line, winds, draw, json, units, quick };
        foreach (Option option in choice.All)
            command.Add(option);
        command.SetAction(arguments =>
        {
            FileInfo file = arguments.GetValue(job)!;
            if (arguments.GetValue(winds) is { } ofAll && (ofAll.Knots <= 0 || arguments.GetValue(wind) is not null || arguments.GetValue(json) || arguments.GetValue(draw) is not null))
            {
                Console.Error.WriteLine("stillhook: --winds makes one table for a wind speed over 0 from all round, --draw and --json are for one approach. Leave out --wind, --json and --draw, or leave out --winds.");
                return ExitCode.BadInput;
            }
            if ((QuantityOption.Outside("--line", arguments.GetValue(line)?.Meters, "m", typeof(LongLine), nameof(LongLine.Length))
                ?? QuantityOption.Outside("--start", arguments.GetValue(start)?.Meters, "m", typeof(ApproachGiven), nameof(ApproachGiven.Start))
                ?? QuantityOption.Outside("--glide", arguments.GetValue(glide)?.Degrees, "deg", typeof(ApproachGiven), nameof(ApproachGiven.Glide))) is { } outside)
            {
                Console.Error.WriteLine(outside);
                return ExitCode.BadInput;
            }
            if (JobArgument.Read(file) is not { } jobFile)
                return ExitCode.BadInput;
            if (choice.Read(arguments, file, jobFile, arguments.GetValue(quick)) is not { } chosen)
                return ExitCode.BadInput;
            ApproachOptions options = chosen with { Start = arguments.GetValue(start), Glide = arguments.GetValue(glide) };
            ApproachShift shift = new(arguments.GetValue(qnh), arguments.GetValue(wind), arguments.GetValue(oat), arguments.GetValue(line));
            if (arguments.GetValue(winds) is { } speed)
                return Winds(file, jobFile, options, shift, speed, PlanCommand.Units(arguments.GetValue(units), jobFile));
            return Run(file, jobFile, options, shift, PlanCommand.Units(arguments.GetValue(units), jobFile), arguments.GetValue(draw), arguments.GetValue(json));
        });
        return command;
    }

    /// <summary>What the program knows for an approach of a job.</summary>
    /// <param name="job">The job.</param>
    /// <param name="grid">Its elevation grid; null without one.</param>
    /// <param name="quick">Plans the order by the quick search alone, without the solver.</param>
    public static ApproachOptions Options(JobFile job, ElevationGrid? grid, bool quick = false) => new()
    {
        Plan = JobArgument.PlanOptions(job, quick),
        Ground = grid is null ? null : (latitude, longitude) => grid.HeightM(longitude, latitude),
        MomentOf = (day, minute) => JobArgument.MomentOf(job, day, minute),
    };

    private static int Run(FileInfo file, JobFile job, ApproachOptions options, ApproachShift shift, DisplayUnits units, DirectoryInfo? draw, bool json)
    {
        ApproachPlan before = Planned(job.Request, options);
        ApproachPlan plan = shift.IsEmpty ? before : Planned(shift.Applied(job.Request), options with { Shift = shift });
        IReadOnlyList<string>? changes = shift.IsEmpty || plan.Situation is null ? null : ApproachChanges.Between(before, plan, shift);
        if (json)
            PlanCommand.WriteJson(output => ApproachDocuments.Write(output, job.Request, plan, changes, job.LineOf));
        if (plan.Situation is null)
        {
            WriteFindings(file, job, plan);
            return ExitCode.BadInput;
        }
        if (!json)
            new ApproachText(Console.Out, plan, units).Write(changes);
        if (draw is not null && !TryDraw(draw, plan, options, units))
            return ExitCode.BadInput;
        return plan.IsOffered ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static int Winds(FileInfo file, JobFile job, ApproachOptions options, ApproachShift shift, Speed speed, DisplayUnits units)
    {
        LiftRequest request = shift.Applied(job.Request);
        IReadOnlyList<ApproachInWind> winds = ApproachesInWinds.Plan(request, Job.Plan(request, options.Plan), options with { Shift = shift }, speed);
        if (winds.FirstOrDefault(w => w.Plan.Situation is null) is { } none)
        {
            WriteFindings(file, job, none.Plan);
            return ExitCode.BadInput;
        }
        new ApproachText(Console.Out, winds[0].Plan, units).WriteWinds(winds);
        return winds.All(w => w.Plan.IsOffered) ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    /// <summary>Tells what keeps an approach from being planned, with the lines of the file; what was told when the file was read is not told again.</summary>
    public static void WriteFindings(FileInfo file, JobFile job, ApproachPlan plan) =>
        FindingText.Write(file.Name, plan.Findings.Select(f => new Finding(f.Severity, f.Code, job.LineOf(f.Path), 1, $"{f.Path}: {f.What}", f.Mend)).Except(job.Findings));

    /// <summary>Writes pictures and numbers; false, with the reason told, when a file can't be written.</summary>
    private static bool TryDraw(DirectoryInfo folder, ApproachPlan plan, ApproachOptions options, DisplayUnits units)
    {
        ApproachSituation s = plan.Situation!;
        try
        {
            folder.Create();
            foreach ((string name, string text) in ApproachFiles.Of(plan, new(s.Request, s.Site, s.Rules, options.Ground), units))
                File.WriteAllText(Path.Combine(folder.FullName, name), text);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"stillhook: {folder.FullName}: the pictures can't be written: {e.Message}");
            return false;
        }
    }

    /// <summary>The approach with the lift plan behind it, or without one where the job is not complete enough.</summary>
    public static ApproachPlan Planned(LiftRequest request, ApproachOptions options) => Job.Approach(request, Job.Plan(request, options.Plan), options);

    /// <summary>Reads the elevation grid of the option or of the job; false, with the findings told, when it can't be used.</summary>
    public static bool TryGround(FileInfo jobFile, JobFile job, FileInfo? asked, out ElevationGrid? grid)
    {
        grid = null;
        FileInfo? file = asked ?? (job.Request.Approach?.Terrain is { Length: > 0 } name ? new FileInfo(Path.Combine(jobFile.DirectoryName ?? ".", name)) : null);
        if (file is null)
            return true;
        try
        {
            using FileStream stream = file.OpenRead();
            TerrainFile read = TerrainReader.Read(stream, file.Name);
            FindingText.Write(file.Name, read.Findings.Where(f => f.Severity != Severity.Note));
            grid = read.Grid;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            Console.Error.WriteLine($"stillhook: {file.Name}: can't be read: {e.Message}");
            return false;
        }
        if (grid is not { Coordinates: GridCoordinates.ProjectedMetres })
            return grid is not null;
        Console.Error.WriteLine($"stillhook: {file.Name}: the grid is in metres of a projection, which can't be placed here. Convert it to latitude and longitude (degrees) and try again.");
        return false;
    }
}
