namespace Stillhook.Fuzz.Targets;

/// <summary>A folder for one trial; in memory where the system offers that.</summary>
public sealed class FuzzFolder : IDisposable
{
    public string Path { get; } = Directory.Exists("/dev/shm")
        ? Directory.CreateDirectory(System.IO.Path.Combine("/dev/shm", "stillhook-fuzz-" + System.IO.Path.GetRandomFileName())).FullName
        : Directory.CreateTempSubdirectory("stillhook-fuzz").FullName;

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
