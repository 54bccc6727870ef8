using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Files.Terrain;

/// <summary>A terrain file as read.</summary>
/// <param name="Grid">The heights; null when the file can't be used, then one finding is an error.</param>
/// <param name="Findings">What was irregular, left out or assumed.</param>
public sealed record TerrainFile(ElevationGrid? Grid, IReadOnlyList<Finding> Findings);
