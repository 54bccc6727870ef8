using System.Net;
using System.Net.Sockets;

namespace Stillhook.Tests;

/// <summary>A port of the loopback address nobody has at this moment.</summary>
internal static class FreePort
{
    public static int Udp() => Free(SocketType.Dgram, ProtocolType.Udp);

    public static int Tcp() => Free(SocketType.Stream, ProtocolType.Tcp);

    private static int Free(SocketType type, ProtocolType protocol)
    {
        using var socket = new Socket(AddressFamily.InterNetwork, type, protocol);
        socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        return ((IPEndPoint)socket.LocalEndPoint!).Port;
    }
}
