using System.IO.Compression;
using System.Text;
using Stillhook.Files.Records;
using Stillhook.Files.Records.Csv;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Records;

/// <summary>Inputs that are no good record: each has one clear finding, never an exception.</summary>
public class BadInputTests
{
    private const string Point = "<trkpt lat=\"46.5\" lon=\"8.1\"><ele>500</ele><time>2024-06-01T09:00:00Z</time></trkpt>";

    // Closed form: what is wrong was put there by hand; unusable inputs give no fix and exactly one error.
    [Theory]
    [InlineData("", "empty")]
    [InlineData("   \r\n\n", "empty")]
    [InlineData("hello there", "format-unknown")]
    [InlineData("<html><body>Sign in</body></html>", "not-gpx")]
    [InlineData("<gpx></gpx>", "no-fixes")]
    [InlineData("<!DOCTYPE gpx [<!ENTITY a \"b\">]><gpx><trk><trkseg>" + Point + "</trkseg></trk></gpx>", "dtd-refused")]
    [InlineData("ULog\u0001\u0012\u0035\u0001", "ulog-not-read")]
    [InlineData("time_s,roll_deg\n0,1\n1,2\n", "position-columns-missing")]
    [InlineData("AXXX\r\nHFDTE010624\r\n", "no-fixes")]
    [InlineData("$GPRMC,,V,,,,,,,,,,N*53\r\n", "no-fixes")]
    public void Read_Unusable_OneErrorAndNoFix(string content, string code)
    {
        FlightRecord record = Read(content);
        Assert.Equal(0, record.Count);
        Finding error = Assert.Single(record.Findings, f => f.Severity == Severity.Error);
        Assert.Equal(code, error.Code);
        Assert.NotEmpty(error.Done);
    }

