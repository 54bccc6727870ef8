using System.Globalization;
using System.Text;
using System.Xml;
using BenchmarkDotNet.Attributes;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Bench;

/// <summary>A day of 8 h at 10 Hz (288,000 fixes) read from memory, beside what a plain program would do with the same bytes.</summary>
[MemoryDiagnoser]
public class ReadingLongDay
{
    private byte[] _gpx = [], _nmea = [], _igc = [], _csv = [];

    [GlobalSetup]
    public void Fly()
    {
        FlightRecord day = Day(288_000);
        _gpx = Gpx(day);
        _nmea = Written(day, RecordFormat.Nmea);
        _igc = Written(day, RecordFormat.Igc);
        _csv = Written(day, RecordFormat.Csv);
    }

    /// <summary>Goal: at most 1.3 times <see cref="GpxWalk"/>.</summary>
    [Benchmark]
    public int GpxRead() => Read(_gpx);

    /// <summary>A bare XmlReader walk over the same bytes that parses nothing.</summary>
    [Benchmark]
    public int GpxWalk()
    {
        using var xml = XmlReader.Create(new MemoryStream(_gpx), new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit });
        int nodes = 0;
        while (xml.Read()) nodes++;
        return nodes;
    }

    /// <summary>Goal: at most 0.3 times <see cref="NmeaSplit"/>; every checksum is worked out.</summary>
    [Benchmark]
    public int NmeaRead() => Read(_nmea);

    /// <summary>ReadLine, Split and Parse of the same sentences, without a checksum.</summary>
    [Benchmark]
    public double NmeaSplit()
    {
        using var text = new StreamReader(new MemoryStream(_nmea));
        double sum = 0;
        while (text.ReadLine() is { } line)
        {
            string[] fields = line.Split(',', '*');
            bool rmc = fields[0].EndsWith("RMC", StringComparison.Ordinal);
            if (!rmc && !fields[0].EndsWith("GGA", StringComparison.Ordinal)) continue;
            foreach (int field in rmc ? s_rmcNumbers : s_ggaNumbers)
                if (double.TryParse(fields[field], NumberStyles.Float, CultureInfo.InvariantCulture, out double value)) sum += value;
        }

        return sum;
    }

    [Benchmark]
    public int IgcRead() => Read(_igc);

    [Benchmark]
    public int CsvRead() => Read(_csv);

    private static readonly int[] s_rmcNumbers = [1, 3, 5, 7, 8, 9], s_ggaNumbers = [1, 2, 4, 6, 7, 8, 9];

    private static int Read(byte[] content) => RecordReader.Read(new MemoryStream(content), "day").Count;

    internal static FlightRecord Day(int count)
    {
        var random = new Random(1);
        double[] Of(Func<int, double> value) => [.. Enumerable.Range(0, count).Select(value)];
        return new FlightRecord
        {
            Name = "day",
            Format = "simulated",
            TimeS = Of(i => 1_717_221_600 + i / 10.0),
            LatitudeDeg = Of(i => 46.6 + 0.01 * Math.Sin(i / 900.0) + random.NextDouble() * 1e-6),
            LongitudeDeg = Of(i => 8.0 + 0.01 * Math.Cos(i / 900.0) + random.NextDouble() * 1e-6),
            AltitudeM = Of(i => 1500 + 100 * Math.Sin(i / 700.0)),
            GroundSpeedMs = Of(i => 20 + 10 * Math.Sin(i / 300.0)),
            CourseDeg = Of(i => i * 0.1 % 360),
            SegmentStarts = [0],
        };
    }

    internal static byte[] Written(FlightRecord record, RecordFormat format)
    {
        using var stream = new MemoryStream();
        RecordWriter.Write(record, format, stream);
        return stream.ToArray();
    }

    /// <summary>GPX as common exporters indent it, an element a line.</summary>
    internal static byte[] Gpx(FlightRecord day)
    {
        using var stream = new MemoryStream();
        using var text = new StreamWriter(stream, new UTF8Encoding(false));
        text.Write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"bench\" xmlns=\"http://www.topografix.com/GPX/1/1\" xmlns:x=\"urn:x\">\n <trk>\n  <trkseg>\n");
        for (int i = 0; i < day.Count; i++)
        {
            string time = DateTime.UnixEpoch.AddSeconds(day.TimeS[i]).ToString("yyyy-MM-dd'T'HH:mm:ss.f'Z'", CultureInfo.InvariantCulture);
            text.Write(string.Create(CultureInfo.InvariantCulture,
                $"   <trkpt lat=\"{day.LatitudeDeg[i]:0.00000000}\" lon=\"{day.LongitudeDeg[i]:0.00000000}\">\n    <ele>{day.AltitudeM[i]:0.00}</ele>\n    <time>{time}</time>\n"));
            text.Write(string.Create(CultureInfo.InvariantCulture,
                $"    <extensions>\n     <x:speed>{day.GroundSpeedMs[i]:0.00}</x:speed>\n     <x:course>{day.CourseDeg[i]:0.0}</x:course>\n    </extensions>\n   </trkpt>\n"));
        }

        text.Write("  </trkseg>\n </trk>\n</gpx>\n");
        text.Flush();
        return stream.ToArray();
    }
}
