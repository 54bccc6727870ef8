using System.Diagnostics;
using Stillhook.Files.Records;
using Stillhook.Fuzz.Targets;
using Stillhook.Recording;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.Files.Records;

/// <summary>Every kept record damaged in every way. No exception, findings worded, columns whole, nothing lost in silence, and soon done.</summary>
/// <remarks>A plain run takes a sample of each record within a budget of bytes; STILLHOOK_DAMAGE=all cuts at every line and every 100th byte.</remarks>
public class RecordDamageTests
{
    private const int PlainBytes = 2_500_000;

    public static TheoryData<string> Records => [.. SharedRecords.Names];

    // Real record: a cut inside the file is found where the format has an end or the cut is in a line; the first fixes are kept.
    [Theory, MemberData(nameof(Records))]
    public void Read_CutAtLinesAndEveryHundredthByte_SaysSo(string name)
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        FlightRecord whole = Read(content, name);
        List<int> lines = RecordDamages.LineEnds(content), hundreds = [.. Enumerable.Range(1, content.Length / 100).Select(i => i * 100)];
        bool AtLineEnd(int at) => content[at] is (byte)'\r' or (byte)'\n' || content[at - 1] is (byte)'\r' or (byte)'\n';
        foreach (int at in Sample(lines, content).Concat(Sample(hundreds, content)).Where(i => i < content.Length))
        {
            FlightRecord cut = Read(content[..at], name);
            Assert.True(cut.Count <= whole.Count || whole.Findings.Any(f => f.Severity > Severity.Note), $"{name} cut at {at}: more fixes than in the whole");
            if (cut.Count < whole.Count && (!AtLineEnd(at) || HasEnd(whole, content)))
                Assert.True(cut.Findings.Any(f => !whole.Findings.Any(w => w.Code == f.Code && w.Count == f.Count && w.Line == f.Line)), $"{name} cut at {at}: {cut.Count} of {whole.Count} without a word");
        }
    }

    // Real record.
    [Theory, MemberData(nameof(Records))]
    public void Read_Damaged_KeepsTheRules(string name)
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        var random = new Random(content.Length);
        for (int i = Damage.Times(1, 20); i > 0; i--)
            foreach ((string how, byte[] damaged) in RecordDamages.Kinds(content, random))
                if (Damage.All || content.Length < 300_000) Read(damaged, name, how);
    }

    // Real record: the dress changes nothing.
    [Theory, MemberData(nameof(Records))]
    public void Read_SameInOtherDress_SameFixes(string name)
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        FlightRecord whole = Read(content, name);
        foreach ((string how, byte[] dressed) in RecordDamages.SameInOtherDress(content))
            Assert.True(Read(dressed, name, how).LatitudeDeg.SequenceEqual(whole.LatitudeDeg), $"{name}, {how}");
    }

    // Real record: columns go by their headings, not by their place.
    [Fact]
    public void ReadCsv_ColumnsExchanged_SameRecord()
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf("csv/multirate_gnss_attitude_imu.csv"));
        FlightRecord whole = Read(content, "a.csv");
        var random = new Random(1);
        for (int i = Damage.Times(10, 20); i > 0; i--)
        {
            FlightRecord other = Read(RecordDamages.ColumnsExchanged(content, random), "a.csv");
            Assert.Equal(whole.LatitudeDeg, other.LatitudeDeg);
            Assert.Equal(whole.TimeS, other.TimeS);
        }
    }

    private static IEnumerable<int> Sample(List<int> places, byte[] content) => Damage.All ? places : RecordDamages.Some(places, Math.Clamp(PlainBytes / content.Length, 4, 60));

    // GPX closes its elements; a recorder with a maker's code signs an IGC file at its end.
    private static bool HasEnd(FlightRecord whole, byte[] content) => whole.Format == "GPX" && !whole.Findings.Any(f => f.Code is "file-cut" or "xml-malformed")
        || whole.Format == "IGC" && content.AsSpan().IndexOf("\nG"u8) > 0 && content[0] == 'A' && content[1] != 'X';

    // Common practice, no source: 10 s and 500 MB are what a person would wait for and a small machine has.
    private static FlightRecord Read(byte[] content, string name, string how = "cut")
    {
        long before = GC.GetAllocatedBytesForCurrentThread(), began = Stopwatch.GetTimestamp();
        try
        {
            FlightRecord record = RecordReader.Read(new MemoryStream(content), Path.GetFileName(name));
            Rules.Whole(record);
            Assert.InRange(Stopwatch.GetElapsedTime(began).TotalSeconds, 0, 10);
            Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 500_000_000);
            return record;
        }
        catch (Exception e) when (e is not Xunit.Sdk.XunitException)
        {
            throw new InvalidOperationException($"{name}, {how}, {content.Length} bytes", e);
        }
    }
}
