using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Stillhook.Files.Records;
using Stillhook.Simulating;
using Stillhook.Store;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.App;

/// <summary>
/// The program with ever more memory (DOTNET_GCHeapHardLimit), until it has enough: an allocation fails somewhere else each time, in reading, smoothing, measuring or keeping.
/// It says so in one sentence with exit code 3, and the store is whole and empty. Now and then the runtime's own collector breaks down at the limit and ends the process (signal 11);
/// nothing can be said then, and the store is looked at all the same.
/// </summary>
public sealed class OutOfMemoryTests : IDisposable
{
    private const int BrokeDown = 128 + 11;

    private readonly string folder = Directory.CreateTempSubdirectory("memory").FullName;

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("import"), InlineData("debrief")]
    public async Task Command_TooLittleMemory_SaysSoAndKeepsNothing(string command)
    {
        string record = Path.Combine(folder, "day.csv"), place = Path.Combine(folder, "work.db");
        DayScenario scenario = ScenarioDraw.Random(3, 30);
        using (FileStream file = File.Create(record))
            RecordWriter.Write(Recorder.Record(DaySimulator.Fly(scenario, 3), new() { RateHz = 10, Speed = true }, 3), RecordFormat.Csv, file);
        int told = 0;
        for (double megabytes = 8; ; megabytes *= Damage.All ? 1.05 : 2)
        {
            (int code, string output, string errors) = await Run((long)(megabytes * 1e6), command == "import" ? ["import", record, "--store", place] : ["debrief", record]);
            if (code is not (3 or BrokeDown))
            {
                Assert.True(code == 0, $"{megabytes:0} MB: {code}, {errors}");
                Assert.Empty(errors);
                Assert.True(command != "import" || WorkStore.Open(place).Flights.List().Count == 1);
                Assert.InRange(told, 2, 1000);
                return;
            }
            if (code == 3)
            {
                Assert.Equal("stillhook: " + Stillhook.App.Commands.OutOfMemory.Words, errors.Trim());
                told++;
            }
            Assert.Empty(output);
            if (command != "import")
                continue;
            using (SqliteConnection connection = new($"Data Source={place};Pooling=False"))
            {
                connection.Open();
                using SqliteCommand check = connection.CreateCommand();
                check.CommandText = "PRAGMA integrity_check";
                Assert.Equal("ok", check.ExecuteScalar());
            }
            Assert.Empty(WorkStore.Open(place).Flights.List());
        }
    }

    private static async Task<(int Code, string Output, string Errors)> Run(long bytes, params string[] arguments)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "Stillhook.App.dll"), .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["DOTNET_GCHeapHardLimit"] = "0x" + bytes.ToString("X", CultureInfo.InvariantCulture);
        // The collector that stands by itself breaks down less often.
        if (OperatingSystem.IsLinux())
            start.Environment["DOTNET_GCName"] = "libclrgc.so";
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, await output, await errors);
    }
}
