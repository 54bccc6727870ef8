using System.Net.Sockets;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Ports of this machine and connections to them.</summary>
internal static class Ports
{
    private const int QuietS = 10, BetweenProbesS = 5, Probes = 3; // common practice, no source

    /// <summary>Finds out within half a minute that the other side is gone without a word, such as by a loss of power.</summary>
    public static void KeepAlive(Socket socket)
    {
        socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime, QuietS);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval, BetweenProbesS);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount, Probes);
    }

    /// <summary>Why a port can't be listened on.</summary>
    public static Finding ExplainBinding(LiveSourceSetting setting, Exception failure) => (failure as SocketException)?.SocketErrorCode switch
    {
        SocketError.AddressAlreadyInUse => LinkSource.Failed("port-in-use", $"{setting.Text}: port {setting.Port} is used by another program.", "End that program, or send to another port and name that one here."),
        SocketError.AccessDenied => LinkSource.Failed("port-refused", $"{setting.Text}: this system does not let a program of this user have port {setting.Port}.", "Use a port from 1024 on."),
        SocketError.AddressNotAvailable => LinkSource.Failed("address-not-here", $"{setting.Text}: this machine has no address {setting.Host}.", "Name an address of this machine, or leave it away for this machine only."),
        _ => LinkSource.Failed("port-failed", $"{setting.Text}: the port can't be read: {failure.Message.TrimEnd('.')}.", "Check the network of this machine."),
    };
}
