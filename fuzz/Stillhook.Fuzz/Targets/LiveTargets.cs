using System.Text;
using Stillhook.Files.Live;
using Stillhook.Recording;

namespace Stillhook.Fuzz.Targets;

/// <summary>What comes over a live link, and the journal of it.</summary>
public static class LiveTargets
{
    public static FuzzTarget Link { get; } = new("live", Decode,
        ["$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n", "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\r\n", "$GPGLL,4916.45,N,12311.12,W,225444,A*31\r\n", "time,load_kg\n", "load_kg\n", "1830.5\n", "\u00fe", "\u00fd", "\u00fc", "\u00fb", "$", "*", "\r"]);

    public static FuzzTarget Journal { get; } = new("journal", Rebuild, ["stillhook live journal 1 [\"udp:10110\",\"udp:10110\"]\n", "\0\0\0\0"]);

    public static FuzzTarget SourceText { get; } = new("live-source", bytes =>
    {
        List<Finding> findings = [];
        LiveSourceSetting? setting = LiveSourceText.Parse(Encoding.UTF8.GetString(bytes), findings);
        Rules.Must(setting is not null || findings.Exists(f => f.Severity == Severity.Error), $"refused without a word");
        Rules.Must(setting is null or { Port: >= 0 and <= 65_535, Name.Length: > 0 }, $"{setting}");
    }, ["udp:", "tcp:", "tcp-listen:", "serial:", "file:", "replay:", "@9600", "name=", "columns=", "from=end", "[::1]", ":65536", "@1e308"], 256);

    // Bytes of 0xfb to 0xfe are commands of the trial: wait 0.2 s, wait 10 s, the link is lost, half a line is left out.
    private static void Decode(byte[] bytes)
    {
        foreach (LiveSourceKind kind in (LiveSourceKind[])[LiveSourceKind.Udp, LiveSourceKind.TcpClient])
        {
            var sink = new CheckingSink();
            List<Finding> found = [];
            var feed = new SourceFeed(new LiveSourceSetting { Text = "a", Name = "a", Kind = kind, Baud = 9600 }, new UtcOffset(), sink, found.Add);
            double now = 1_717_232_400;
            foreach (Range piece in Pieces(bytes))
            {
                ReadOnlySpan<byte> part = bytes.AsSpan()[piece];
                if (part.Length > 0 && part[0] is >= 0xfb and <= 0xfe)
                {
                    if (part[0] == 0xfb) now += 0.2;
                    else if (part[0] == 0xfc) now += 10;
                    else if (part[0] == 0xfd) feed.Down("lost", now);
                    else feed.Decoder.Cut();
                    feed.Tick(now);
                    part = part[1..];
                }

                if (part.Length > 0) feed.Take(part, now);
                now += 0.001;
            }

            feed.Decoder.End();
            Rules.Worded(found);
            Rules.Must(sink.Fixes == feed.Decoder.Fixes && sink.Values == feed.Decoder.Values, $"{sink.Fixes} fixes given, {feed.Decoder.Fixes} counted");
        }
    }

    private static List<Range> Pieces(byte[] bytes)
    {
        List<Range> pieces = [];
        int start = 0;
        for (int i = 1; i < bytes.Length; i++)
            if (bytes[i] is >= 0xfb and <= 0xfe) (pieces, start) = ([.. pieces, start..i], i);
        pieces.Add(start..bytes.Length);
        return pieces;
    }

    // The first two bytes say how many of the rest are the index; what follows is the raw file.
    private static void Rebuild(byte[] bytes)
    {
        int split = bytes.Length < 2 ? 0 : Math.Min(bytes.Length - 2, bytes[0] << 8 | bytes[1]);
        byte[] index = bytes.Length < 2 ? bytes : bytes[2..(2 + split)], raw = bytes.Length < 2 ? [] : bytes[(2 + split)..];
        using var folder = new FuzzFolder();
        File.WriteAllBytes(Path.Combine(folder.Path, "a.idx"), index);
        File.WriteAllBytes(Path.Combine(folder.Path, "a.dat"), raw);
        JournalChunk[] chunks = [.. LiveJournal.Read(folder.Path)];
        Rules.Must(chunks.SelectMany(c => c.Bytes.ToArray()).SequenceEqual(raw), $"the journal gives other bytes than it holds");
        List<LiveFinding> found = [];
        LiveInput.Rebuild(folder.Path, new CheckingSink(), found.Add);
        Rules.Worded([.. found.Select(f => f.Finding)]);
    }

    private sealed class CheckingSink : ISampleSink
    {
        public long Fixes { get; private set; }

        public long Values { get; private set; }

        public void Take(string source, in FixSample fix, double arrivedS)
        {
            Fixes++;
            Rules.Must(Math.Abs(fix.LatitudeDeg) <= 90 && Math.Abs(fix.LongitudeDeg) <= 180 && double.IsFinite(fix.TimeS), $"{fix}");
        }

        public void Take(string source, in ChannelSample sample, double arrivedS)
        {
            Values++;
            Rules.Must(double.IsFinite(sample.Value) && double.IsFinite(sample.TimeS), $"{sample}");
        }

        public void Link(string source, bool up, string why, double atS) => Rules.Must(why.Length > 0, $"a link {up} without a reason");
    }
}
