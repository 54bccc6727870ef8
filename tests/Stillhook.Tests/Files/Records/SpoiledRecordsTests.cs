using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Records;

/// <summary>Good records spoiled: never an exception, and never fewer fixes without a finding.</summary>
public class SpoiledRecordsTests
{
    // Budgets of bytes read for each record, so that small ones are cut at every line and large ones at some.
    private const int CutBytes = 600_000, FlipBytes = 250_000;

    public static TheoryData<string> Records => [.. SharedRecords.Names];

    // Real record: a cut record holds the first fixes of the whole one, or says why not.
    [Theory, MemberData(nameof(Records))]
    public void Read_CutAnywhere_KeepsTheFirstFixesOrSaysSo(string name)
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        int whole = Read(content, name).Count;
        int cuts = Math.Clamp(CutBytes / content.Length, 6, 300);
        for (int i = 0; i < cuts; i++)
        {
            int at = (int)((long)content.Length * i / cuts);
            if (i % 2 == 1) at += content.AsSpan(at).IndexOf((byte)'\n') + 1; // every other cut is at a line's end
            FlightRecord cut = Read(content[..at], name);
            Assert.True(cut.Count <= whole);
            Assert.True(cut.Count > 0 || cut.Findings.Any(f => f.Severity == Severity.Error), $"cut {i}: no fix and no error");
        }
    }

    // Real record: one flipped byte; what gets lost is found.
    [Theory, MemberData(nameof(Records))]
    public void Read_FlippedByte_NeverSilentlyShorter(string name)
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        FlightRecord whole = Read(content, name);
        var random = new Random(content.Length);
        int flips = Math.Clamp(FlipBytes / content.Length, 3, 100);
        for (int i = 0; i < flips; i++)
        {
            int at = random.Next(content.Length);
            byte before = content[at];
            content[at] = (byte)random.Next(256);
            FlightRecord spoiled = Read(content, name);
            bool more = spoiled.Findings.Any(f => f.Severity > Severity.Note && !whole.Findings.Any(w => w.Code == f.Code && w.Count >= f.Count && w.Line == f.Line));
            Assert.True(spoiled.Count >= whole.Count || more, $"byte {at}: {before} to {content[at]}: {whole.Count} to {spoiled.Count} without a word");
            content[at] = before;
        }
    }

    // Real record: lines in a random order.
    [Theory, MemberData(nameof(Records))]
    public void Read_ShuffledLines_NeverThrows(string name)
    {
        string[] lines = File.ReadAllText(SharedRecords.PathOf(name), System.Text.Encoding.Latin1).Split('\n');
        var random = new Random(1);
        random.Shuffle(lines);
        FlightRecord record = Read(System.Text.Encoding.Latin1.GetBytes(string.Join('\n', lines)), name);
        Assert.True(record.Count > 0 || record.Findings.Any(f => f.Severity == Severity.Error));
    }

    // Real record: the byte scanner and the platform's XML reader find the same in every GPX file, whole and cut.
    [Theory, MemberData(nameof(Records))]
    public void ReadGpx_ByScannerAndByXmlReader_AreEqual(string name)
    {
        if (!name.EndsWith(".gpx", StringComparison.Ordinal) || name.Contains("utf16", StringComparison.Ordinal)) return;
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        for (int i = 1; i <= 10; i++)
        {
            byte[] part = content[..(content.Length * i / 10)];
            if (part.AsSpan().IndexOf("<gpx"u8) < 0) continue;
            FlightRecord scanned = Read(part, name), parsed = RecordReader.ReadGpxAsXml(new MemoryStream(part), name);
            Assert.Equal(parsed.TimeS, scanned.TimeS);
            Assert.Equal(parsed.LatitudeDeg, scanned.LatitudeDeg);
            Assert.Equal(parsed.LongitudeDeg, scanned.LongitudeDeg);
            Assert.Equal(parsed.AltitudeM, scanned.AltitudeM);
            Assert.Equal(parsed.GroundSpeedMs, scanned.GroundSpeedMs);
            Assert.Equal(parsed.CourseDeg, scanned.CourseDeg);
            Assert.Equal(parsed.SegmentStarts, scanned.SegmentStarts);
            Assert.Equal(parsed.WaypointCount, scanned.WaypointCount);
            Assert.Equal(parsed.Findings.Select(f => (f.Code, f.Count)), scanned.Findings.Select(f => (f.Code, f.Count)));
        }
    }

    private static FlightRecord Read(byte[] content, string name) => RecordReader.Read(new MemoryStream(content), Path.GetFileName(name));
}
