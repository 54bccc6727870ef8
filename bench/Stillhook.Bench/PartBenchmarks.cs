using BenchmarkDotNet.Attributes;
using Stillhook.Bench.Baselines;
using Stillhook.Debriefing;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Bench;

/// <summary>Reading the long day, each format beside its plain baseline.</summary>
[MemoryDiagnoser]
public class ReadingBenchmarks
{
    [GlobalSetup] public void Setup() => LongDay.Write();
    [Benchmark(Baseline = true)] public long XmlWalkOfGpx() => XmlWalk.Nodes(LongDay.Gpx);
    [Benchmark] public FlightRecord Gpx() => RecordReader.ReadFile(LongDay.Gpx);
    [Benchmark] public double SplitAndParseOfNmea() => SplitNmea.Sum(LongDay.Nmea);
    [Benchmark] public FlightRecord Nmea() => RecordReader.ReadFile(LongDay.Nmea);
    [Benchmark] public FlightRecord Igc() => RecordReader.ReadFile(LongDay.Igc);
    [Benchmark] public FlightRecord Csv() => RecordReader.ReadFile(LongDay.Csv);
}

/// <summary>Smoothing an hour at 10 Hz, ours beside the matrix form.</summary>
[MemoryDiagnoser]
public class SmoothingBenchmarks
{
    private readonly SmoothingCase hour = new(36_000);

    [Benchmark(Baseline = true)] public double Matrix() => hour.Matrix();
    [Benchmark] public double Ours() => hour.Ours();
}

/// <summary>The steps after reading, on the long day.</summary>
[MemoryDiagnoser]
public class DebriefingBenchmarks
{
    private readonly LiftSetup setup = LongDay.Scenario().ExactSetup();
    private FlightRecord record = null!;

    [GlobalSetup]
    public void Setup()
    {
        LongDay.Write();
        record = RecordReader.ReadFile(LongDay.Csv);
    }

    [Benchmark] public object TrackAlone() => TrackBuilder.Build(record, setup);
    [Benchmark] public Debrief WholeDebrief() => Debriefer.Debrief(record, setup);
}
