using Stillhook.Debriefing;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>An invented lifting day as a receiver and a load cell send it: ten positions a second in two sentences, the load in a third.</summary>
internal sealed class LiveDay
{
    private const double GapS = 600;
    private readonly List<(double TimeS, byte[] Bytes)> instants = [];

    /// <summary>Flies the day.</summary>
    public LiveDay(int rotations, ulong seed)
    {
        DayScenario scenario = ScenarioDraw.Random(seed, rotations);
        FlightRecord record = Recorder.Record(DaySimulator.Fly(scenario, seed), RecorderModel.WithError(1) with { RateHz = 10, Speed = true, LoadCell = true, LoadCellDropouts = 0 }, seed);
        Setup = scenario.ExactSetup();
        Record = record;
        using MemoryStream bytes = new();
        RecordWriter.Write(record, RecordFormat.Nmea, bytes);
        byte[] all = bytes.ToArray();
        int from = 0;
        for (int i = 0; i < record.Count; i++)
        {
            // An instant begins with its RMC sentence.
            int next = from + 1 < all.Length ? all.AsSpan(from + 1).IndexOf("$GPRMC"u8) : -1;
            int to = next < 0 ? all.Length : from + 1 + next;
            instants.Add((record.TimeS[i], all[from..to]));
            from = to;
        }
        Sentences = all.Count(b => b == '$');
        DayS = Math.Ceiling((record.TimeS[^1] - record.TimeS[0] + GapS) / 60) * 60;
    }

    public LiftSetup Setup { get; }

    public FlightRecord Record { get; }

    /// <summary>Sentences of one day.</summary>
    public int Sentences { get; }

    /// <summary>From the first position of one day to that of the next, s.</summary>
    public double DayS { get; }

    /// <summary>What arrives in one instant, each with its time.</summary>
    public IReadOnlyList<(double TimeS, byte[] Bytes)> Instants => instants;
}