    // Closed form: fixes that remain after a fault that was put there by hand.
    [Theory]
    [InlineData("<gpx><trk><trkseg>" + Point, 1, "file-cut")]
    [InlineData("<gpx><trk><trkseg>" + Point + "<trkpt lat=\"46.6\" l", 1, "file-cut")]
    [InlineData("<gpx><trk><trkseg>" + Point + "</trk></gpx>", 1, "xml-malformed")]
    [InlineData("<gpx><trk><trkseg>" + Point + "<name>&bomb;</name></trkseg></trk></gpx>", 1, "xml-malformed")]
    [InlineData("<gpx><trk><trkseg>" + Point + "</trkseg></trk></gpx>\n$GPRMC,1,A", 1, "two-formats-in-one")]
    [InlineData("<gpx><trk><trkseg>" + Point + "</trkseg></trk></gpx><gpx/>", 1, "two-formats-in-one")]
    [InlineData("<gpx><trk><trkseg>" + Point + "</trkseg></trk></gpx>", 1, "one-fix")]
    [InlineData("<gpx><trk><trkseg>" + Point + Point + "</trkseg></trk></gpx>", 2, "all-at-one-place")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\"><time>1980-01-06T00:00:00Z</time></trkpt></trkseg></trk></gpx>", 1, "clock-not-set")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\"><time>1970-01-01T00:00:09Z</time></trkpt></trkseg></trk></gpx>", 1, "clock-not-set")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\"/></trkseg></trk></gpx>", 1, "altitude-missing")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"NaN\" lon=\"2\"/>" + Point + "</trkseg></trk></gpx>", 1, "position-unreadable")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"91\" lon=\"200\"/>" + Point + Point + "</trkseg></trk></gpx>", 2, "position-out-of-range")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"151.2\" lon=\"-33.8\"/><trkpt lat=\"151.3\" lon=\"-33.7\"/></trkseg></trk></gpx>", 2, "latitude-longitude-swapped")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\"><ele>high</ele></trkpt></trkseg></trk></gpx>", 1, "value-unreadable")]
    [InlineData("lat,lon,alt_ft\n46.5,8.1,1000\n", 1, "altitude-in-feet")]
    [InlineData("lat,lon,alt\n46.5,8.1,NaN\n", 1, "value-nan")]
    [InlineData("lat,lon,alt\n46.5,8.1\n46.5,8.1,3\n", 1, "row-column-count")]
    [InlineData("lat,lon,alt\n46.5,8.1,3\n46.5,8.1,3\n46.6,8.1,3\n46.7,8.1,3\n$GPGGA,1,2,3,4,5\n", 4, "two-formats-in-one")]
    [InlineData("lat,lon,alt,mood\n46.5,8.1,3,good\n", 1, "column-not-used")]
    [InlineData("t_s,lat,lon\n0.5,46.5,8.1\n", 1, "date-missing")]
    [InlineData("time,lat,lon\n2024-06-01T09:00:02,46.5,8.1\n2024-06-01T09:00:01,46.6,8.1\n2024-06-01T09:00:00,46.7,8.1\n", 3, "newest-first")]
    [InlineData("AXXX\nHFDTE010624\nB1101355206343N00006198WA0058700558\nB11013\n", 1, "line-malformed")]
    [InlineData("AXXX\nHFDTE010624\nB1101355206343N00006198WA0058700558\n$GPRMC,,V,,,,,,,,,,N*53\n", 1, "two-formats-in-one")]
    [InlineData("AXXX\nB1101355206343N00006198WA0058700558\n", 1, "date-missing")]
    public void Read_Faulty_KeepsTheRestAndSaysSo(string content, int fixes, string code)
    {
        FlightRecord record = Read(content);
        Assert.Equal(fixes, record.Count);
        Assert.Contains(record.Findings, f => f.Code == code);
        Assert.DoesNotContain(record.Findings, f => f.Severity == Severity.Error);
    }

    // Closed form: exchanged back.
    [Fact]
    public void Read_LatitudeLongitudeSwapped_ExchangesThem()
    {
        FlightRecord record = Read("lat,lon\n151.2,-33.8\n151.3,-33.7\n");
        Assert.Equal([-33.8, -33.7], record.LatitudeDeg);
        Assert.Equal([151.2, 151.3], record.LongitudeDeg);
    }

    [Fact]
    public void ReadFile_Folder_OneError() => Assert.Equal("folder", Assert.Single(RecordReader.ReadFile(Path.GetTempPath()).Findings).Code);

    [Fact]
    public void ReadFile_Missing_OneError() => Assert.Equal("file-not-found", Assert.Single(RecordReader.ReadFile("/no/such/flight.gpx").Findings).Code);

    [Fact]
    public void Read_WrongExtension_IsReadWithANote()
    {
        FlightRecord record = RecordReader.Read(new MemoryStream(File.ReadAllBytes(SharedRecords.PathOf("igc/new_date_format.igc"))), "flight.gpx");
        Assert.Equal(107, record.Count); // Real record: EXPECTED.json
        Assert.Contains(record.Findings, f => f.Code == "wrong-extension" && f.Severity == Severity.Note);
    }

    // Real record: the packed file holds the same fixes as the plain one.
    [Fact]
    public void Read_GzipAndZip_SameFixesAsPlain()
    {
        byte[] plain = File.ReadAllBytes(SharedRecords.PathOf("gpx/d_base.gpx"));
        Assert.Equal(104, Unpack(Gzip(plain), "d_base.gpx.gz").Count);
        Assert.Equal(104, Unpack(Zip(("d_base.gpx", plain)), "d_base.zip").Count);
        FlightRecord several = Unpack(Zip(("readme.md", "nothing"u8.ToArray()), ("d_base.gpx", plain), ("more.gpx", plain)), "d.zip");
        Assert.Equal(104, several.Count);
        Assert.Contains("d_base.gpx", Assert.Single(several.Findings, f => f.Code == "several-in-archive").Done, StringComparison.Ordinal);
    }

    // Closed form: 100 MB of blanks deflate about a thousandfold, far over the limit of 250.
    [Fact]
    public void Read_PackedBomb_IsRefused()
    {
        byte[] blank = new byte[100 << 20];
        Array.Fill(blank, (byte)'\n');
        "lat,lon\n"u8.CopyTo(blank);
        foreach (byte[] packed in new[] { Gzip(blank), Zip(("bomb.csv", blank)) })
            Assert.Equal("expands-too-far", Assert.Single(Unpack(packed, "bomb").Findings, f => f.Severity == Severity.Error).Code);
    }

    [Fact]
    public void Read_CutGzip_NeverThrows()
    {
        byte[] packed = Gzip(File.ReadAllBytes(SharedRecords.PathOf("gpx/d_base.gpx")));
        for (int length = 0; length < packed.Length; length += 37) Assert.NotEmpty(Unpack(packed[..length], "cut.gz").Findings);
    }

    // Closed form: the same place and values in every spelling.
    [Theory]
    [InlineData("time_utc,lat_deg,lon_deg,alt_m,speed_kt,load_kg\n2024-06-01T09:00:00Z,46.5,-8.25,500,10,780\n")]
    [InlineData("\ufeffZeit utc;Latitude;Longitude;Altitude (m);GPS Speed [km/h];Load (kN)\r\n2024-06-01 09:00:00;46,5;-8,25;500;18,52;7,649187\r\n")]
    [InlineData("Date\tTime\tLat\tLng\tAlt (ft)\tSpeed (m/s)\tHook load (lb)\n01.06.2024\t09:00:00\t46°30'00\"N\t8°15'00\"W\t1640.419948\t5.144444\t1719.605645\n")]
    [InlineData("epoch_ms|lat|lon|alt_m|speed mph|load daN\n1717232400000|N46 30.0|W8 15.0|500|11.507794|764.9187\n")]
    [InlineData("# made by hand\n\"timestamp\",\"latitude\",\"longitude\",\"altitude, m\",\"vn_mps\",\"ve_mps\",\"load_n\"\n\"1717232400\",\"46.5\",\"-8.25\",\"500\",\"3.086667\",\"4.115556\",\"7649.187\"\n")]
    public void ReadCsv_AnySpelling_SameValues(string content)
    {
        FlightRecord record = Read(content);
        Assert.Equal(1_717_232_400, Assert.Single(record.TimeS), 0.0005);
        Assert.Equal(46.5, Assert.Single(record.LatitudeDeg), 1e-9);
        Assert.Equal(-8.25, Assert.Single(record.LongitudeDeg), 1e-9);
        Assert.Equal(500, Assert.Single(record.AltitudeM), 0.0001);
        Assert.Equal(5.144444, Assert.Single(record.GroundSpeedMs), 0.00001);
        Assert.Equal(780, Assert.Single(record.Find(ChannelKind.LoadKg)!.Value), 0.001);
    }

    // Closed form: 500 ft/min down is -2.54 m/s.
    [Theory, InlineData("lat,lon,climb_fpm\n1,2,-500\n"), InlineData("lat,lon,vd_mps\n1,2,2.54\n"), InlineData("lat,lon,vertical speed (ft/min)\n1,2,-500\n")]
    public void ReadCsv_VerticalSpeed_UpIsPositive(string content) => Assert.Equal(-2.54, Assert.Single(Read(content).ClimbMs), 1e-9);

    // Closed form: 1,000 ft are 304.8 m; start and 1.5 s.
    [Fact]
    public void ReadCsv_Mapping_GoesBeforeTheHeading()
    {
        var options = new RecordReadOptions
        {
            Columns = new Dictionary<string, CsvColumn> { ["a"] = new(CsvMeaning.Latitude), ["b"] = new(CsvMeaning.Longitude), ["c"] = new(CsvMeaning.Altitude, 0.3048) },
            StartUtc = DateTimeOffset.FromUnixTimeSeconds(1_717_232_400),
        };
        FlightRecord record = RecordReader.Read(new MemoryStream("t_s,a,b,c\n1.5,46.5,8.1,1000\n"u8.ToArray()), "x.csv", options);
        Assert.Equal([1_717_232_401.5], record.TimeS);
        Assert.Equal(304.8, Assert.Single(record.AltitudeM), 1e-9);
    }

    // Closed form: the hook opens in the second row.
    [Fact]
    public void ReadCsv_Event_GivesTheRelease() =>
        Assert.Equal([0, 1], Read("lat,lon,event\n1,2,closed\n1,2,RELEASE\n").Find(ChannelKind.HookOpen)!.Value);

    private static FlightRecord Read(string content) => RecordReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(content)), "flight");

    private static FlightRecord Unpack(byte[] packed, string name) => RecordReader.Read(new MemoryStream(packed), name);

    private static byte[] Gzip(byte[] plain)
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize, leaveOpen: true)) gzip.Write(plain);
        return packed.ToArray();
    }

    private static byte[] Zip(params (string Name, byte[] Content)[] files)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZipArchive(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach ((string name, byte[] content) in files)
            {
                using Stream entry = zip.CreateEntry(name).Open();
                entry.Write(content);
            }
        }

        return packed.ToArray();
    }
}
