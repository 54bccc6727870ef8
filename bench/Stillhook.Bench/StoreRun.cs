using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Stillhook.Bench.Baselines;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Bench;

/// <summary>Half a million deliveries over ten seasons in one SQLite file: how long a day and a baseline take to read.</summary>
internal static class StoreRun
{
    private const int Deliveries = 500_000, LiftsPerFlight = 25, FlightsPerDay = 10, DaysPerSeason = 200, BaseDays = 20, Pilots = 8, Aircraft = 4, Rounds = 15;
    public static readonly DateTimeOffset Now = new(2026, 11, 1, 0, 0, 0, TimeSpan.Zero);

    public static int Run(string file)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        if (!File.Exists(file))
            Fill(file);
        StoreOptions options = new() { ReadJob = text => new LiftRequest { Job = text } };
        long first = Stopwatch.GetTimestamp();
        WorkStore store = WorkStore.Open(file, options);
        DateOnly day = Day(Deliveries / LiftsPerFlight / FlightsPerDay / 2);
        int lifts = store.Days.Read(new(day)).Lifts.Count;
        double coldMs = Stopwatch.GetElapsedTime(first).TotalMilliseconds;
        Console.WriteLine($"{Deliveries:N0} deliveries, {new FileInfo(file).Length / 1e6:N0} MB; opened and one day of {lifts} lifts read, first time in the process: {coldMs:0} ms");
        Console.WriteLine();
        Console.WriteLine("| read | rows | processor time, median, ms (least) | elapsed, median, ms (least) |");
        Console.WriteLine("|---|---|---|---|");
        Random random = new(1);
        Row("one day as DayWork", () => store.Days.Read(new(Day(random.Next(Deliveries / LiftsPerFlight / FlightsPerDay)))).Lifts.Count);
        Row("one day of one aircraft", () => store.Days.Read(new(Day(random.Next(Deliveries / LiftsPerFlight / FlightsPerDay)), "aircraft 1")).Lifts.Count);
        Row("lifts of one pilot on one aircraft", () => store.Lifts.ForBaselines("pilot 3", "aircraft 3").Count);
        Row("lifts of one aircraft", () => store.Lifts.ForBaselines(null, "aircraft 1").Count);
        Console.WriteLine();
        Against(file, store);
        return 0;
    }

    /// <summary>Reading and baselines against the plain way, an object a row, in turn so that both meet the same machine.</summary>
    private static void Against(string file, WorkStore store)
    {
        using LiftObjects plain = new(file);
        Console.WriteLine("| what | rows | processor time, median, ms (least) | a plain object a row | ratio of medians (of least) |");
        Console.WriteLine("|---|---|---|---|---|");
        InTurn("hover points of one aircraft, read", () => store.Flights.Hovers("aircraft 1").Count, () => plain.Hovers("aircraft 1").Count);
        InTurn("lifts of one pilot, read", () => store.Lifts.ForBaselines("pilot 3", null).Count, () => plain.Lifts("pilot 3").Count);
        InTurn("both read", () => store.Flights.Hovers("aircraft 1").Count + store.Lifts.ForBaselines("pilot 3", null).Count, () => plain.Hovers("aircraft 1").Count + plain.Lifts("pilot 3").Count);
        InTurn("rotations and deliveries of one pilot, read and worked out", () =>
        {
            IReadOnlyList<MeasuredLift> lifts = store.Lifts.ForBaselines("pilot 3", null);
            return CycleBaseline.Of(lifts).Count + DeliveryBaseline.Of("pilot 3", lifts).Count > 0 ? lifts.Count : 0;
        }, () =>
        {
            List<KeptLift> lifts = plain.Lifts("pilot 3");
            return CycleBaseline.Of(lifts).Count + DeliveryBaseline.Of("pilot 3", lifts).Count > 0 ? lifts.Count : 0;
        });
        Row("hover baseline of one aircraft, read and learned", () =>
        {
            IReadOnlyList<HoverPoint> hovers = store.Flights.Hovers("aircraft 1");
            return HoverBaseline.Learn("aircraft 1", hovers) is (null, null) ? 0 : hovers.Count;
        });
    }

    private static void InTurn(string what, Func<int> ours, Func<int> theirs)
    {
        List<double> a = [], b = [];
        int rows = 0;
        for (int i = -2; i < Rounds; i++)
        {
            double first = UsedMs(() => rows = ours()), second = UsedMs(() => theirs());
            if (i < 0)
                continue;
            a.Add(first);
            b.Add(second);
        }
        Console.WriteLine($"| {what} | {rows:N0} | {Median(a):0} ({a.Min():0}) | {Median(b):0} ({b.Min():0}) | {Median(a) / Median(b):0.00} ({a.Min() / b.Min():0.00}) |");
    }

    private static double UsedMs(Func<int> what)
    {
        GC.Collect();
        TimeSpan before = Environment.CpuUsage.TotalTime;
        what();
        return (Environment.CpuUsage.TotalTime - before).TotalMilliseconds;
    }

    private static void Row(string what, Func<int> read)
    {
        List<double> elapsed = [], used = [];
        int rows = 0;
        for (int i = -2; i < Rounds; i++) // two rounds for the compiler
        {
            TimeSpan before = Environment.CpuUsage.TotalTime;
            long start = Stopwatch.GetTimestamp();
            rows = read();
            if (i < 0)
                continue;
            elapsed.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            used.Add((Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
        }
        Console.WriteLine($"| {what} | {rows:N0} | {Median(used):0} ({used.Min():0}) | {Median(elapsed):0} ({elapsed.Min():0}) |");
    }

    private static double Median(List<double> x) => x.Order().ElementAt(x.Count / 2);

    public static DateOnly Day(int number) => new DateOnly(2017, 4, 1).AddYears(number / DaysPerSeason).AddDays(number % DaysPerSeason);

    /// <summary>Twenty days through the store itself, then copies of them by plain SQL with their times moved: the same rows, filled in seconds.</summary>
    private static void Fill(string file)
    {
        WorkStore store = WorkStore.Open(file);
        Random random = new(1);
        Stopwatch all = Stopwatch.StartNew();
        for (int i = 0; i < BaseDays * FlightsPerDay; i++)
        {
            if (i % FlightsPerDay == 0)
                store.Jobs.Save(new($"job {i}", "{ \"job\": \"of the day\" }", Day(i / FlightsPerDay), "Europe/Zurich"), "bench", Now);
            double fromS = (Day(i / FlightsPerDay).ToDateTime(new(5, 0)) - DateTime.UnixEpoch).TotalSeconds + i % FlightsPerDay * 3600;
            store.Flights.Add($"flight {i}", new MemoryStream(BitConverter.GetBytes(i)), Now, null, Flight(random, fromS, $"pilot {random.Next(Pilots)}", $"aircraft {i % Aircraft}", LiftsPerFlight));
        }
        Console.Error.WriteLine($"{all.Elapsed.TotalMilliseconds / (BaseDays * FlightsPerDay):0.0} ms a flight of {LiftsPerFlight} lifts");
        using SqliteConnection connection = new($"Data Source={file}");
        connection.Open();
        using SqliteTransaction transaction = connection.BeginTransaction();
        for (int k = 1; k < Deliveries / (BaseDays * FlightsPerDay * LiftsPerFlight); k++)
            Copy(connection, k, Day(k * BaseDays).DayNumber - Day(0).DayNumber);
        transaction.Commit();
        SqliteConnection.ClearAllPools();
        foreach (CorrectedLift lift in store.Lifts.OfFlight(Deliveries / LiftsPerFlight / 2))
            store.Lifts.Correct(lift.Lift, lift.Lift with { LoadKg = 700 }, "bench", Now);
        Console.Error.WriteLine($"filled in {all.Elapsed.TotalSeconds:0} s");
    }

    private static void Copy(SqliteConnection connection, int k, int days)
    {
        int flights = k * BaseDays * FlightsPerDay, lifts = flights * LiftsPerFlight;
        string key = $"printf('%08X', {k}) || substr(Key, 9)";
        Table("job", $"Day IS NOT NULL AND Day < '{Day(BaseDays):yyyy-MM-dd}'", column => column switch { "Key" => key, "Day" => $"date(Day, '+{days} days')", _ => column });
        Table("job_revision", $"JobKey IN (SELECT Key FROM job WHERE Day < '{Day(BaseDays):yyyy-MM-dd}')", column => column == "JobKey" ? $"printf('%08X', {k}) || substr(JobKey, 9)" : column);
        Table("flight", $"Id <= {BaseDays * FlightsPerDay}", column => column switch { "Id" => $"Id + {flights}", "Digest" => $"printf('%08x', {k}) || substr(Digest, 9)", _ => column });
        foreach (string table in new[] { "flight_work", "lift", "hover_point" })
            Table(table, $"FlightId <= {BaseDays * FlightsPerDay}", column => column switch
            {
                "Id" => $"Id + {lifts}", "FlightId" => $"FlightId + {flights}", "Key" => key,
                "AtS" or "FromS" or "ToS" or "PickUpTimeS" or "ApproachStartTimeS" or "StopTimeS" or "DeliveryTimeS" or "ReleaseTimeS" or "ClearTimeS" => $"{column} + {days * 86400.0}",
                _ => column,
            });
        Table("lift_measures", $"LiftId <= {BaseDays * FlightsPerDay * LiftsPerFlight}", column => column == "LiftId" ? $"LiftId + {lifts}" : column);

        void Table(string name, string where, Func<string, string> value)
        {
            using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Texts of this file only.
            command.CommandText = $"SELECT group_concat(name) FROM pragma_table_info('{name}')";
            string[] columns = ((string)command.ExecuteScalar()!).Split(',');
            command.CommandText = $"INSERT INTO {name} ({string.Join(',', columns.Select(c => $"\"{c}\""))}) SELECT {string.Join(',', columns.Select(c => value(c) is var v && v == c ? $"\"{c}\"" : v))} FROM {name} WHERE {where}";
