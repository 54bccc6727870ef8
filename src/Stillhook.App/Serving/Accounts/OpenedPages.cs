using System.Net;
using System.Security.Cryptography.X509Certificates;

namespace Stillhook.App.Serving;

/// <summary>The pages opened to a network: everybody signs in, and everything comes by HTTPS, of this program's own or of a proxy in front.</summary>
public sealed record OpenedPages
{
    /// <summary>Where the pages stand; nowhere else while they are opened.</summary>
    public required IPEndPoint Address { get; init; }

    /// <summary>Certificate with its key; null when a proxy does HTTPS.</summary>
    public X509Certificate2? Certificate { get; init; }

    /// <summary>Certificates between it and one that browsers know; they are sent along.</summary>
    public X509Certificate2Collection? Chain { get; init; }

    /// <summary>Proxies that do HTTPS in front. Nobody else is answered when there are some.</summary>
    public IReadOnlyList<IPAddress> Proxies { get; init; } = [];

    /// <summary>Most tries to sign in within a minute from one address. Own choice: a whole crew behind one router fits.</summary>
    public int TriesAnAddress { get; init; } = 10;

    /// <summary>Most tries to sign in within a minute under one name. Own choice, the same as wrong passwords before an account is locked.</summary>
    public int TriesAName { get; init; } = 5;
}
