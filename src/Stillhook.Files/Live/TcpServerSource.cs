using System.Net;
using System.Net.Sockets;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>A port of this machine an instrument connects to. One at a time: a new connection takes the place of the one before.</summary>
internal sealed class TcpServerSource(LiveSourceSetting setting, BackOff backOff, TimeProvider clock) : LinkSource(setting, backOff, clock)
{
    protected override async Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        var here = new IPEndPoint(IPAddress.Parse(Setting.Host), Setting.Port);
        using var listener = new Socket(here.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        if (!OperatingSystem.IsWindows()) listener.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.ReuseAddress, true); // else a port just left is refused for a minute
        listener.Bind(here);
        listener.Listen();
        receiver.Down($"waiting for a connection on {here}");
        Task<Socket> next = listener.AcceptAsync(cancellation).AsTask();
        Socket? client = null;
        try
        {
            while (true)
            {
                client = await next;
                next = listener.AcceptAsync(cancellation).AsTask();
                await ReceiveUntilReplaced(client, next, receiver, cancellation);
                client.Dispose();
            }
        }
        finally
        {
            client?.Dispose();
        }
    }

    private async Task ReceiveUntilReplaced(Socket client, Task<Socket> next, ILiveReceiver receiver, CancellationToken cancellation)
    {
        using var replaced = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        _ = next.ContinueWith(_ => Replace(replaced), CancellationToken.None, TaskContinuationOptions.OnlyOnRanToCompletion, TaskScheduler.Default);
        byte[] buffer = new byte[65_536];
        try
        {
            Ports.KeepAlive(client);
            receiver.Up($"connected from {client.RemoteEndPoint}");
            while (await client.ReceiveAsync(buffer, SocketFlags.None, replaced.Token) is > 0 and var count) Got(receiver, buffer.AsSpan(0, count));
            receiver.Down("the other side ended the connection");
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            receiver.Down("another connection took its place");
            receiver.Say(new Finding(Severity.Note, "connection-replaced", null, 1, $"{Setting.Text}: a second connection came while the first one stood.",
                "The newer one counts; give each instrument a port of its own."));
        }
        catch (SocketException e)
        {
            receiver.Down($"the connection broke: {e.Message}");
        }
    }

    private static void Replace(CancellationTokenSource replaced)
    {
        try
        {
            replaced.Cancel();
        }
        catch (ObjectDisposedException)
        {
            // the connection had ended before
        }
    }

    protected override Finding Explain(Exception failure) => Ports.ExplainBinding(Setting, failure);
}
