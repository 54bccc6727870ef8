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

    /// <summary>Names and addresses by which browsers reach the pages; other names are refused. Left empty, those of the certificate.</summary>
    public IReadOnlyList<string> Hosts { get; init; } = [];

    /// <summary>Most tries to sign in within a minute from one address. Own choice: a whole crew behind one router fits.</summary>
    public int TriesAnAddress { get; init; } = 10;

    /// <summary>Most tries to sign in within a minute under one name. Own choice, the same as wrong passwords before an account is locked.</summary>
    public int TriesAName { get; init; } = 5;

    /// <summary>Whether the pages are known by some name or address besides that of a proxy; without one nobody could open them.</summary>
    public bool IsReachable => Hosts.Count > 0 || (Proxies.Count == 0 && (!IsAnywhere || Certificate?.Extensions.OfType<X509SubjectAlternativeNameExtension>().Any() == true));

    /// <summary>The name or address to open in a browser: the first that was named, else the certificate's where the pages stand at every address.</summary>
    public string Shown => Hosts is [var first, ..] ? first : IsAnywhere && Certificate is not null ? Certificate.GetNameInfo(X509NameType.DnsName, forIssuer: false) : Address.Address.ToString();

    /// <summary>Whether a browser that asks for this host means these pages.</summary>
    /// <param name="host">Name or address as it stands in the request, without the port.</param>
    public bool Answers(string host)
    {
        ArgumentNullException.ThrowIfNull(host);
        string plain = host.Trim('[', ']');
        return Hosts.Contains(plain, StringComparer.OrdinalIgnoreCase)
            || (Proxies.Count == 0 && !IsAnywhere && IPAddress.TryParse(plain, out IPAddress? address) && address.Equals(Address.Address))
            || (Hosts.Count == 0 && Certificate is not null && Uri.CheckHostName(plain) != UriHostNameType.Unknown && Certificate.MatchesHostname(plain, allowCommonName: false));
    }

    private bool IsAnywhere => Address.Address.Equals(IPAddress.Any) || Address.Address.Equals(IPAddress.IPv6Any);
}
