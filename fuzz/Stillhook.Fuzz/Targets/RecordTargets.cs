using System.Text;
using Stillhook.Debriefing;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Fuzz.Targets;

/// <summary>The readers of flight records.</summary>
public static class RecordTargets
{
    private static readonly RecordReadOptions s_small = new() { LargestExpandedBytes = 8 << 20 };

    private static readonly string[] s_gpx =
    [
        "<gpx>", "</gpx>", "<trk>", "</trk>", "<trkseg>", "</trkseg>", "<trkpt lat=\"46.5\" lon=\"8.1\">", "</trkpt>", "<ele>", "</ele>", "<time>", "</time>", "<wpt ", "<rtept ", "<!--", "-->", "<![CDATA[", "]]>", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>", "<!DOCTYPE",
        "&amp;", "&#x41;", "&#99999999;", "<speed>", "<course>", "<extensions>", "2024-06-01T09:00:00Z", "2024-06-01T24:00:60.999+15:59", "lat=\"", "lon='", "/>", "1e308", "-0", "<s:climbMs>", "<pressureAltitudeM>", "<hookOpen>",
    ];

    private static readonly string[] s_igc =
    [
        "AXXX001\n", "HFDTE010624\n", "HFDTEDATE:160701,01\n", "I023638FXA3940SIU\n", "I013637LAD\n", "I033637LAD3839LOD4042TDS\n", "J010812HDT\n", "K110135123\n", "B1101355206343N00006198WA0058700558\n", "B2359599959999S17959999EV-0001-9999\n", "G1234\n", "LPLT\n", "E110135PEV\n", "XLD", "XPT", "GSP", "TRT", "XVS", "\r\n",
    ];

    private static readonly string[] s_nmea =
    [
        "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\n", "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\n", "$GNGNS,", "$GPVTG,054.7,T,034.4,M,005.5,N,010.2,K*48\n", "$GPZDA,201530.00,04,07,2002,00,00*60\n", "$GPGLL,4916.45,N,12311.12,W,225444,A*31\n", "$HCHDT,1.2,T\n", "$IIXDR,A,1,D,ROLL\n", "$WIXDR,N,7649,N,LOAD\n", ",A,", ",V,", "$", "*", "*00", "\r\n", "4807.038,N,", "\0",
    ];

    private static readonly string[] s_csv =
    [
        "time_utc,lat_deg,lon_deg,alt_m\n", "date;time;lat;lon;alt_ft\n", "t_s\tlat\tlon\n", "epoch_ms|lat|lon\n", "46.5,8.1,500\n", "2024-06-01T09:00:00Z,", "01.06.2024", "03/04/2024", "46°30'12.5\"N", "\"", "\"\"", ";", "\t", "|", "#", "NaN", "1e308", "-", "load_kn", "vd_mps", "hook", "release", "$GPGGA,", "speed_kt", "date", "lat 1e7", "lat_rad", "time_min", "time_ns",
    ];

    public static FuzzTarget Gpx { get; } = new("gpx", bytes => Read(bytes, "a.gpx", RecordText.Points), s_gpx);

    public static FuzzTarget GpxXml { get; } = new("gpx-xml", bytes => Rules.Whole(RecordReader.ReadGpxAsXml(new MemoryStream(bytes), "a.gpx")), [.. s_gpx, "encoding=\"utf-16\"", "encoding=\"latin1\"", "\ufeff"]);

    public static FuzzTarget Igc { get; } = new("igc", bytes => Read(bytes, "a.igc", RecordText.FixLines), s_igc);

    public static FuzzTarget Nmea { get; } = new("nmea", bytes => Read(bytes, "a.nmea", _ => 0), s_nmea);

    public static FuzzTarget Csv { get; } = new("csv", bytes => Read(bytes, "a.csv", RecordText.Rows), s_csv);

    public static FuzzTarget Packed { get; } = new("packed", bytes => Read(bytes, "a.zip", _ => 0), ["PK\u0003\u0004", "PK\u0001\u0002", "PK\u0005\u0006", "\u001f\u008b\u0008", "../", "a.gpx"]);

    public static FuzzTarget Debrief { get; } = new("debrief", Whole, [.. s_gpx[..12], .. s_igc[..12], .. s_nmea[..4], .. s_csv[..6]]);

    private static FlightRecord Read(byte[] bytes, string name, Func<byte[], int> pointsOf)
    {
        FlightRecord record = RecordReader.Read(new MemoryStream(bytes), name, s_small);
        Rules.Whole(record);
        if (record.Format != "unknown") Rules.NoneLostInSilence(record, pointsOf(bytes));
        return record;
    }

    // What can be read is followed to the end of the debrief.
    private static void Whole(byte[] bytes)
    {
        FlightRecord record = RecordReader.Read(new MemoryStream(bytes), "a", s_small);
        Rules.Whole(record);
        Debrief debrief = Debriefer.Debrief(record, new LiftSetup());
        Rules.Worded(debrief.Findings);
    }
}

/// <summary>How many points a text holds, counted apart from the readers and more simply.</summary>
public static class RecordText
{
    /// <summary>Track points of GPX that have both attributes and stand outside comments and character data.</summary>
    public static int Points(byte[] bytes)
    {
        string text = Encoding.Latin1.GetString(bytes);
        return text.Contains("<gpx", StringComparison.Ordinal) && !text.Contains('\0', StringComparison.Ordinal) ? text.Split("<trkpt ").Length - 1 : 0;
    }

    /// <summary>Lines that begin like a fix of a flight recorder and are long enough for one.</summary>
    public static int FixLines(byte[] bytes) => Lines(bytes).Count(l => l.Length >= 35 && l[0] == 'B' && l[1..7].All(char.IsAsciiDigit));

    /// <summary>Lines of a table that are neither blank nor a comment, without the first; quoted line ends are beyond this count.</summary>
    public static int Rows(byte[] bytes)
    {
        string[] lines = [.. Lines(bytes).Where(l => l.Trim(' ', '\t').Length > 0 && l[0] != '#')];
        return lines.Any(l => l.Contains('"', StringComparison.Ordinal)) || lines.Length < 2 ? 0 : lines.Skip(1).Count(l => l.Split([',', ';', '\t', '|']).All(c => c.Trim(' ', '\t').Length > 0));
    }

    private static IEnumerable<string> Lines(byte[] bytes) => Encoding.Latin1.GetString(bytes).Split('\n', '\r');
}
