using System.Globalization;
using Stillhook.Bench.Baselines;
using Stillhook.Physics.Load;

namespace Stillhook.Bench;

/// <summary>Times the batch three ways in turn by processor time (which a busy machine leaves alone), and compares the errors.</summary>
internal static class BatchRun
{
    private const int Flights = 10_000, LibraryFlights = 200, Rounds = 15;

    public static int Run()
    {
        BatchCase batch = new(0.1, Flights, noise: true);
        List<double> eight = [], one = [], library = [];
        for (int i = -2; i < Rounds; i++) // two rounds for the compiler
        {
            (double a, double b, double c) = (Ms(() => batch.Ours()), Ms(() => batch.OneByOne()), Ms(() => Library(batch)) * Flights / LibraryFlights);
            if (i < 0)
                continue;
            eight.Add(a);
            one.Add(b);
            library.Add(c);
        }
        Console.WriteLine("| 10,000 flights of 45 s | processor time, median (least) | over eight at a time, medians (least) |");
        Console.WriteLine("|---|---|---|");
        Row("eight at a time", eight, eight);
        Row("one by one", one, eight);
        Row("library, without hand and gusts", library, eight);
        Errors();
        return 0;
    }

    private static double Library(BatchCase batch) => Enumerable.Range(0, LibraryFlights).Sum(i => LibraryPendulum.Fly(batch, i).Along);

    private static void Row(string what, List<double> ms, List<double> first) => Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"| {what} | {Median(ms):0.0} ms ({ms.Min():0.0}) | {Median(ms) / Median(first):0.0} ({ms.Min() / first.Min():0.0}) |"));

    private static double Median(List<double> x) => x.Order().ElementAt(x.Count / 2);

    private static double Ms(Action what)
    {
        TimeSpan used = Environment.CpuUsage.TotalTime;
        what();
        return (Environment.CpuUsage.TotalTime - used).TotalMilliseconds;
    }

    /// <summary>Largest error of the load's place along and across at the end, calm hand, against a step of 0.01 s.</summary>
    private static void Errors()
    {
        BatchOutcome truth = new BatchCase(0.01, LibraryFlights, noise: false).Ours();
        Console.WriteLine();
        Console.WriteLine("| step | ours, largest error | library, largest error |");
        Console.WriteLine("|---|---|---|");
        foreach (double step in new[] { 0.2, 0.1, 0.05, 0.02 })
        {
            BatchCase batch = new(step, LibraryFlights, noise: false);
            BatchOutcome ours = batch.Ours();
            double own = 0, other = 0;
            for (int i = 0; i < LibraryFlights; i++)
            {
                (double along, double across) = LibraryPendulum.Fly(batch, i);
                own = Math.Max(own, Math.Max(Math.Abs(ours.LoadAlongM[i] - truth.LoadAlongM[i]), Math.Abs(ours.LoadAcrossM[i] - truth.LoadAcrossM[i])));
                other = Math.Max(other, Math.Max(Math.Abs(along + HookM(batch, i) - truth.LoadAlongM[i]), Math.Abs(across - truth.LoadAcrossM[i])));
            }
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {step} s | {own * 1000:0.0000} mm | {other * 1000:0.0000} mm |"));
        }
    }

    private static double HookM(BatchCase batch, int flight) =>
        batch.Plan.AlongM[^1] + batch.Modes.Select((m, j) => batch.Draws.Modes[j][flight] * m.AlongM[^1]).Sum();
}
