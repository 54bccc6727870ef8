using System.Text;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Records;

/// <summary>What the fuzzer found in texts of another encoding and in the words of findings.</summary>
public class UndecodableTests
{
    // Half of a surrogate pair: the platform's reader decodes the first characters before it is asked to read, and threw there.
    [Fact]
    public void Read_Utf16WithHalfAPair_OneErrorAndItsLine()
    {
        byte[] text = [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes("<gpx><trk>"), 0x00, 0xd8, .. Encoding.Unicode.GetBytes("</trk></gpx>")];
        FlightRecord record = RecordReader.Read(new MemoryStream(text), "a.gpx");
        Assert.Equal(0, record.Count);
        Assert.Contains(record.Findings, f => f.Severity > Severity.Note && f.Line >= 1);
    }

    // An escape sequence of a terminal in a heading; and a heading of a megabyte.
    [Fact]
    public void Read_ControlCharactersInAHeading_DontReachTheTerminal()
    {
        FlightRecord record = RecordReader.Read(new MemoryStream(Encoding.UTF8.GetBytes("lat,lon,\u001b[2Jx\u009b" + new string('y', 1_000_000) + "\n46,8,1\n46.1,8,1\n")), "a.csv");
        Finding unused = Assert.Single(record.Findings, f => f.Code == "column-not-used");
        Assert.DoesNotContain(unused.What, char.IsControl);
        Assert.InRange(unused.What.Length, 10, 200);
    }
}
