using Stillhook.Recording;

namespace Stillhook.Files.Terrain;

/// <summary>The file can't be used; caught at the door of the terrain readers and handed out as a finding.</summary>
internal sealed class TerrainRefusedException(string code, long? line, string what, string mend) : Exception(what)
{
    public Finding Finding { get; } = new(Severity.Error, code, line, 1, what, mend);
}
