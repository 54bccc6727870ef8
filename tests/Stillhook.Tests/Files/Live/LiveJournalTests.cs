using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Recording;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Where a case says no other kind, its expected values are simulated truth: what was appended, and when.</remarks>
public sealed class LiveJournalTests : IDisposable
{
    private static readonly LiveSourceSetting[] s_sources = [Named("udp:10110"), Named("load")];
    private static readonly DateTimeOffset s_start = DateTimeOffset.FromUnixTimeSeconds((long)Nine);

    private readonly string _root = Directory.CreateTempSubdirectory("stillhook-journal").FullName;
    private readonly SetClock _clock = new(s_start);
    private readonly List<Finding> _found = [];

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public void Read_TwoSources_ComeBackInOrderOfArrival()
    {
        using LiveJournal journal = Open();
        journal.MarkLink(0, up: true, Nine);
        journal.Append(0, Bytes(Rmc(0))[..20], Nine + 0.1);
        journal.Append(1, Bytes(Load(700)), Nine + 0.2);
        journal.Append(0, Bytes(Rmc(0))[20..], Nine + 0.3);
        journal.MarkLink(0, up: false, Nine + 9);
        JournalChunk[] chunks = [.. LiveJournal.Read(journal.Folder)]; // while it is open
        Assert.Equal([("udp:10110", Nine, true), ("udp:10110", Nine + 0.1, null), ("load", Nine + 0.2, null), ("udp:10110", Nine + 0.3, null), ("udp:10110", Nine + 9, (bool?)false)],
            chunks.Select(c => (c.Source, c.ArrivedS, c.LinkUp)));
        Assert.Equal(Bytes(Rmc(0)), chunks[1].Bytes.ToArray().Concat(chunks[3].Bytes.ToArray()));
        Assert.False(journal.Resumed);
    }

    [Fact]
    public void RawFile_OfAJournal_IsReadAsARecord()
    {
        using LiveJournal journal = Open();
        for (int n = 0; n < 60; n++) journal.Append(0, Bytes(Rmc(n), Gga(n)), TimeS(n));
        FlightRecord record = RecordReader.ReadFile(Path.Combine(journal.Folder, "udp-10110.dat"));
        Assert.Equal(60, record.Count);
        Assert.DoesNotContain(record.Findings, f => f.Severity > Severity.Note);
    }

    // Common practice, no source: 30 min.
    [Theory]
    [InlineData(29, true)]
    [InlineData(31, false)]
    public void Open_LastByteYoung_GoesOnInTheSameFolder(double minutes, bool same)
    {
        string folder = Keep(3);
        _clock.Now += TimeSpan.FromMinutes(minutes);
        using LiveJournal next = Open();
        Assert.Equal((same, same), (next.Resumed, next.Folder == folder));
        next.Append(0, Bytes(Rmc(9)), Nine + minutes * 60);
        Assert.Equal(same ? 4 : 1, LiveJournal.Read(next.Folder).Count(c => c.Bytes.Length > 0));
        Assert.Equal(same ? 1 : 0, LiveJournal.Read(next.Folder).Count(c => c.LinkUp == false)); // where the run before ended
    }

    // The end of an index as a loss of power may leave it: half an entry, a changed byte, zeros; and raw bytes no entry tells of.
    [Theory]
    [InlineData("half")]
    [InlineData("changed")]
    [InlineData("zeros")]
    public void Open_TornIndex_DropsNoByteOfTheRawFile(string how)
    {
        string folder = Keep(5), index = Path.Combine(folder, "udp-10110.idx");
        byte[] whole = File.ReadAllBytes(index);
        byte[] torn = how switch { "half" => whole[..^17], "zeros" => [.. whole, .. new byte[72]], _ => [.. whole[..^5], (byte)(whole[^5] ^ 1), .. whole[^4..]] };
        File.WriteAllBytes(index, torn);
        File.AppendAllText(Path.Combine(folder, "udp-10110.dat"), Rmc(5)[..25]);
        using (LiveJournal next = Open())
        {
            Assert.True(next.Resumed);
            next.Append(0, Bytes(Rmc(6)), Nine + 6);
        }

        byte[] expected = Bytes(Enumerable.Range(0, 5).Select(Rmc).Append(Rmc(5)[..25]).Append(Rmc(6)));
        Assert.Equal(expected, LiveJournal.Read(folder).SelectMany(c => c.Bytes.ToArray()));
        Assert.Equal(expected, File.ReadAllBytes(Path.Combine(folder, "udp-10110.dat")));
        Assert.Equal(Nine + 6, LiveJournal.Read(folder).Last().ArrivedS);
    }

    // An index that reached the disk before its bytes did: what comes later has its own time.
    [Fact]
    public void Open_RawFileShorterThanItsIndex_LaterBytesKeepTheirTime()
    {
        string folder = Keep(5), raw = Path.Combine(folder, "udp-10110.dat");
        byte[] left = File.ReadAllBytes(raw)[..^(Rmc(4).Length + Rmc(3).Length / 2)];
        File.WriteAllBytes(raw, left);
        using (LiveJournal next = Open()) next.Append(0, Bytes(Rmc(6), Rmc(7)), Nine + 6);
        JournalChunk[] chunks = [.. LiveJournal.Read(folder).Where(c => c.Bytes.Length > 0)];
        Assert.Equal([TimeS(0), TimeS(1), TimeS(2), TimeS(3), Nine + 6], chunks.Select(c => c.ArrivedS));
        Assert.Equal(Bytes(Rmc(6), Rmc(7)), chunks[^1].Bytes.ToArray());
        Assert.Equal(left, chunks[..^1].SelectMany(c => c.Bytes.ToArray()));
    }

