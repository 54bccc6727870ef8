using System.Globalization;
using System.Text;
using Stillhook.Debriefing;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Following;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>What it costs to follow a flight: a sentence, twenty aircraft, and the memory of a day and a night.</summary>
internal static class LiveRun
{
    private const int Rotations = 8, Rounds = 3, Aircraft = 20, RateHz = 10;
    private const double HoursHeard = 24;

    /// <summary><c>live [folder for the result]</c></summary>
    public static int Run(string[] folder)
    {
        LiveDay day = new(Rotations, 3);
        StringBuilder text = new("# Following a flight: what it costs\n\n");
        text.Append(SideBySide.Machine()).Append('\n');
        text.Append(CultureInfo.InvariantCulture, $"An invented day of {Rotations} rotations: {day.Instants.Count:N0} positions at {RateHz} Hz, {day.Sentences:N0} sentences (RMC, GGA, XDR with the load), handed over an instant at a time. One core; least and median of {Rounds} after one that isn't counted.\n\n");
        Sentence(day, text);
        Console.Write(text);
        int before = text.Length;
        Memory(text);
        Console.Write(text.ToString(before, text.Length - before));
        if (folder.Length > 0)
            File.WriteAllText(Path.Combine(folder[0], "live.md"), text.ToString());
        return 0;
    }

    private static void Sentence(LiveDay day, StringBuilder text)
    {
        Feed(day, new Nowhere(), null);
        Feed(day, new FlightFollower("day", day.Setup), day.Setup);
        Times decoded = Repeated(() => Feed(day, new Nowhere(), null));
        Times followed = Repeated(() => Feed(day, new FlightFollower("day", day.Setup), null));
        Times measured = Repeated(() => Feed(day, new FlightFollower("day", day.Setup), day.Setup));
        text.Append("| a sentence | median, µs (least) | goal |\n|---|---|---|\n");
        Row("decoded and checked", decoded, "");
        Row("and smoothed: the filter, the light, hook and visits watched", followed, "under 20");
        Row("and every delivery measured from the last 45 min, four times", measured, "");
        double perAircraft = measured.Median / day.Sentences * (RateHz * (double)day.Sentences / day.Instants.Count);
        text.Append(CultureInfo.InvariantCulture, $"\n{Aircraft} aircraft at {RateHz} Hz, all of it: {100 * Aircraft * perAircraft:0.0} % of one core ({100 * Aircraft * followed.Median / measured.Median * perAircraft:0.0} % without the measuring of deliveries); goal under 10 %.\n\n");

        void Row(string what, Times times, string goal) =>
            text.Append(CultureInfo.InvariantCulture, $"| {what} | {times.Median / day.Sentences * 1e6:0.00} ({times.Fastest / day.Sentences * 1e6:0.00}) | {goal} |\n");
    }

    private static Times Repeated(Action work) => new([.. Enumerable.Range(0, Rounds).Select(_ => SideBySide.Seconds(work))]);

    /// <summary>A day and a night: the same hours again and again, their sentences written anew with the time that has come.</summary>
    private static void Memory(StringBuilder text)
    {
        FlightRecord day = new LiveDay(8, 4).Record;
        LiftSetup setup = new();
        double length = Math.Ceiling((day.TimeS[^1] - day.TimeS[0] + 300) / 60) * 60;
        FlightFollower follower = new("long", setup);
        List<Finding> found = [];
        LiveDecoder decoder = new(Setting(), new UtcOffset(), follower, found.Add);
        text.Append("| heard, h | deliveries found | memory kept, MB | resident, MB |\n|---|---|---|---|\n");
        double next = 1;
        for (double shift = 0; shift / 3600 < HoursHeard; shift += length)
        {
            using MemoryStream bytes = new();
            RecordWriter.Write(day with { TimeS = [.. day.TimeS.Select(t => t + shift)], Channels = [.. day.Channels.Select(c => c with { TimeS = [.. c.TimeS.Select(t => t + shift)] })] }, RecordFormat.Nmea, bytes);
            ReadOnlySpan<byte> all = bytes.GetBuffer().AsSpan(0, (int)bytes.Length);
            for (int i = 0; i < day.Count; i++)
            {
                int to = all[1..].IndexOf("$GPRMC"u8);
                ReadOnlySpan<byte> instant = to < 0 ? all : all[..(to + 1)];
                decoder.Take(instant, day.TimeS[i] + shift + 0.1);
                Look(follower, setup);
                all = all[instant.Length..];
            }
            if ((shift + length) / 3600 < next)
                continue;
            next = Math.Ceiling((shift + length) / 3600 + (next > 2 ? 3 : 0));
            double keptMb = GC.GetTotalMemory(forceFullCollection: true) / 1e6;
            text.Append(CultureInfo.InvariantCulture, $"| {(shift + length) / 3600:0.0} | {follower.Deliveries.All.Count(d => !d.Withdrawn)} | {keptMb:0.0} | {Environment.WorkingSet / 1e6:0} |\n");
        }
    }

    private static void Feed(LiveDay day, ISampleSink sink, LiftSetup? measure)
    {
        LiveDecoder decoder = new(Setting(), new UtcOffset(), sink, _ => { });
        foreach ((double timeS, byte[] bytes) in day.Instants)
        {
            decoder.Take(bytes, timeS + 0.1);
            if (measure is not null && sink is FlightFollower follower)
                Look(follower, measure);
        }
        decoder.End();
        if (decoder.Fixes != day.Instants.Count)
            throw new InvalidOperationException($"{decoder.Fixes} positions came of {day.Instants.Count}.");
    }

    private static void Look(FlightFollower follower, LiftSetup setup)
    {
        if (!follower.IsLookDue)
            return;
        FlightRecord part = follower.Look();
        follower.Take(Debriefer.Debrief(part, setup), part);
    }

    private static LiveSourceSetting Setting() => LiveSourceText.Parse("udp:10110", [])!;

    private sealed class Nowhere : ISampleSink
    {
        public void Take(string source, in FixSample fix, double arrivedS) { }
        public void Take(string source, in ChannelSample sample, double arrivedS) { }
        public void Link(string source, bool up, string why, double atS) { }
    }
}
