using System.Net.Sockets;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>A connection this program makes to an instrument or a server.</summary>
internal sealed class TcpClientSource(LiveSourceSetting setting, BackOff backOff, TimeProvider clock) : LinkSource(setting, backOff, clock)
{
    private static readonly TimeSpan s_longestConnect = TimeSpan.FromSeconds(10); // common practice, no source

    protected override async Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        Ports.KeepAlive(socket);
        using (var limit = new CancellationTokenSource(s_longestConnect, Clock))
        using (var both = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, cancellation))
        {
            try
            {
                await socket.ConnectAsync(Setting.Host, Setting.Port, both.Token);
            }
            catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
            {
                throw new SocketException((int)SocketError.TimedOut);
            }
        }

        receiver.Up($"connected to {Setting.Host}:{Setting.Port}");
        byte[] buffer = new byte[65_536];
        while (await socket.ReceiveAsync(buffer, SocketFlags.None, cancellation) is > 0 and var count) Got(receiver, buffer.AsSpan(0, count));
    }

    protected override Finding Explain(Exception failure) => (failure as SocketException)?.SocketErrorCode switch
    {
        SocketError.ConnectionRefused => Failed("connection-refused", $"{Setting.Text}: nothing listens there: the connection was refused.", "Check that the instrument or server runs, and its port."),
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => Failed("host-unknown", $"{Setting.Text}: the name {Setting.Host} is not known to this machine.", "Check the spelling, or give the number of the address."),
        SocketError.TimedOut or SocketError.HostUnreachable or SocketError.NetworkUnreachable or SocketError.HostDown =>
            Failed("no-answer", $"{Setting.Text}: no answer from {Setting.Host}.", "Check that this machine is in the instrument's network, and the address."),
        _ => Failed("link-broken", $"{Setting.Text}: the connection broke: {failure.Message.TrimEnd('.')}.", "Check the network."),
    };
}
