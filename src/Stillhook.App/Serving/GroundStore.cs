using System.Globalization;
using Stillhook.Files.Terrain;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.App.Serving;

/// <summary>An elevation grid handed in for a job.</summary>
/// <param name="Name">Name of its file.</param>
/// <param name="Stamp">Tells one grid of a job from the next.</param>
/// <param name="Grid">The grid.</param>
public sealed record JobGround(string Name, string Stamp, ElevationGrid Grid);

/// <summary>Elevation grids of jobs, as files beside the store. They are large and can be had again, so backups leave them out.</summary>
internal sealed class GroundStore(ServingOptions options)
{
    private readonly Lock guard = new();
    private (string Path, JobGround Ground)? last;

    /// <summary>The grid of a job; null when none was handed in.</summary>
    public JobGround? Of(Guid job)
    {
        if (Kept(job) is not { } file)
            return null;
        lock (guard)
        {
            string stamp = file.LastWriteTimeUtc.Ticks.ToString(CultureInfo.InvariantCulture);
            if (last is { } known && known.Path == file.FullName && known.Ground.Stamp == stamp)
                return known.Ground;
            using FileStream stream = file.OpenRead();
            string name = File.Exists(NameFile(job)) ? File.ReadAllText(NameFile(job)) : file.Name[(job.ToString("N").Length + 1)..];
            if (TerrainReader.Read(stream, name).Grid is not { } grid)
                return null;
            JobGround ground = new(name, stamp, grid);
            last = (file.FullName, ground);
            return ground;
        }
    }

    /// <summary>Takes a grid in for a job, in place of the one before.</summary>
    /// <returns>Null when it was taken; else why not, in a sentence.</returns>
    public string? Take(Guid job, Stream content, string fileName)
    {
        string name = Pages.Upload.NameOf(fileName, "grid");
        using MemoryStream copy = new();
        content.CopyTo(copy);
        copy.Position = 0;
        TerrainFile read = TerrainReader.Read(copy, name);
        if (read.Grid is not { } grid)
            return read.Findings.FirstOrDefault(f => f.Severity == Severity.Error) is { } error ? $"{error.What} {error.Done}" : "It holds no elevation grid.";
        if (grid.Coordinates == GridCoordinates.ProjectedMetres)
            return "The grid is in metres of a projection, which can't be placed here. Convert it to latitude and longitude (degrees).";
        Remove(job);
        Directory.CreateDirectory(Folder);
        // The name is kept as a text: none that was handed in becomes a file's.
        File.WriteAllText(NameFile(job), name);
        File.WriteAllBytes(Path.Combine(Folder, $"{job:N}-grid"), copy.ToArray());
        return null;
    }

    /// <summary>Takes the grid of a job away.</summary>
    public void Remove(Guid job)
    {
        Kept(job)?.Delete();
        if (Directory.Exists(Folder))
            File.Delete(NameFile(job));
    }

    private string Folder => Path.Combine(options.Store.Folder, "terrain");

    private string NameFile(Guid job) => Path.Combine(Folder, $"{job:N}.name");

    private FileInfo? Kept(Guid job) => Directory.Exists(Folder) ? new DirectoryInfo(Folder).EnumerateFiles($"{job:N}-*").FirstOrDefault() : null;
}