#pragma warning restore CA2100
            command.ExecuteNonQuery();
        }
    }

    /// <summary>What is kept of an invented flight.</summary>
    public static FlightWork Flight(Random random, double fromS, string pilot, string aircraft, int lifts)
    {
        return new()
        {
            Recorded = new(fromS, fromS + 6600),
            Airborne = [new(fromS + 60, fromS + 6500)],
            Pilot = pilot,
            Aircraft = aircraft,
            Lifts = [.. Enumerable.Range(1, lifts).Select(n => Lift(random, n, fromS + 250 * n))],
            Hovers = [.. Enumerable.Range(1, lifts).Select(n => new HoverPoint(fromS + 250 * n, aircraft, pilot, random.NextDouble() * 3000, 1800 + random.NextDouble() * 600, 70 + random.NextDouble() * 25, null))],
        };
    }

    private static KeptLift Lift(Random r, int number, double atS) => new()
    {
        Number = number, LoadNumber = $"{number}", Family = r.Next(2) == 0 ? "concrete" : "timber", LoadKg = 500 + r.NextDouble() * 400, LoadMeasured = true,
        PickUpTimeS = atS - 100, ApproachStartTimeS = atS - 45, StopTimeS = atS - 12, DeliveryTimeS = atS, ReleaseTimeS = atS + 4, ClearTimeS = atS + 9,
        PickUp = new(46 + r.NextDouble(), 8), Delivery = new(46, 8 + r.NextDouble()), PickUpSite = "valley", DeliverySite = $"site {r.Next(20)}", LineM = 30, Confidence = Confidence.High,
        Measures = new()
        {
            StartHeightM = r.NextDouble() * 60, StartDistanceM = r.NextDouble() * 300, GlideDeg = r.NextDouble() * 10, EntrySpeedMs = r.NextDouble() * 20, PeakDecelMs2 = r.NextDouble(), PeakDecelDistanceM = r.NextDouble() * 80,
            OvershootM = r.NextDouble() * 5, StopShortM = r.NextDouble(), LineUpErrorM = r.NextDouble(), ApproachCourseDeg = r.NextDouble() * 360, Swing50m = Band(r), SwingAfterStopM = Band(r), SwingContactM = Band(r), SwingMaxM = Band(r), SwingShownM = Band(r),
            HoverTimeS = r.NextDouble() * 20, SinkLast15Ms = r.NextDouble(), CycleTimeS = 240 + r.NextDouble() * 20, Smoothness = -r.NextDouble(), Corrections = r.Next(9), SecondsOverPeople = 0,
            Gates = [.. new[] { 400.0, 200, 100, 50 }.Select(d => new GatePassage(d, atS - d / 10, d / 3 + r.NextDouble(), r.NextDouble() * 20, r.NextDouble() * 3))], Faults = [Fault.HoverWait], MainFault = Fault.HoverWait,
        },
    };

    private static Banded Band(Random r)
    {
        double value = r.NextDouble() * 4;
        return new(value, value * 0.7, value * 1.3);
    }
}
