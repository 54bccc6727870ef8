using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Stillhook.Files.Live;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

// A program of its own that uses the store or keeps live input, so that the tests can kill it at any moment or run it with another user's rights.
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
try
{
    switch (args)
    {
        case ["open", string place]:
            WorkStore.Open(place).Jobs.Save(new("Job", "{}"), "child", DateTimeOffset.UnixEpoch);
            return 0;
        case ["import", string place, string first]:
            Import(place, int.Parse(first, CultureInfo.InvariantCulture));
            return 0;
        case ["backup", string place, string file]:
            Backups(place, file);
            return 0;
        case ["limited-backup" or "limited-restore", string place, string file, string step]:
            Limited(args[0] == "limited-backup", place, file, int.Parse(step, CultureInfo.InvariantCulture));
            return 0;
        case ["journal", string root, string source]:
            Journal(root, source);
            return 0;
        default:
            return 64;
    }
}
catch (StoreException e)
{
    Console.WriteLine(e.Fault);
    Console.WriteLine(e.Message);
    return 2;
}

// Takes live input in until it is killed; says the folder, and then how many positions were followed each time there are more.
static void Journal(string root, string source)
{
    CountingSink sink = new();
    LiveInput input = LiveInput.Start(LiveSourceText.ParseAll([source], new List<Finding>()), sink, new() { JournalRoot = root });
    Console.WriteLine(input.JournalFolder);
    Console.WriteLine(input.Resumed);
    for (int said = -1; ; Thread.Sleep(20))
        if (sink.Fixes != said)
            Console.WriteLine(said = sink.Fixes);
}

// Writes a backup, or restores one, while no file may grow past a bound that goes up by a step each time, until it goes through;
// each line says the bound, the fault in words, the digest of the file that was there before, and how many files are in its folder.
static void Limited(bool backup, string place, string file, int step)
{
    using PosixSignalRegistration tooLarge = PosixSignalRegistration.Create((PosixSignal)25, signal => signal.Cancel = true); // SIGXFSZ: the write fails instead
    WorkStore? store = backup ? WorkStore.Open(place) : null;
    store?.Jobs.List();
    for (int bound = 0; ; bound += step)
    {
        string told = "";
        FileSize.Bound(bound);
        try
        {
            if (backup)
                Backup.Write(store!, file);
            else
                Backup.Restore(file, place);
        }
        catch (StoreException e)
        {
            told = e.Message;
        }
        finally
        {
            FileSize.Bound(null);
        }
        string folder = Path.GetDirectoryName(file)!;
        Console.WriteLine($"{bound}\t{told}\t{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)))}\t{string.Join(' ', Directory.EnumerateFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal))}");
        if (told.Length == 0)
            return;
    }
}

// Writes backups, one over the other, until it is killed; each line is the digest of one that is whole.
static void Backups(string place, string file)
{
    WorkStore store = WorkStore.Open(place);
    Console.WriteLine("ready");
    while (true)
        Console.WriteLine(Backup.Write(store, file).Digest);
}

// Takes records in until it is killed; each line says what is kept for good.
static void Import(string place, int first)
{
    WorkStore store = WorkStore.Open(place);
    Stream said = Console.OpenStandardOutput();
    void Say(string line)
    {
        said.Write(System.Text.Encoding.ASCII.GetBytes(line + "\n"));
        said.Flush();
    }
    Say("ready");
    List<RecordSource> sources = [.. Enumerable.Range(first, 500).Select(i => new RecordSource($"{i}", () => new MemoryStream(StoreChildWork.Record(i))))];
    RecordBatch.TakeIn(store, sources, (source, _) => StoreChildWork.Of(int.Parse(source.Name, CultureInfo.InvariantCulture)), TimeProvider.System, step => Say($"{step.Outcome} {step.Flight!.Name} {step.Flight.Digest}"));
}

/// <summary>How large a file of this process may become (setrlimit RLIMIT_FSIZE).</summary>
internal static partial class FileSize
{
    private const int OfFiles = 1;

    /// <summary>Sets the bound in bytes; null takes it off.</summary>
    public static void Bound(int? bytes)
    {
        nuint[] limits = new nuint[2];
        if (Get(OfFiles, limits) != 0)
            throw new InvalidOperationException("The bound can't be read.");
        limits[0] = bytes is { } most ? (nuint)most : limits[1];
        if (Set(OfFiles, limits) != 0)
            throw new InvalidOperationException("The bound can't be set.");
    }

    [LibraryImport("libc", EntryPoint = "getrlimit")]
    private static partial int Get(int what, [Out] nuint[] limits);

    [LibraryImport("libc", EntryPoint = "setrlimit")]
    private static partial int Set(int what, nuint[] limits);
}

/// <summary>Counts positions.</summary>
internal sealed class CountingSink : ISampleSink
{
    public volatile int Fixes;

    public void Take(string source, in FixSample fix, double arrivedS) => Fixes++;

    public void Take(string source, in ChannelSample sample, double arrivedS)
    {
    }

    public void Link(string source, bool up, string why, double atS)
    {
    }
}

/// <summary>Records and work that depend only on their number, so that a test can tell whether they are whole.</summary>
public static class StoreChildWork
{
    /// <summary>Lifts of each flight.</summary>
    public const int Lifts = 20;

    /// <summary>Bytes of a record: some tens of thousands.</summary>
    public static byte[] Record(int number)
    {
        byte[] bytes = new byte[20_000 + number * 7919 % 40_000];
        byte[] seed = SHA256.HashData(BitConverter.GetBytes(number));
        for (int i = 0; i < bytes.Length; i++)
            bytes[i] = unchecked((byte)(seed[i % 32] ^ (i >> 5)));
        return bytes;
    }

    /// <summary>What is worked out from it.</summary>
    public static FlightWork Of(int number) => new()
    {
        Recorded = new(number * 10_000.0, number * 10_000.0 + 5000),
        Pilot = $"pilot {number % 3}",
        Aircraft = $"aircraft {number % 2}",
        Lifts = [.. Enumerable.Range(1, Lifts).Select(n => new KeptLift { Number = n, LoadKg = number + n / 100.0, DeliveryTimeS = number * 10_000.0 + n * 200, Measures = new() { HoverTimeS = n } })],
        Hovers = [new(number * 10_000.0 + 50, $"aircraft {number % 2}", null, number, 2000, 80, null)],
    };
}
