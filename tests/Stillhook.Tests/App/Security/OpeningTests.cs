using System.Diagnostics;
using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>Where the program listens, and what it needs before it does so on a network.</summary>
public sealed class OpeningTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    [Tried("reaching a program that was not told otherwise by this machine's other addresses", "nobody listens there")]
    public async Task NotOpened_ListensOnLoopbackAlone()
    {
        await using ClosedSite closed = await ClosedSite.Start();
        Assert.All(closed.Addresses, a => Assert.True(new Uri(a).IsLoopback, a));
        IPAddress[] others = [.. NetworkInterface.GetAllNetworkInterfaces().SelectMany(n => n.GetIPProperties().UnicastAddresses).Select(a => a.Address).Where(a => a.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(a))];
        foreach (IPAddress other in others)
        {
            using TcpClient link = new();
            await Assert.ThrowsAnyAsync<SocketException>(async () => await link.ConnectAsync(other, closed.Address.Port, TestContext.Current.CancellationToken));
        }
    }

    [Theory]
    [InlineData("evil.example"), InlineData("127.0.0.1.evil.example"), InlineData("localhost.evil.example"), InlineData("192.168.1.20")]
    [Tried("a name of another site that was made to point at this machine (`Host: evil.example`)", "refused (400)")]
    public async Task NotOpened_OtherHostName_IsRefused(string host)
    {
        await using ClosedSite closed = await ClosedSite.Start();
        using HttpClient client = new() { BaseAddress = closed.Address };
        using HttpRequestMessage asked = new(HttpMethod.Get, "/jobs") { Headers = { Host = host } };
        using HttpResponseMessage answer = await client.SendAsync(asked, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Theory]
    [InlineData("stillhook.example", "", true), InlineData("STILLHOOK.example", "", true), InlineData("192.0.2.7", "", true), InlineData("127.0.0.1", "", true), InlineData("a.crew.example", "", true)]
    [InlineData("evil.example", "", false), InlineData("stillhook.example.evil.example", "", false), InlineData("a.b.crew.example", "", false), InlineData("192.168.1.20", "", false), InlineData("localhost", "", false), InlineData("evil_example", "", false)]
    [InlineData("ridge.example", "ridge.example", true), InlineData("127.0.0.1", "ridge.example", true), InlineData("stillhook.example", "ridge.example", false)]
    [Tried("a program opened to a network by another name than those of its certificate, or than the one it was told (`--host`)", "refused (400); its own address is answered too, unless a proxy stands in front")]
    public async Task Opened_OtherHostName_IsRefused(string host, string told, bool answered)
    {
        SubjectAlternativeNameBuilder names = new();
        names.AddDnsName("stillhook.example");
        names.AddDnsName("*.crew.example");
        names.AddIpAddress(IPAddress.Parse("192.0.2.7"));
        using X509Certificate2 named = OpenedSite.Certificate(names);
        await using OpenedSite site = await OpenedSite.Start(o => o with { Certificate = named, Hosts = told.Length > 0 ? [told] : [] });
        using HttpClient client = new(new SocketsHttpHandler { SslOptions = new() { RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == named.GetCertHashString() } });
        using HttpRequestMessage asked = new(HttpMethod.Get, new Uri(site.Address, "/sign-in")) { Headers = { Host = host } };
        using HttpResponseMessage answer = await client.SendAsync(asked, TestContext.Current.CancellationToken);
        Assert.Equal(answered ? HttpStatusCode.OK : HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Fact]
    [Tried("a program behind a proxy by another name than it was told, and past its own address; the ground page by a name that was made to point at it", "refused (400)")]
    public async Task BehindProxyAndGroundPage_OtherHostName_IsRefused()
    {
        await using OpenedSite site = await OpenedSite.Start(o => new() { Address = o.Address, Proxies = [IPAddress.Loopback], Hosts = ["stillhook.example"] });
        Assert.Equal(HttpStatusCode.OK, await Ask(site.Address, "/sign-in", "stillhook.example"));
        Assert.Equal(HttpStatusCode.BadRequest, await Ask(site.Address, "/sign-in", "evil.example"));
        Assert.Equal(HttpStatusCode.BadRequest, await Ask(site.Address, "/sign-in", "127.0.0.1"));
        int port = FreePort();
        await using ClosedSite closed = await ClosedSite.Start(o => o with { Open = new(IPAddress.Loopback, port), Codes = new(TimeProvider.System) });
        Assert.Equal(HttpStatusCode.OK, await Ask(new($"http://127.0.0.1:{port}"), "/live/code", $"127.0.0.1:{port}"));
        Assert.Equal(HttpStatusCode.BadRequest, await Ask(new($"http://127.0.0.1:{port}"), "/live/code", "evil.example"));
        static async Task<HttpStatusCode> Ask(Uri address, string path, string host)
        {
            using HttpClient client = new();
            using HttpRequestMessage asked = new(HttpMethod.Get, new Uri(address, path)) { Headers = { Host = host } };
            asked.Headers.Add("X-Forwarded-Proto", "https");
            using HttpResponseMessage answer = await client.SendAsync(asked, TestContext.Current.CancellationToken);
            return answer.StatusCode;
        }
    }

    [Fact]
    [Tried("the network address of the ground page (`listen --open`): other pages, sending, guessing the code", "only the code page answers (404, back to the code page); after five wrong codes nobody is let in for a minute, with the right one neither")]
    public async Task GroundAddress_ShowsNothingElse()
    {
        OneTimeCodes codes = new(TimeProvider.System);
        int port = FreePort();
        await using ClosedSite closed = await ClosedSite.Start(o => o with { Open = new(IPAddress.Loopback, port), Codes = codes });
        using HttpClient client = new(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = new($"http://127.0.0.1:{port}") };
        foreach (string page in (string[])["/jobs", "/flights", "/days", "/live", "/live/part", "/live/cockpit", "/deliveries/1"])
            Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(page, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.PostAsync("/jobs", null, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal("/live/code", (await client.GetAsync("/live/ground", TestContext.Current.CancellationToken)).Headers.Location!.OriginalString);
        for (int i = 0; i < 5; i++)
            Assert.Equal(HttpStatusCode.Forbidden, (await Code(codes.Code == "00000000" ? "00000001" : "00000000")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Code(codes.Code)).StatusCode);
        async Task<HttpResponseMessage> Code(string code) => await client.PostAsync("/live/code", new FormUrlEncodedContent([new("code", code)]), TestContext.Current.CancellationToken);
    }

    [Fact]
    [Tried("opening the pages without an account, without HTTPS, with two ways of HTTPS, with a certificate that is none, with half an address, without a name to be reached by", "the program doesn't start; one sentence says what is missing (exit code 2)")]
    public async Task Opening_WithoutWhatItNeeds_IsRefused()
    {
        string store = Path.Combine(folder, "work.db");
        Refused("needs at least one account", "--open", "127.0.0.1:5443", "--proxy-https");
        await using (OpenedSite site = await OpenedSite.Start())
        {
            await site.Account("anna", [Role.Planner]);
            store = Path.Combine(site.Folder, "kept", "work.db");
            string none = Path.Combine(folder, "none.pfx");
            await File.WriteAllTextAsync(none, "none", TestContext.Current.CancellationToken);
            Refused("needs HTTPS", "--open", "127.0.0.1:5443");
            Refused("exclude each other", "--open", "127.0.0.1:5443", "--proxy-https", "--certificate", none);
            Refused("can't be opened", "--open", "127.0.0.1:5443", "--certificate", none);
            Refused("is not there", "--open", "127.0.0.1:5443", "--certificate", none + "x");
            Refused("no address with a port", "--open", "127.0.0.1", "--proxy-https");
            Refused("is no address", "--open", "127.0.0.1:5443", "--proxy-https", "proxy.example");
            Refused("belong to --open", "--proxy-https");
            Refused("belong to --open", "--host", "stillhook.example");
            Refused("needs the name by which browsers reach the pages", "--open", "127.0.0.1:5443", "--proxy-https");
            Refused("is no name or address", "--open", "127.0.0.1:5443", "--proxy-https", "--host", "https://stillhook.example");
        }
        void Refused(string why, params string[] how)
        {
            StartedProgram.Result said = HostedProgram.Run(["serve", "--store", store, .. how]);
            Assert.Equal(2, said.ExitCode);
            Assert.Contains(why, said.Errors, StringComparison.Ordinal);
            Assert.Single(said.Errors.Trim().Split('\n'));
        }
    }

    [Fact]
    [Tried("the program itself, started with `serve --open` and a certificate: its page by HTTPS, by plain HTTP, and on its usual port", "asks for sign-in; plain HTTP gets no answer; the usual port isn't listened to; the password of an account is read from standard input and stands nowhere in the store as text")]
    public async Task Program_Opened_SpeaksHttpsAlone()
    {
        CancellationToken now = TestContext.Current.CancellationToken;
        string store = Path.Combine(folder, "work.db"), pfx = Path.Combine(folder, "own.pfx"), password = Path.Combine(folder, "password.txt");
        using (Process add = Started("account", "add", "anna", "--role", "planner", "--store", store))
        {
            await add.StandardInput.WriteLineAsync(OpenedSite.Password);
            add.StandardInput.Close();
            await add.WaitForExitAsync(now);
            Assert.Equal(0, add.ExitCode);
        }
        Assert.DoesNotContain(OpenedSite.Password, System.Text.Encoding.Latin1.GetString(await File.ReadAllBytesAsync(store, now)), StringComparison.Ordinal);
        using X509Certificate2 certificate = OpenedSite.Certificate();
        await File.WriteAllBytesAsync(pfx, certificate.Export(X509ContentType.Pfx, "kept elsewhere"), now);
        await File.WriteAllTextAsync(password, "kept elsewhere\n", now);
        int port = FreePort(), usual = FreePort();
        using Process program = Started("serve", "--open", $"127.0.0.1:{port}", "--certificate", pfx, "--certificate-password-file", password, "--port", $"{usual}", "--store", store);
        try
        {
            Assert.Contains("warning: the pages are opened to the network", await program.StandardError.ReadLineAsync(now), StringComparison.Ordinal);
            Assert.StartsWith($"Open https://127.0.0.1:{port} ", await program.StandardOutput.ReadLineAsync(now), StringComparison.Ordinal);
            using HttpClient client = new(new SocketsHttpHandler { AllowAutoRedirect = false, SslOptions = new() { RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == certificate.GetCertHashString() } });
            client.DefaultRequestHeaders.Accept.ParseAdd("text/html");
            using HttpResponseMessage answer = await client.GetAsync(new Uri($"https://127.0.0.1:{port}/jobs"), now);
            Assert.Equal("/sign-in?back=%2Fjobs", answer.Headers.Location!.OriginalString);
            await Assert.ThrowsAnyAsync<HttpRequestException>(async () => await client.GetAsync(new Uri($"http://127.0.0.1:{port}/jobs"), now));
            await Assert.ThrowsAnyAsync<HttpRequestException>(async () => await client.GetAsync(new Uri($"http://127.0.0.1:{usual}/jobs"), now));
        }
        finally
        {
            program.Kill(entireProcessTree: true);
            await program.WaitForExitAsync(CancellationToken.None);
        }
    }

    [Fact]
    [Tried("a program behind a proxy: asked past the proxy, asked by it without its word for HTTPS, with a made-up address of the client", "past the proxy and without its word refused (403); the client's address is taken from the named proxy alone")]
    public async Task BehindProxy_AnswersTheProxyAlone()
    {
        await using OpenedSite elsewhere = await OpenedSite.Start(o => new() { Address = o.Address, Proxies = [IPAddress.Parse("192.0.2.1")], Hosts = ["127.0.0.1"] }), here = await OpenedSite.Start(o => new() { Address = o.Address, Proxies = [IPAddress.Loopback], Hosts = ["127.0.0.1"] });
        Assert.Equal(HttpStatusCode.Forbidden, await Ask(elsewhere, "https", "192.0.2.1"));
        Assert.Equal(HttpStatusCode.Forbidden, await Ask(here, null, null));
        Assert.Equal(HttpStatusCode.Forbidden, await Ask(here, "http", null));
        Assert.Equal(HttpStatusCode.OK, await Ask(here, "https", "198.51.100.7"));
        static async Task<HttpStatusCode> Ask(OpenedSite site, string? scheme, string? client)
        {
            using HttpClient asking = new() { BaseAddress = site.Address };
            if (scheme is not null)
                asking.DefaultRequestHeaders.Add("X-Forwarded-Proto", scheme);
            if (client is not null)
                asking.DefaultRequestHeaders.Add("X-Forwarded-For", client);
            using HttpResponseMessage answer = await asking.GetAsync("/sign-in", TestContext.Current.CancellationToken);
            return answer.StatusCode;
        }
    }

    private static Process Started(params string[] arguments) => Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Stillhook.App.dll"), .. arguments])
    { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;

    private static int FreePort()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