    [Fact]
    public void Read_IndexWithoutItsRawFile_GivesTheOtherSources()
    {
        string folder = Keep(2);
        File.Delete(Path.Combine(folder, "load.dat"));
        Assert.Equal(Bytes(Rmc(0), Rmc(1)), LiveJournal.Read(folder).SelectMany(c => c.Bytes.ToArray()));
    }

    [Fact]
    public void Open_HeldByAnotherRun_BeginsAFolderOfItsOwn()
    {
        using LiveJournal first = Open();
        first.Append(0, Bytes(Rmc(0)), Nine);
        using LiveJournal second = Open();
        Assert.NotEqual(first.Folder, second.Folder);
        Assert.False(second.Resumed);
    }

    // Without a further byte: by the timer alone.
    [Fact]
    public async Task Append_LittleArrives_IsBroughtOntoTheDisk()
    {
        using LiveJournal journal = LiveJournal.Open(_root, s_sources, TimeProvider.System);
        await CollectingSink.Until(() => !journal.Unflushed, "the heads of the index");
        journal.Append(0, Bytes(Rmc(0)), Nine);
        Assert.True(journal.Unflushed);
        await CollectingSink.Until(() => !journal.Unflushed, "the sentence");
        Assert.True(new LiveJournalOptions().FlushEvery < TimeSpan.FromSeconds(1));
    }

    // A device that is always full stands for a full disk.
    [Fact]
    public void Append_DiskFull_IsSaidOnceAndTriedAgain()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "needs /dev/full");
        using LiveJournal journal = LiveJournal.Open(_root, s_sources, TimeProvider.System, new LiveJournalOptions { RetryAfter = TimeSpan.Zero }, _found.Add);
        Assert.True(journal.Append(0, Bytes(Rmc(0)), Nine));
        string raw = Path.Combine(journal.Folder, "load.dat");
        File.Delete(raw);
        File.CreateSymbolicLink(raw, "/dev/full");
        journal.CloseFiles(); // as a write that fails does
        Assert.False(journal.Append(1, Bytes(Load(1)), Nine + 1));
        Assert.True(journal.Failing);
        journal.Append(1, Bytes(Load(1)), Nine + 1.5);
        Finding failed = Assert.Single(_found, f => f.Code == "recording-failed");
        Assert.Contains(journal.Folder, failed.What, StringComparison.Ordinal);
        File.Delete(raw);
        Assert.True(journal.Append(0, Bytes(Rmc(2)), Nine + 2));
        Assert.False(journal.Failing);
        Assert.Contains(_found, f => f.Code == "recording-again");
        Assert.Equal(Bytes(Rmc(0), Rmc(2)), LiveJournal.Read(journal.Folder).Where(c => c.Source == "udp:10110").SelectMany(c => c.Bytes.ToArray()));
    }

    // '1831.5' is lost from its third digit on, and '1832.5' up to its third: the halves are no load.
    [Fact]
    public void Rebuild_DiskWasFullInTheMiddleOfALine_NothingIsJoinedOverTheGap()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "needs /dev/full");
        LiveSourceSetting load = Named("load") with { Text = "file:loads.csv columns=load_kg", Kind = LiveSourceKind.File };
        using LiveJournal journal = LiveJournal.Open(_root, [load], TimeProvider.System, new LiveJournalOptions { RetryAfter = TimeSpan.Zero }, _found.Add);
        journal.Append(0, Bytes("1830.5\n18"), Nine);
        string raw = Path.Combine(journal.Folder, "load.dat"), aside = Path.Combine(_root, "aside");
        File.Move(raw, aside);
        File.CreateSymbolicLink(raw, "/dev/full");
        journal.CloseFiles();
        Assert.False(journal.Append(0, Bytes("31.5\n18"), Nine + 1));
        File.Delete(raw);
        File.Move(aside, raw);
        Assert.True(journal.Append(0, Bytes("32.5\n1833.5\n"), Nine + 2));
        Assert.Contains("7 bytes", Assert.Single(_found, f => f.Code == "recording-again").Done, StringComparison.Ordinal);
        var sink = new CollectingSink();
        LiveInput.Rebuild(journal.Folder, sink);
        Assert.Equal([1830.5, 1833.5], sink.Values.Select(v => v.Sample.Value));
    }

    [Fact]
    public void Names_OfSources_AreFileNamesAndDiffer()
    {
        LiveSourceSetting[] alike = [Named("serial:/dev/ttyUSB0@9600"), Named("serial:-dev-ttyUSB0@9600"), Named("..")];
        using LiveJournal journal = LiveJournal.Open(_root, alike, _clock);
        Assert.Equal(["serial--dev-ttyUSB0-9600.dat", "serial--dev-ttyUSB0-9600-2.dat", "source.dat"],
            Directory.GetFiles(journal.Folder, "*.dat").Select(Path.GetFileName).OrderBy(n => n!.Contains("-2", StringComparison.Ordinal) ? 1 : n == "source.dat" ? 2 : 0));
    }

    private string Keep(int count)
    {
        using LiveJournal journal = Open();
        for (int n = 0; n < count; n++) journal.Append(0, Bytes(Rmc(n)), TimeS(n));
        return journal.Folder;
    }

    private LiveJournal Open() => LiveJournal.Open(_root, s_sources, _clock, found: _found.Add);

    private static LiveSourceSetting Named(string name) => new() { Text = name, Name = name, Kind = LiveSourceKind.Udp };
}
