using System.Diagnostics;
using System.Globalization;
using System.Text;
using Stillhook.Planning;
using Stillhook.Store;

namespace Stillhook.Bench;

/// <summary>Questions on a season of seventy days of eight hours at 10 Hz (20 million positions), answered from what was kept when each flight was taken in.</summary>
internal static class SeasonRun
{
    private const int Days = 70, LiftsADay = 160, Rounds = 25;
    private const double PositionsADay = 288_000, HoursADay = 8;

    /// <summary><c>season [folder for the result]</c></summary>
    public static int Run(string[] folder)
    {
        string place = Directory.CreateTempSubdirectory("stillhook-season").FullName;
        try
        {
            WorkStore store = WorkStore.Open(Path.Combine(place, "season.db"), new StoreOptions { ReadJob = text => new LiftRequest { Job = text } });
            Fill(store);
            StringBuilder text = new("# A season's questions\n\n");
            text.Append(CultureInfo.InvariantCulture, $"{Days} days of {LiftsADay} lifts, {Days * PositionsADay / 1e6:0.0} million positions at 10 Hz; only what was kept when each flight was taken in is read. {Rounds} rounds after two for the compiler, elapsed.\n\n");
            text.Append("| question | rows read | median, ms (least) | goal, ms |\n|---|---|---|---|\n");
            Row("hours and lift cycles of every part of the rigging", () => store.Parts.Counts(DateTimeOffset.MaxValue).Count, "5");
            Row("days worked", () => store.Days.List().Count, "5");
            Row("hours in the air, flight after flight", () => store.Flights.List().Sum(f => store.Flights.Airborne(f.Id).Count), "");
            Row("every lift of one pilot on one aircraft, with its measures", () => store.Lifts.ForBaselines("pilot 1", "aircraft 1").Count, "");
            text.Append('\n').Append(SideBySide.Machine()).Append('\n');
            Console.Write(text);
            if (folder.Length > 0)
                File.WriteAllText(Path.Combine(folder[0], "season.md"), text.ToString());
            return 0;

            void Row(string what, Func<int> read, string goal)
            {
                List<double> ms = [];
                int rows = 0;
                for (int i = -2; i < Rounds; i++)
                {
                    long from = Stopwatch.GetTimestamp();
                    rows = read();
                    if (i >= 0)
                        ms.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
                }
                text.Append(CultureInfo.InvariantCulture, $"| {what} | {rows:N0} | {ms.Order().ElementAt(Rounds / 2):0.0} ({ms.Min():0.0}) | {goal} |\n");
            }
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(place, recursive: true);
        }
    }

    private static void Fill(WorkStore store)
    {
        Random random = new(1);
        DateTimeOffset now = StoreRun.Now;
        foreach (string part in (string[])["hook", "line", "remote hook", "swivel"])
            store.Parts.TakeIntoUse(part, PartKind.Line, "bench", now);
        for (int i = 0; i < Days; i++)
        {
            double fromS = (StoreRun.Day(i).ToDateTime(new(5, 0)) - DateTime.UnixEpoch).TotalSeconds;
            long flight = store.Flights.Add($"flight {i}", new MemoryStream(BitConverter.GetBytes(i)), now, null, StoreRun.Flight(random, fromS, "pilot 1", "aircraft 1", LiftsADay)).Flight.Id;
            foreach (string part in (string[])["hook", "line", "remote hook", "swivel"])
                store.Parts.CountUse(part, flight, LiftsADay, HoursADay, "bench", now);
        }
    }
}
