using Microsoft.Data.Sqlite;
using Stillhook.Debriefing;
using Stillhook.Reporting;
using Stillhook.Store;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>What is done with a store while it is made to fail, and how the store is looked at afterwards.</summary>
internal static class AnomalyWork
{
    /// <summary>A small store with something of every kind, as a SQLite file.</summary>
    public static readonly Lazy<byte[]> Before = new(Filled);

    /// <summary>Another store as an archive.</summary>
    public static readonly Lazy<byte[]> Other = new(() =>
    {
        using StoreFolder made = new();
        WorkStore store = WorkStore.Open(made.Store);
        RandomWork.Fill(store, new Random(3));
        return All(store);
    });

    /// <summary>Pieces of work by name; each writes in one call, and what it is given is as in the other tests.</summary>
    public static readonly Dictionary<string, Action<WorkStore>> Done = new()
    {
        ["record imported"] = s => s.Flights.Add("new", new MemoryStream(new byte[30_000]), SampleWork.Now, "{}", SampleWork.Flight(SampleWork.MorningS + 9000)),
        ["debrief kept"] = s => s.Flights.SaveWork(1, SampleWork.Flight(SampleWork.MorningS + 7, lifts: 4)),
        ["hovers kept"] = s => s.Flights.SaveHovers(1, [SampleWork.Flight().Hovers[0]]),
        ["flight removed"] = s => s.Flights.Remove(1),
        ["job saved"] = s => s.Jobs.Save(new("New", "{ }", new(2026, 6, 2), "UTC") { Sites = [s.Sites.List()[0].Key] }, "Anna", SampleWork.Now),
        ["job revised"] = s => s.Jobs.Save(new("Beton", "{ \"job\": \"Beton\" }"), "Anna", SampleWork.Now, s.Jobs.List()[0].Key),
        ["job edited"] = s => s.Jobs.Amend(s.Jobs.List()[0].Key, null, _ => new("Beton", "other"), "Anna", SampleWork.Now),
        ["card issued"] = s => s.Jobs.IssueCard(s.Jobs.List()[0].Key, "pilot.pdf", "application/pdf", new byte[20_000], SampleWork.Now),
        ["day saved"] = s => s.Days.Add(new(new(2026, 6, 1)), new EventMark(SampleWork.MorningS, EventKind.Damage, "again"), "Anna", SampleWork.Now),
        ["lift corrected"] = s =>
        {
            KeptLift lift = s.Lifts.Find(1, 1)!.Lift;
            s.Lifts.Correct(lift, lift with { LoadKg = 500, Family = "timber" }, "Beat", SampleWork.Now);
        },
        ["lift added"] = s => s.Lifts.AddByHand(new() { Number = 1, LoadKg = 500 }, new(2026, 6, 1), null, "Beat", SampleWork.Now),
        ["part used"] = s => s.Parts.CountUse("L-30", 1, 3, 1, "Anna", SampleWork.Now),
        ["site saved"] = s => s.Sites.Save("New", 46, 8, "{}", "Anna", SampleWork.Now),
        ["aircraft saved"] = s => s.Aircraft.Save("HB-NEW", "{}", "Anna", SampleWork.Now),
        ["archive imported"] = s => Archive.Import(s, new MemoryStream(Other.Value)),
    };

    /// <summary>Every one up to the 12th, then fewer and fewer; every one in the full run.</summary>
    public static int Next(int at) => Damage.All ? at + 1 : at + 1 + at / 12;

    /// <summary>Everything in the store, after its own checks.</summary>
    public static byte[] Whole(string file)
    {
        using (SqliteConnection connection = new($"Data Source={file};Pooling=False"))
        {
            connection.Open();
            using SqliteCommand check = connection.CreateCommand();
            check.CommandText = "PRAGMA integrity_check";
            Assert.Equal("ok", check.ExecuteScalar());
            check.CommandText = "PRAGMA foreign_key_check";
            Assert.Null(check.ExecuteScalar());
        }
        return AnomalyWork.All(WorkStore.Open(file));
    }

    public static byte[] All(WorkStore store)
    {
        MemoryStream to = new();
        Archive.ExportAll(store, to);
        return to.ToArray();
    }

    private static byte[] Filled()
    {
        using StoreFolder made = new();
        Fill(WorkStore.Open(made.Store));
        SqliteConnection.ClearAllPools();
        return File.ReadAllBytes(made.Store);
    }

    /// <summary>A job with its site, a flight, a part and a day.</summary>
    public static void Fill(WorkStore store)
    {
        KeptSite site = store.Sites.Save("Hütte", 46.5, 8.1, "{}", "Anna", SampleWork.Now);
        Guid job = store.Jobs.Save(new("Beton", "{}", new(2026, 6, 1), "Europe/Zurich") { Sites = [site.Key] }, "Anna", SampleWork.Now).Key;
        store.Flights.Add("a", new MemoryStream(new byte[5000]), SampleWork.Now, null, SampleWork.Flight(job: job));
        store.Parts.TakeIntoUse("L-30", Stillhook.Planning.PartKind.Line, "Anna", SampleWork.Now);
        store.Days.Add(new(new(2026, 6, 1)), new EventMark(1, EventKind.Snag, null), "Anna", SampleWork.Now);
    }
}
