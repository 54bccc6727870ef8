using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>Jobs taken from one store to another, whole or not at all.</summary>
public sealed class ArchiveTests(PostgresServer server) : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void ExportImport_AnyJob_EverythingIsEqualAndTwiceAddsNothing()
    {
        byte[] empty = StoreFolder.EmptyStore();
        int file = 0;
        Gen.UInt.Sample(seed =>
        {
            WorkStore from = Fresh(empty, Interlocked.Increment(ref file)), to = Fresh(empty, Interlocked.Increment(ref file));
            (Guid job, Guid other) = RandomWork.Fill(from, new Random(unchecked((int)seed)));
            byte[] archive = Exported(from, job);
            ImportResult first = Archive.Import(to, new MemoryStream(archive));
            // An archive holds no store's own numbers, and equal contents give equal bytes: so equal bytes mean that everything is equal.
            Assert.Equal(archive, Exported(to, job));
            Assert.True(first.AddedAnything);
            Assert.False(Archive.Import(to, new MemoryStream(archive)).AddedAnything);
            Assert.Equal(archive, Exported(to, job));
            Assert.Null(to.Jobs.Find(other));
            Archive.Import(to, new MemoryStream(Exported(from, other)));
            KeptJob kept = from.Jobs.Find(job)!;
            if (kept.Day is { } day)
                Assert.Equal(Days(from, day), Days(to, day));
        }, iter: 8, threads: 2);
    }

    [Fact]
    public void ExportAll_ThroughPostgresAndBack_EverythingIsEqual()
    {
        WorkStore from = WorkStore.Open(folder.File("from.db")), middle = WorkStore.Open(server.FreshStore()), to = WorkStore.Open(folder.File("to.db"));
        RandomWork.Fill(from, new Random(7));
        byte[] all = ExportedAll(from);
        Archive.Import(middle, new MemoryStream(all));
        Assert.Equal(all, ExportedAll(middle));
        Assert.False(Archive.Import(middle, new MemoryStream(all)).AddedAnything);
        Archive.Import(to, new MemoryStream(ExportedAll(middle)));
        Assert.Equal(all, ExportedAll(to));
    }

    // Closed form: one revision and one correction are new, nothing else is.
    [Fact]
    public void Import_IntoAStoreThatWorkedOnToo_AddsWhatIsNewAndKeepsItsOwn()
    {
        WorkStore office = WorkStore.Open(folder.File("office.db")), field = WorkStore.Open(folder.File("field.db"));
        Guid job = office.Jobs.Save(new("Beton", "first", new(2026, 6, 1), "UTC"), "Anna", SampleWork.Now).Key;
        long id = office.Flights.Add("a", StoreTests.Content("abc"), SampleWork.Now, null, SampleWork.Flight(job: job)).Flight.Id;
        Archive.Import(field, new MemoryStream(Exported(office, job)));

        KeptLift there = field.Lifts.OfFlight(1)[0].Lift, here = office.Lifts.Find(id, 2)!.Lift;
        field.Lifts.Correct(there, there with { LoadKg = 500 }, "Beat", SampleWork.Now.AddHours(1));
        field.Jobs.Save(new("Beton", "second", new(2026, 6, 1), "UTC"), "Beat", SampleWork.Now.AddHours(1), job);
        office.Lifts.Correct(here, here with { LoadKg = 600 }, "Anna", SampleWork.Now.AddHours(2));
        ImportResult result = Archive.Import(office, new MemoryStream(Exported(field, job)));

        Assert.Equal((1, 1, 0, 0), (result.Revisions, result.Corrections, result.Flights, result.Lifts));
        Assert.Equal([500, 600], office.Lifts.OfFlight(id).Take(2).Select(l => l.Lift.LoadKg!.Value));
        Assert.Equal("second", office.Jobs.Find(job)!.Text);
    }

    [Fact]
    public void Import_ReorderedEntries_IsTheSame()
    {
        byte[] archive = Sample(out Guid job);
        byte[] turned = Rebuilt(archive, entries => [.. entries.AsEnumerable().Reverse()]);
        WorkStore to = WorkStore.Open(folder.File("to.db"));
        Archive.Import(to, new MemoryStream(turned));
        Assert.Equal(archive, Exported(to, job));
    }

    [Theory]
    [InlineData("../outside.json")]
    [InlineData("records/../../outside")]
    [InlineData("/etc/outside")]
    [InlineData("C:outside")]
    [InlineData("records\\..\\outside")]
    [InlineData("records//x")]
    public void Import_NameThatLeadsElsewhere_IsRefusedByName(string name) =>
        Refused(entries => [.. entries, (name, [1, 2, 3])], name);

    [Fact]
    public void Import_EntryThatNobodyAnnounced_IsRefusedByName() => Refused(entries => [.. entries, ("records/extra", [1])], "records/extra");

    [Fact]
    public void Import_EntryTwice_IsRefusedByName() => Refused(entries => [.. entries, entries[0]], "twice");

    [Fact]
    public void Import_EntryMissing_IsRefusedByName() => Refused(entries => [.. entries.Where(e => !e.Name.StartsWith("records/", StringComparison.Ordinal))], "records/");

    [Fact]
    public void Import_ChangedRecord_IsRefusedByName() =>
        Refused(entries => [.. entries.Select(e => e.Name.StartsWith("records/", StringComparison.Ordinal) ? (e.Name, [.. e.Content.Reverse()]) : e)], "records/");

    [Fact]
    public void Import_MoreThanAnnounced_StopsThere() =>
        // A record announced with a few bytes that unpacks to 50 million.
        Refused(entries => [.. entries.Select(e => e.Name.StartsWith("records/", StringComparison.Ordinal) ? (e.Name, new byte[50_000_000]) : e)], "records/");

    [Fact]
    public void Import_OverTheLimit_IsRefusedBeforeUnpacking()
    {
        byte[] archive = Sample(out _);
        StoreException e = Assert.Throws<StoreException>(() => Archive.Import(WorkStore.Open(folder.File("to.db")), new MemoryStream(archive), new() { MostBytes = 5000 }));
        Assert.Equal(StoreFault.BadArchive, e.Fault);
        Assert.Throws<StoreException>(() => Archive.Import(WorkStore.Open(folder.File("to.db")), new MemoryStream(archive), new() { MostEntries = 3 }));
        Assert.Throws<StoreException>(() => Archive.Import(WorkStore.Open(folder.File("to.db")), new MemoryStream(archive), new() { MostDocumentBytes = 300 }));
    }

    [Theory]
    [InlineData("jobs.json", "\"name\": \"Beton\"", "\"name\": null")]
    [InlineData("jobs.json", "\"timeZone\": \"Europe/Zurich\"", "\"timeZone\": \"Mars/North\"")]
    [InlineData("sites.json", "46.5", "1e999")]
    [InlineData("days.json", "\"kind\": \"event\"", "\"kind\": \"gossip\"")]
    [InlineData("parts.json", "\"Line\"", "\"Broom\"")]
    public void Import_DocumentThatCantBe_IsRefusedByNameThoughItsDigestIsRight(string name, string was, string now)
    {
        byte[] archive = Sample(out _);
        byte[] changed = Rebuilt(archive, entries =>
        {
            int i = entries.FindIndex(e => e.Name == name), m = entries.FindIndex(e => e.Name == "manifest.json");
            string text = Encoding.UTF8.GetString(entries[i].Content);
            Assert.Contains(was, text, StringComparison.Ordinal);
            byte[] content = Encoding.UTF8.GetBytes(text.Replace(was, now, StringComparison.Ordinal));
            JsonNode manifest = JsonNode.Parse(entries[m].Content)!;
            JsonNode entry = manifest["entries"]!.AsArray().First(e => (string)e!["name"]! == name)!;
            entry["bytes"] = content.Length;
            entry["sha256"] = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(content));
            entries[i] = (name, content);
            entries[m] = ("manifest.json", Encoding.UTF8.GetBytes(manifest.ToJsonString()));
            return entries;
        });
        RefusedBytes(changed, name);
    }

    [Fact]
    public void Import_NewerVersion_IsRefused()
    {
        byte[] changed = Rebuilt(Sample(out _), entries => [.. entries.Select(e => e.Name == "manifest.json" ? (e.Name, Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(e.Content).Replace("\"version\": 1", "\"version\": 2", StringComparison.Ordinal))) : e)]);
        Assert.Equal(StoreFault.NewerProgram, Assert.Throws<StoreException>(() => Archive.Import(WorkStore.Open(folder.File("to.db")), new MemoryStream(changed))).Fault);
    }

    [Fact]
    public void Import_SpoiltAnywhere_RefusedOrWholeNeverInBetween()
    {
        byte[] archive = Sample(out Guid job);
        WorkStore to = WorkStore.Open(folder.File("to.db"));
        Random random = new(5);
        for (int i = 0; i < 150; i++)
        {
            byte[] spoilt = [.. archive];
            if (i % 3 == 0)
                spoilt = spoilt[..random.Next(spoilt.Length)];
            else
                for (int k = 0; k < 1 + i % 4; k++)
                    spoilt[random.Next(spoilt.Length)] ^= (byte)(1 << random.Next(8));
            try
            {
                Archive.Import(to, new MemoryStream(spoilt));
                Assert.Equal(archive, Exported(to, job)); // only bytes that mean nothing, such as a time stamp, were hit
                to.Jobs.Remove(job);
                foreach (Flight flight in to.Flights.List())
                    to.Flights.Remove(flight.Id);
            }
            catch (StoreException e)
            {
                Assert.Contains(e.Fault, new[] { StoreFault.BadArchive, StoreFault.NewerProgram });
                Assert.Empty(to.Jobs.List());
                Assert.Empty(to.Flights.List());
            }
        }
    }

    [Fact]
    public void Backup_RestoredToAnyDatabase_EverythingIsEqual()
    {
        WorkStore from = WorkStore.Open(folder.Store);
        RandomWork.Fill(from, new Random(11));
        byte[] all = ExportedAll(from);
        string file = folder.File("kept/backup.zip");
        BackupReceipt receipt = Backup.Write(from, file);
        Assert.Equal(receipt.Digest, Backup.Check(file).Digest);
        Assert.Equal(all, ExportedAll(Backup.Restore(file, folder.File("restored.db"))));
        Assert.Equal(all, ExportedAll(WorkStore.Open(folder.File("restored.db"))));
        WorkStore postgres = Backup.Restore(file, server.FreshDatabase());
        Assert.Equal(all, ExportedAll(postgres));
        string second = folder.File("kept/second.zip");
        Backup.Write(postgres, second);
        Assert.Equal(all, ExportedAll(Backup.Restore(second, folder.File("restored2.db"))));
        Assert.Equal(["backup.zip", "second.zip"], Directory.EnumerateFiles(folder.File("kept")).Select(f => Path.GetFileName(f)).Order());
        Assert.DoesNotContain(Directory.EnumerateFiles(folder.Path), f => f.Contains("waiting", StringComparison.Ordinal));
    }

    [Fact]
    public void Restore_OverAStore_IsRefused()
    {
        WorkStore store = WorkStore.Open(folder.Store);
        Backup.Write(store, folder.File("backup.zip"));
        store.Jobs.Save(new("Later", "{}"), "Anna", SampleWork.Now);
        Assert.Contains("there already", Assert.Throws<StoreException>(() => Backup.Restore(folder.File("backup.zip"), folder.Store)).Message, StringComparison.Ordinal);
        Assert.Single(store.Jobs.List());
    }

    [Fact]
    public void Restore_SpoiltBackup_IsRefusedAndMakesNothing()
    {
        WorkStore store = WorkStore.Open(folder.Store);
        store.Flights.Add("a", new MemoryStream(System.Security.Cryptography.RandomNumberGenerator.GetBytes(50_000)), SampleWork.Now);
        Backup.Write(store, folder.File("backup.zip"));
        byte[] bytes = File.ReadAllBytes(folder.File("backup.zip"));
        bytes[bytes.Length / 2] ^= 4;
        File.WriteAllBytes(folder.File("backup.zip"), bytes);
        StoreException e = Assert.Throws<StoreException>(() => Backup.Restore(folder.File("backup.zip"), folder.File("new.db")));
        Assert.Equal(StoreFault.BadArchive, e.Fault);
        Assert.Contains("work.db", e.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.File("new.db")));
        Assert.Equal(StoreFault.Unreachable, Assert.Throws<StoreException>(() => Backup.Restore(folder.File("none.zip"), folder.File("new.db"))).Fault);
    }

    private WorkStore Fresh(byte[] empty, int number)
    {
        string file = folder.File($"{number}.db");
        File.WriteAllBytes(file, empty);
        return WorkStore.Open(file);
    }

    private byte[] Sample(out Guid job)
    {
        WorkStore from = WorkStore.Open(folder.File("sample.db"));
        KeptSite site = from.Sites.Save("Hütte", 46.5, 8.1, "{}", "Anna", SampleWork.Now);
        job = from.Jobs.Save(new("Beton", "{}", new(2026, 6, 1), "Europe/Zurich") { Sites = [site.Key] }, "Anna", SampleWork.Now).Key;
        long id = from.Flights.Add("a", StoreTests.Content(string.Concat(Enumerable.Repeat("abc", 1000))), SampleWork.Now, null, SampleWork.Flight(job: job)).Flight.Id;
        from.Parts.TakeIntoUse("L-30", PartKind.Line, "Anna", SampleWork.Now);
        from.Parts.CountUse("L-30", id, 3, 1, "Anna", SampleWork.Now);
        from.Days.Add(new(new(2026, 6, 1)), new EventMark(1, EventKind.Snag, null), "Anna", SampleWork.Now);
        return Exported(from, job);
    }

    private void Refused(Func<List<(string Name, byte[] Content)>, List<(string Name, byte[] Content)>> change, string named) => RefusedBytes(Rebuilt(Sample(out _), change), named);

    private void RefusedBytes(byte[] archive, string named)
    {
        WorkStore to = WorkStore.Open(folder.File("to.db"));
        StoreException e = Assert.Throws<StoreException>(() => Archive.Import(to, new MemoryStream(archive)));
        Assert.Equal(StoreFault.BadArchive, e.Fault);
        Assert.Contains(named, e.Message, StringComparison.Ordinal);
        Assert.Empty(to.Jobs.List());
        Assert.Empty(to.Flights.List());
        Assert.Empty(to.Sites.List());
    }

    private static byte[] Rebuilt(byte[] archive, Func<List<(string Name, byte[] Content)>, List<(string Name, byte[] Content)>> change)
    {
        using ZipArchive from = new(new MemoryStream(archive));
        List<(string Name, byte[] Content)> entries = [];
        foreach (ZipArchiveEntry entry in from.Entries)
        {
            using Stream content = entry.Open();
            using MemoryStream bytes = new();
            content.CopyTo(bytes);
            entries.Add((entry.FullName, bytes.ToArray()));
        }
        MemoryStream result = new();
        using (ZipArchive to = new(result, ZipArchiveMode.Create, leaveOpen: true))
            foreach ((string name, byte[] bytes) in change(entries))
            {
                using Stream content = to.CreateEntry(name).Open();
                content.Write(bytes);
            }
        return result.ToArray();
    }

    private static byte[] Exported(WorkStore store, Guid job)
    {
        MemoryStream to = new();
        Archive.Export(store, job, to);
        return to.ToArray();
    }

    private static byte[] ExportedAll(WorkStore store)
    {
        MemoryStream to = new();
        Archive.ExportAll(store, to);
        return to.ToArray();
    }

    /// <summary>A day as text, without the numbers that a store gives to its flights.</summary>
    private static string Days(WorkStore store, DateOnly day)
    {
        DayWork work = store.Days.Read(new(day));
        return System.Text.Json.JsonSerializer.Serialize(new
        {
            Flights = work.Flights.Select(f => f with { Id = 0 }), Lifts = work.Lifts.Select(l => l with { FlightId = 0 }), work.Corrections, work.Tally, work.TimeMarks, work.Events, work.Fuel, work.Duty,
        });
    }
}
