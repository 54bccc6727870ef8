using System.Net.Sockets;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>A source with a link that may fail: it is tried again and again, and each cause is said once until it works again.</summary>
internal abstract class LinkSource(LiveSourceSetting setting, BackOff backOff, TimeProvider clock) : ILiveSource
{
    private string? _said;

    protected LiveSourceSetting Setting => setting;

    protected TimeProvider Clock => clock;

    public async Task RunAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                await ReceiveAsync(receiver, cancellation);
                receiver.Down("the other side ended the link");
            }
            catch (Exception) when (cancellation.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is IOException or SocketException or UnauthorizedAccessException or InvalidOperationException or ArgumentException or NotSupportedException or TimeoutException)
            {
                Finding finding = Explain(e);
                receiver.Down(finding.What);
                if (_said != finding.Code) receiver.Say(finding);
                _said = finding.Code;
            }

            await Task.Delay(backOff.Next(), clock, cancellation).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    /// <summary>Makes the link and receives; returns when the other side ended it, throws when it can't be made or breaks.</summary>
    protected abstract Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation);

    /// <summary>What a failure means, what was expected and how to mend it.</summary>
    protected abstract Finding Explain(Exception failure);

    /// <summary>Passes bytes on; the link works.</summary>
    protected void Got(ILiveReceiver receiver, ReadOnlySpan<byte> bytes)
    {
        backOff.Reset();
        _said = null;
        receiver.Take(bytes);
    }

    /// <summary>A failure that is tried again.</summary>
    public static Finding Failed(string code, string what, string mend) => new(Severity.Error, code, null, 1, what, mend + " It is tried again by itself.");
}
