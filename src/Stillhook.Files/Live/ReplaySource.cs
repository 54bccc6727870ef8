using System.Globalization;
using Stillhook.Files.Records;
using Stillhook.Files.Records.Nmea;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>A record of any format played again, each fix as NMEA sentences and each value of another channel as a line of a table, when the replay's clock comes to its time.</summary>
internal sealed class ReplaySource(LiveSourceSetting setting, ReplayClock clock) : ILiveSource
{
    private const double LongGapS = 60; // common practice, no source
    private static readonly TimeSpan s_longestSleep = TimeSpan.FromSeconds(1);

    public async Task RunAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        FlightRecord record = await Task.Run(() => RecordReader.ReadFile(setting.Path), cancellation);
        foreach (Finding finding in record.Findings.Where(f => f.Severity == Severity.Error)) receiver.Say(finding);
        double[] told = [.. record.TimeS.Where(t => InvariantWriter.Milliseconds(t) is not null)];
        if (told.Length == 0)
        {
            if (record.Count > 0) receiver.Say(new Finding(Severity.Error, "replay-without-time", null, 1, $"{setting.Text}: the record has no times.", "It can't be replayed; take one with times."));
            receiver.Down("the record can't be replayed");
            return;
        }

        SayGaps(record, receiver);
        clock.Start(DateTimeOffset.FromUnixTimeMilliseconds((long)Math.Round(told[0] * 1000)), setting.Speed);
        receiver.Up(string.Create(CultureInfo.InvariantCulture, $"{setting.Path} is replayed at {setting.Speed:0.#} times"));
        await Play(record, receiver, cancellation);
        receiver.Down("the record has ended");
    }

    private async Task Play(FlightRecord record, ILiveReceiver receiver, CancellationToken cancellation)
    {
        var noChannels = new ChannelsAtFixes(record with { Channels = [] });
        var values = new ReplayValues(record);
        using var bytes = new MemoryStream();
        using var text = new InvariantWriter(bytes, "\r\n");
        values.WriteHeading(text);
        long? last = null;
        for (int i = 0; i < record.Count; i++)
        {
            if (InvariantWriter.Milliseconds(record.TimeS[i]) is not { } time || time == last) continue;
            last = time;
            await GiveValues(time / 1000.0);
            await Until(time / 1000.0, cancellation);
            NmeaWriter.WriteFix(record, i, time, noChannels, text);
            Give();
        }

        await GiveValues(double.MaxValue);

        async Task GiveValues(double upToS)
        {
            while (values.NextS <= upToS)
            {
                await Until(values.NextS, cancellation);
                values.WriteNext(text);
                Give();
            }
        }

        void Give()
        {
            text.Flush();
            receiver.Take(bytes.GetBuffer().AsSpan(0, (int)bytes.Length));
            bytes.SetLength(0);
        }
    }

    private async Task Until(double timeS, CancellationToken cancellation)
    {
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            double wait = (timeS - ArrivalTime.Now(clock)) / setting.Speed;
            if (wait <= 0) return;
            TimeSpan sleep = TimeSpan.FromSeconds(Math.Min(wait, s_longestSleep.TotalSeconds));
            await Task.Delay(sleep < TimeSpan.FromMilliseconds(1) ? TimeSpan.FromMilliseconds(1) : sleep, clock, cancellation);
        }
    }

    private void SayGaps(FlightRecord record, ILiveReceiver receiver)
    {
        int gaps = 0;
        double longest = 0;
        for (int i = 1; i < record.Count; i++)
        {
            double gap = record.TimeS[i] - record.TimeS[i - 1];
            if (gap > LongGapS) gaps++;
            if (gap > longest) longest = gap;
        }

        if (gaps > 0)
            receiver.Say(new Finding(Severity.Note, "replay-gap", null, gaps, string.Create(CultureInfo.InvariantCulture, $"{setting.Text}: the record has gaps of more than a minute, the longest {longest / 60:0} min."),
                string.Create(CultureInfo.InvariantCulture, $"They are kept: at this speed the longest takes {longest / setting.Speed:0} s in which nothing comes.")));
    }
}
