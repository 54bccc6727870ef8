using System.Diagnostics;
using System.Globalization;
using Stillhook.Approaching;

namespace Stillhook.Bench;

/// <summary>Times the steps of one approach in this process, after rounds for the compiler.</summary>
internal static class ApproachRun
{
    private const int WarmUps = 5, Rounds = 15;

    public static int Run()
    {
        ApproachBenchmarks approach = new();
        approach.Setup();
        Console.WriteLine("| what | median (least, most) | goal |");
        Console.WriteLine("|---|---|---|");
        Row("one path, slow-down fitted to its limit", approach.OnePath, "20 ms");
        Row("one direction with obstacles", approach.OneDirection, "");
        Row("all directions with obstacles", approach.AllDirections, "150 ms");
        Row("10,000 flights with their summing up", approach.TenThousandFlights, "500 ms");
        Row("whole approach: directions, trials, gates, 10,000 flights", approach.WholeApproach, "");
        return 0;
    }

    private static void Row<T>(string what, Func<T> step, string goal)
    {
        List<double> ms = [];
        for (int i = -WarmUps; i < Rounds; i++)
        {
            long begun = Stopwatch.GetTimestamp();
            GC.KeepAlive(step());
            if (i >= 0)
                ms.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what} | {ms.Order().ElementAt(Rounds / 2):0.0} ms ({ms.Min():0.0}, {ms.Max():0.0}) | {goal} |"));
    }
}
