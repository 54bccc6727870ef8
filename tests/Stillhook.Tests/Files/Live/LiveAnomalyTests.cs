using Stillhook.Files.Live;
using Stillhook.Recording;
using Stillhook.Tests.Store.Anomaly;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <summary>The first, second, third ... read from a link or write of the journal fails, until everything goes through without the fault.</summary>
/// <remarks>Every expected value is simulated truth: what was sent.</remarks>
public sealed class LiveAnomalyTests : IDisposable
{
    private const int Messages = 6;
    private readonly string _root = Directory.CreateTempSubdirectory("stillhook-live").FullName;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public async Task Link_NthReadFails_IsSaidOnceAndTheRestArrives()
    {
        await Task.WhenAll(Enumerable.Range(1, Messages + 2).Select(async at =>
        {
            FaultPoint point = new(at);
            using var done = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
            var receiver = new Receiver();
            await new FailingLink(point, done).RunAsync(receiver, done.Token);
            Assert.Equal(at <= Messages, point.Hit);
            Assert.Equal(Enumerable.Range(0, Messages).Select(TimeS), receiver.Sink.Fixes.Select(f => f.Fix.TimeS));
            Assert.Equal(point.Hit ? 1 : 0, receiver.Said.Count);
            Assert.Equal(point.Hit ? ["The device is gone"] : [], receiver.Downs);
        }));
    }

    // A device that is always full stands in for the disk while the n-th piece is appended.
    [Fact]
    public void Journal_NthAppendFails_WhatWasAcknowledgedIsThere()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "needs /dev/full");
        for (int at = 0; at <= Messages; at++)
        {
            string root = Path.Combine(_root, $"{at}");
            List<Finding> found = [];
            List<byte> acknowledged = [];
            string folder;
            using (LiveJournal journal = LiveJournal.Open(root, [new() { Text = "a", Name = "a", Kind = LiveSourceKind.Udp }], TimeProvider.System, new LiveJournalOptions { RetryAfter = TimeSpan.Zero }, found.Add))
            {
                folder = journal.Folder;
                string raw = Path.Combine(folder, "a.dat"), aside = Path.Combine(root, "aside");
                for (int n = 0; n < Messages; n++)
                {
                    if (n == at)
                    {
                        File.Move(raw, aside);
                        File.CreateSymbolicLink(raw, "/dev/full");
                        journal.CloseFiles();
                    }

                    bool kept = journal.Append(0, Bytes(Rmc(n)), TimeS(n));
                    Assert.Equal(n != at, kept);
                    if (kept) acknowledged.AddRange(Bytes(Rmc(n)));
                    if (n != at) continue;
                    File.Delete(raw);
                    File.Move(aside, raw);
                }
            }

            Assert.Equal(acknowledged, LiveJournal.Read(folder).SelectMany(c => c.Bytes.ToArray()));
            var sink = new CollectingSink();
            LiveInput.Rebuild(folder, sink);
            Assert.Equal(Enumerable.Range(0, Messages).Where(n => n != at).Select(TimeS), sink.Fixes.Select(f => f.Fix.TimeS));
            Assert.Equal(at < Messages ? 1 : 0, found.Count(f => f.Code == "recording-failed"));
        }
    }

    private sealed class FailingLink(FaultPoint point, CancellationTokenSource done)
        : LinkSource(new LiveSourceSetting { Text = "a", Name = "a", Kind = LiveSourceKind.TcpClient }, new BackOff(new Random(1)), TimeProvider.System)
    {
        private int sent;

        protected override async Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation)
        {
            receiver.Up("up");
            for (; sent < Messages; sent++)
            {
                await Task.Yield();
                point.Pass(() => new IOException("The device is gone"));
                // A link that began anew may be in the middle of a line, so the rest of a line comes first, as it does on a wire.
                Got(receiver, Bytes(sent == 0 ? "half a line\r\n" : "\r\n", Rmc(sent)));
            }

            await done.CancelAsync();
            cancellation.ThrowIfCancellationRequested();
        }

        protected override Finding Explain(Exception failure) => Failed("link-failed", failure.Message, "Look.");
    }

    private sealed class Receiver : ILiveReceiver
    {
        private readonly SourceFeed _feed;
        private int _taken;

        public Receiver() => _feed = new SourceFeed(new LiveSourceSetting { Text = "a", Name = "a", Kind = LiveSourceKind.TcpClient }, new UtcOffset(), Sink, _ => { });

        public CollectingSink Sink { get; } = new();

        public List<Finding> Said { get; } = [];

        public List<string> Downs { get; } = [];

        public void Take(ReadOnlySpan<byte> bytes)
        {
            double at = TimeS(_taken++);
            _feed.Take(bytes, at);
            _feed.Tick(at + 0.09);
        }

        public void Up(string how) => _feed.Up(how, TimeS(_taken));

        public void Down(string why)
        {
            Downs.Add(why);
            _feed.Down(why, TimeS(_taken));
        }

        public void Say(Finding finding) => Said.Add(finding);
    }
}
