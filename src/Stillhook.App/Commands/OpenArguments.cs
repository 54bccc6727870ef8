using System.CommandLine;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary>How the pages are opened to a network: where, and who does HTTPS.</summary>
internal sealed class OpenArguments
{
    /// <summary>Environment variable that holds the certificate's password; an argument could be read by everybody on the machine.</summary>
    public const string PasswordVariable = "STILLHOOK_CERTIFICATE_PASSWORD";

    private readonly Option<string?> open = new("--open") { Description = "Opens the pages to the network at this address of this machine, such as 192.168.1.20:5443, and nowhere else; needs an account and HTTPS", HelpName = "ADDRESS:PORT" };
    private readonly Option<FileInfo?> certificate = new("--certificate") { Description = $"Certificate with its key for HTTPS; its password comes from {PasswordVariable} or a file", HelpName = "FILE.pfx" };
    private readonly Option<FileInfo?> passwordFile = new("--certificate-password-file") { Description = "File whose first line is the certificate's password", HelpName = "FILE" };
    private readonly Option<string?> proxy = new("--proxy-https") { Description = "States that a proxy in front does HTTPS; its address, or this machine's own when left out. Nobody else is answered then", HelpName = "ADDRESS", Arity = ArgumentArity.ZeroOrOne };

    private readonly Option<string[]> host = new("--host") { Description = "Name or address by which browsers reach the opened pages; other names are refused. May be given several times; with a certificate its own names stand when left out", HelpName = "NAME" };

    public void AddTo(Command command)
    {
        foreach (Option option in (Option[])[open, host, certificate, passwordFile, proxy])
            command.Options.Add(option);
    }

    /// <summary>Reads how the pages are opened; null when they stay on this machine. False, with what to do instead, when that can't be done safely.</summary>
    public bool TryRead(ParseResult arguments, WorkStore store, out OpenedPages? opened, out string problem)
    {
        opened = null;
        problem = "";
        bool hasProxy = arguments.GetResult(proxy) is not null;
        FileInfo? file = arguments.GetValue(certificate);
        if (arguments.GetValue(open) is not { } text)
        {
            problem = hasProxy || file is not null || arguments.GetValue(passwordFile) is not null || arguments.GetResult(host) is not null ? "--certificate, --proxy-https and --host belong to --open ADDRESS:PORT; name the address too, or leave them out." : "";
            return problem.Length == 0;
        }
        if (!IPEndPoint.TryParse(text, out IPEndPoint? address) || address.Port == 0)
            problem = $"--open '{text}' is no address with a port; type one of this machine's addresses, such as 192.168.1.20:5443.";
        else if (!store.HasAccounts())
            problem = "--open needs at least one account; make one first with: stillhook account add NAME --role planner";
        else if (file is null && !hasProxy)
            problem = "--open needs HTTPS: name a certificate with --certificate FILE.pfx, or state with --proxy-https that a proxy in front does it.";
        else if (file is not null && hasProxy)
            problem = "--certificate and --proxy-https exclude each other; name the one that does HTTPS.";
        else if (hasProxy)
            opened = Behind(address, arguments.GetValue(proxy), out problem);
        else if (Load(file!, arguments.GetValue(passwordFile), out problem) is { } loaded)
            opened = new() { Address = address, Certificate = loaded.Own, Chain = loaded.Chain };
        string[] hosts = [.. (arguments.GetValue(host) ?? []).Select(h => h.Trim('[', ']'))];
        opened = opened is null ? null : opened with { Hosts = hosts };
        if (hosts.FirstOrDefault(h => Uri.CheckHostName(h) == UriHostNameType.Unknown) is { } wrong)
            (opened, problem) = (null, $"--host '{wrong}' is no name or address; type it as it stands in a browser between https:// and the port, such as stillhook.example.");
        else if (opened is { IsReachable: false })
            (opened, problem) = (null, "--open needs the name by which browsers reach the pages, so that others can be refused; add --host NAME, such as --host stillhook.example.");
        return opened is not null;
    }

    private static OpenedPages? Behind(IPEndPoint address, string? text, out string problem)
    {
        problem = "";
        if (string.IsNullOrEmpty(text))
            return new() { Address = address, Proxies = [IPAddress.Loopback, IPAddress.IPv6Loopback] };
        if (IPAddress.TryParse(text, out IPAddress? proxy))
            return new() { Address = address, Proxies = [proxy] };
        problem = $"--proxy-https '{text}' is no address; type the proxy's, such as 192.168.1.5, or leave it out where it runs on this machine.";
        return null;
    }

    private static (X509Certificate2 Own, X509Certificate2Collection Chain)? Load(FileInfo file, FileInfo? passwordFile, out string problem)
    {
        if (!file.Exists)
        {
            problem = $"--certificate {file.Name} is not there; name a PFX file that holds a certificate with its key.";
            return null;
        }
        problem = "";
        try
        {
            string? password = passwordFile is null ? Environment.GetEnvironmentVariable(PasswordVariable) : File.ReadLines(passwordFile.FullName).FirstOrDefault();
            X509Certificate2Collection all = X509CertificateLoader.LoadPkcs12CollectionFromFile(file.FullName, password);
            X509Certificate2? own = all.FirstOrDefault(c => c.HasPrivateKey);
            if (own is not null && own.NotAfter > TimeProvider.System.GetLocalNow().DateTime)
            {
                all.Remove(own);
                return (own, all);
            }
            problem = own is not null
                ? FormattableString.Invariant($"--certificate {file.Name} ran out on {own.NotAfter:yyyy-MM-dd}; name one that is valid.")
                : $"--certificate {file.Name} holds no certificate with its private key; name a PFX file that holds both.";
        }
        catch (CryptographicException e)
        {
            problem = $"--certificate {file.Name} can't be opened: {e.Message.TrimEnd('.')}. Its password is taken from {PasswordVariable} or --certificate-password-file.";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            problem = $"--certificate {file.Name} can't be read: {e.Message}";
        }
        return null;
    }
}
