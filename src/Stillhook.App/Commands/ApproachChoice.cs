using System.CommandLine;
using System.CommandLine.Parsing;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Physics.Earth;

namespace Stillhook.App.Commands;

/// <summary>Which approach of a job is meant: site, load and the ground around it.</summary>
internal sealed class ApproachChoice
{
    private readonly Option<string?> site = new("--site") { Description = "Delivery site of the approach; the load's own when left out", HelpName = "SITE" };
    private readonly Option<string?> load = new("--load") { Description = "Number of the load; the heaviest that lifts when left out", HelpName = "NUMBER" };
    private readonly Option<FileInfo?> terrain = new("--terrain") { Description = "Elevation grid in degrees: SRTM .hgt, Esri ASCII or uncompressed GeoTIFF; the job file's own when left out", HelpName = "FILE" };

    public IEnumerable<Option> All => [site, load, terrain];

    /// <summary>How to plan it; null, with the reason told, when the elevation grid can't be used.</summary>
    public ApproachOptions? Read(ParseResult arguments, FileInfo file, JobFile job, bool quick = false) =>
        ApproachCommand.TryGround(file, job, arguments.GetValue(terrain), out ElevationGrid? grid)
            ? ApproachCommand.Options(job, grid, quick) with { Site = arguments.GetValue(site), Load = arguments.GetValue(load) } : null;
}
