using System.Runtime.CompilerServices;
using System.Text.Json;

namespace Stillhook.Tests.Files.Records;

/// <summary>The real records kept in tests/data/records and what an independent reader found in them.</summary>
internal static class SharedRecords
{
    public static string Folder { get; } = Path.GetFullPath(Path.Combine(Here(), "../../../data/records"));

    public static JsonElement Expected { get; } =
        JsonDocument.Parse(File.ReadAllText(Path.Combine(Folder, "EXPECTED.json"))).RootElement.GetProperty("files");

    public static IEnumerable<string> Names =>
        Expected.EnumerateObject().Select(p => p.Name).Where(n => File.Exists(Path.Combine(Folder, n)));

    public static string PathOf(string name) => Path.Combine(Folder, name);

    private static string Here([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
