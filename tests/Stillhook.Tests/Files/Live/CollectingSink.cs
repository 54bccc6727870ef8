using System.Diagnostics;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Live;

/// <summary>Keeps what it is given and can wait for it.</summary>
internal sealed class CollectingSink : ISampleSink
{
    private readonly Lock _gate = new();
    private readonly List<(string Source, FixSample Fix, double ArrivedS)> _fixes = [];
    private readonly List<(string Source, ChannelSample Sample, double ArrivedS)> _values = [];
    private readonly List<(string Source, bool Up, string Why)> _links = [];
    private readonly HashSet<int> _threads = [];

    public List<(string Source, FixSample Fix, double ArrivedS)> Fixes
    {
        get
        {
            lock (_gate) return [.. _fixes];
        }
    }

    public List<(string Source, ChannelSample Sample, double ArrivedS)> Values
    {
        get
        {
            lock (_gate) return [.. _values];
        }
    }

    public List<(string Source, bool Up, string Why)> Links
    {
        get
        {
            lock (_gate) return [.. _links];
        }
    }

    public int Threads
    {
        get
        {
            lock (_gate) return _threads.Count;
        }
    }

    public void Take(string source, in FixSample fix, double arrivedS)
    {
        lock (_gate)
        {
            _threads.Add(Environment.CurrentManagedThreadId);
            _fixes.Add((source, fix, arrivedS));
        }
    }

    public void Take(string source, in ChannelSample sample, double arrivedS)
    {
        lock (_gate)
        {
            _threads.Add(Environment.CurrentManagedThreadId);
            _values.Add((source, sample, arrivedS));
        }
    }

    public void Link(string source, bool up, string why, double atS)
    {
        lock (_gate)
        {
            _threads.Add(Environment.CurrentManagedThreadId);
            _links.Add((source, up, why));
        }
    }

    /// <summary>Waits until something holds; fails with a word after half a minute.</summary>
    public static async Task Until(Func<bool> holds, string what)
    {
        long began = Stopwatch.GetTimestamp();
        while (!holds())
        {
            Assert.True(Stopwatch.GetElapsedTime(began).TotalSeconds < 30, $"waited in vain for {what}");
            await Task.Delay(10, TestContext.Current.CancellationToken);
        }
    }
}
