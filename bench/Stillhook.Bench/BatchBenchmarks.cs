using BenchmarkDotNet.Attributes;
using Stillhook.Bench.Baselines;
using Stillhook.Physics.Load;

namespace Stillhook.Bench;

/// <summary>10,000 flights of one approach at a step of 0.1 s; the library flies 100 of them.</summary>
[MemoryDiagnoser]
[MinIterationCount(5)]
[MaxIterationCount(12)]
public class BatchBenchmarks
{
    private readonly BatchCase batch = new(0.1, 10_000, noise: true);

    [Benchmark] public BatchOutcome EightAtATime() => batch.Ours();

    [Benchmark(Baseline = true)] public BatchOutcome OneByOne() => batch.OneByOne();

    [Benchmark]
    public double LibraryHundredFlights()
    {
        double sum = 0;
        for (int i = 0; i < 100; i++)
            sum += LibraryPendulum.Fly(batch, i).Along;
        return sum;
    }
}
