namespace Stillhook.Tests.App;

/// <summary>The demo day taken in once as two records, cut where the aircraft stood; each test works on its own copy of the store.</summary>
public sealed class ImportedDay : IDisposable
{
    private const string Cut = "2025-09-16T07:31";

    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public ImportedDay()
    {
        Assert.Equal(0, StartedProgram.Run("demo", "-o", folder).ExitCode);
        Record = Directory.GetFiles(folder, "*.csv").Single();
        Job = Directory.GetFiles(folder, "*.json").Single();
        string[] lines = File.ReadAllLines(Record);
        File.WriteAllLines(In("morning.csv"), lines.TakeWhile(l => string.CompareOrdinal(l, Cut) < 0 || l == lines[0]));
        File.WriteAllLines(In("later.csv"), [lines[0], .. lines.Skip(1).SkipWhile(l => string.CompareOrdinal(l, Cut) < 0)]);
        Assert.Equal(0, StartedProgram.Run("import", In("later.csv"), In("morning.csv"), "--job", Job, "--by", "pilot B", "--store", In("work.db")).ExitCode);
    }

    /// <summary>The whole record.</summary>
    public string Record { get; }

    /// <summary>The job file.</summary>
    public string Job { get; }

    /// <summary>A copy of the store to work on.</summary>
    public string Store(string to)
    {
        string copy = Path.Combine(to, "work.db");
        foreach (string file in Directory.GetFiles(folder, "work.db*"))
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        return copy;
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string In(string name) => Path.Combine(folder, name);
}

/// <summary>Tests that share the imported day.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class ImportedDayTests : ICollectionFixture<ImportedDay>
{
    public const string Name = "imported day";
}
