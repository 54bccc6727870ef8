using System.Net;
using System.Net.Sockets;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Datagrams that come to a port of this machine.</summary>
internal sealed class UdpSource(LiveSourceSetting setting, BackOff backOff, TimeProvider clock) : LinkSource(setting, backOff, clock)
{
    private const int LargestDatagram = 65_536, KeptByTheSystem = 4 << 20; // bytes; the length of a datagram is told in 16 bits
    private const double SameTimeS = 5; // common practice, no source, as the 4 MB

    protected override async Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        var here = new IPEndPoint(IPAddress.Parse(Setting.Host), Setting.Port);
        using var socket = new Socket(here.AddressFamily, SocketType.Dgram, ProtocolType.Udp) { ReceiveBufferSize = KeptByTheSystem, ExclusiveAddressUse = true };
        socket.Bind(here);
        receiver.Up($"listening on {here}");
        byte[] buffer = new byte[LargestDatagram];
        SocketAddress from = new(here.AddressFamily), known = new(here.AddressFamily);
        long knownAt = 0;
        bool any = false, said = false;
        while (true)
        {
            int count;
            try
            {
                count = await socket.ReceiveFromAsync(buffer, SocketFlags.None, from, cancellation);
            }
            catch (SocketException e) when (e.SocketErrorCode is SocketError.ConnectionReset or SocketError.MessageSize)
            {
                continue; // an answer of ours went astray, which some systems tell the listener
            }

            if (!any || !from.Equals(known))
            {
                if (any && !said && Clock.GetElapsedTime(knownAt).TotalSeconds < SameTimeS)
                {
                    receiver.Say(new Finding(Severity.Warning, "two-senders", null, 1, $"{Setting.Text}: two programs or instruments send to this port at the same time.",
                        "Both are used as one source; give each a port of its own."));
                    said = true;
                }

                from.Buffer.CopyTo(known.Buffer);
                known.Size = from.Size;
                any = true;
            }

            knownAt = Clock.GetTimestamp();
            Got(receiver, buffer.AsSpan(0, count));
        }
    }

    protected override Finding Explain(Exception failure) => Ports.ExplainBinding(Setting, failure);
}
