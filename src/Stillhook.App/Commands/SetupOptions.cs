using System.CommandLine;
using System.CommandLine.Parsing;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary>The crew's figures on the command line: what is typed stands above the job file, what is in neither is assumed.</summary>
internal sealed class SetupOptions
{
    private readonly Option<FileInfo?> job = new("--job") { Description = "Job file with the crew's figures and sites (docs/job-file.md)", HelpName = "FILE" };
    private readonly Option<Length?> line = QuantityOption.Create<Length>("--line", "Length of the line alone, such as 30m or 100ft", QuantityText.TryLength);
    private readonly Option<Length?> rigging = QuantityOption.Create<Length>("--rigging", "Rigging between line and load, such as 4m", QuantityText.TryLength);
    private readonly Option<Length?> loadHeight = QuantityOption.Create<Length>("--load-height", "Height of the load itself, such as 1.5m", QuantityText.TryLength);
    private readonly Option<Mass?> load = QuantityOption.Create<Mass>("--load", "Mass of the load, such as 780kg or 1720lb", QuantityText.TryMass);
    private readonly Option<Area?> dragArea = QuantityOption.Create<Area>("--drag-area", "Drag area of the load, such as 1.8m2", QuantityText.TryArea);
    private readonly Option<Mass?> aircraft = QuantityOption.Create<Mass>("--aircraft", "Mass of the aircraft without the load, such as 1650kg", QuantityText.TryMass);
    private readonly Option<Wind?> wind = QuantityOption.Create<Wind>("--wind", "Wind it blows from, degrees true, and speed, such as 240/12kt", QuantityText.TryWind);
    private readonly Option<Length?> antenna = QuantityOption.Create<Length>("--antenna-above-hook", "Height of the satellite antenna above the belly hook, such as 2m", QuantityText.TryLength);

    public IEnumerable<Option> All => [job, line, rigging, loadHeight, load, dragArea, aircraft, wind, antenna];

    /// <summary>What was typed for the job: a file, or the name of a kept one.</summary>
    public string? JobText(ParseResult arguments) => arguments.GetValue(job)?.ToString();

    /// <summary>The wind typed; null when none was.</summary>
    public Wind? WindTyped(ParseResult arguments) => arguments.GetValue(wind);

    /// <summary>Names of the options typed that say how a record was flown.</summary>
    public IReadOnlyList<string> FlightFigures(ParseResult arguments) =>
        [.. ((Option[])[line, rigging, loadHeight, load, dragArea, aircraft, antenna]).Where(o => arguments.GetResult(o) is { Implicit: false }).Select(o => o.Name)];

    /// <summary>The setup, and the job file it came from when one was named. Null, with the findings told, when the job file can't be used.</summary>
    public (LiftSetup Setup, JobFile? Job)? Read(ParseResult arguments)
    {
        JobFile? jobFile = null;
        if (arguments.GetValue(job) is { } file)
        {
            jobFile = JobFiles.Read(file);
            FindingText.Write(file.Name, jobFile.Findings.Where(f => f.Severity != Severity.Note));
            if (!jobFile.IsUsable)
                return null;
        }
        LiftSetup setup = jobFile is null ? new() : JobMarks.Setup(jobFile);
        if (arguments.GetValue(line) is { } l)
            setup = setup with { Line = new(l, Origin.Typed) };
        if (arguments.GetValue(rigging) is { } r)
            setup = setup with { Rigging = new(r, Origin.Typed) };
        if (arguments.GetValue(loadHeight) is { } h)
            setup = setup with { LoadHeight = new(h, Origin.Typed) };
        if (arguments.GetValue(load) is { } m)
            setup = setup with { Load = new(m, Origin.Typed) };
        if (arguments.GetValue(dragArea) is { } d)
            setup = setup with { DragArea = new(d, Origin.Typed) };
        if (arguments.GetValue(aircraft) is { } a)
            setup = setup with { Aircraft = new(a, Origin.Typed) };
        if (arguments.GetValue(wind) is { } w)
            setup = setup with { Wind = new Given<Wind>(w, Origin.Typed) };
        if (arguments.GetValue(antenna) is { } n)
            setup = setup with { AntennaAboveHook = new(n, Origin.Typed) };
        return (setup, jobFile);
    }
}
