using System.Globalization;
using System.Net;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Store;
using Stillhook.Tests.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>The pages opened with a certificate of the tests' own on a free port, with an account of every role; asked by real clients over HTTPS.</summary>
public sealed class OpenedSite : IAsyncDisposable
{
    public const string Password = "grey gravel over the ridge";

    private readonly List<HttpClient> clients = [];
    private readonly X509Certificate2 certificate = Certificate();
    private WebApplication app = null!;

    private OpenedSite()
    {
    }

    /// <summary>Folder of the store, and one above it that nothing may be written to.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("stillhook").FullName;

    internal WorkStore Store { get; private set; } = null!;

    public Uri Address { get; private set; } = null!;

    /// <summary>Addresses of the running program.</summary>
    public IReadOnlyList<RouteEndpoint> Endpoints => [.. app.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()];

    internal static async Task<OpenedSite> Start(Func<OpenedPages, OpenedPages>? how = null, Func<ServingOptions, ServingOptions>? serving = null)
    {
        OpenedSite site = new();
        site.Store = WorkStore.Open(Path.Combine(Directory.CreateDirectory(Path.Combine(site.Folder, "kept")).FullName, "work.db"), StoreOption.Options);
        // As many tries as the tests need; what bounds them is tried by tests of its own.
        OpenedPages opened = new() { Address = new(IPAddress.Loopback, 0), Certificate = site.certificate, TriesAnAddress = 1000, TriesAName = 100 };
        ServingOptions options = new() { Store = site.Store, Steps = DebriefSteps.Usual(400), Opened = how?.Invoke(opened) ?? opened };
        site.app = WebServer.Build(serving?.Invoke(options) ?? options);
        await site.app.StartAsync();
        site.Address = new(WebServer.Address(site.app));
        return site;
    }

    /// <summary>Makes an account as the terminal does.</summary>
    public async Task<Account> Account(string name, string[] roles, bool allFlights = false, string? fliesAs = null) => await With(async accounts =>
    {
        Account account = new() { UserName = name };
        Assert.True((await accounts.CreateAsync(account, Password)).Succeeded);
        await accounts.AddClaimsAsync(account,
        [
            .. roles.Select(r => new Claim(ClaimTypes.Role, r)), new Claim(Access.FliesAs, fliesAs ?? name), .. allFlights ? [new Claim(Access.AllFlights, "yes")] : Array.Empty<Claim>(),
        ]);
        return account;
    });

    /// <summary>Does something with the accounts, beside the running program.</summary>
    public async Task<T> With<T>(Func<UserManager<Account>, Task<T>> what)
    {
        ServiceCollection services = new();
        services.AddLogging();
        AccountSetup.AddIdentity(services, Store);
        await using ServiceProvider provider = services.BuildServiceProvider();
        await using AsyncServiceScope scope = provider.CreateAsyncScope();
        return await what(scope.ServiceProvider.GetRequiredService<UserManager<Account>>());
    }

    /// <summary>A browser that nobody signed in with; follows no redirect.</summary>
    public HttpClient Client(CookieContainer? cookies = null)
    {
        HttpClient client = new(new SocketsHttpHandler
        {
            AllowAutoRedirect = false, CookieContainer = cookies ?? new(), SslOptions = new() { RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == certificate.GetCertHashString() },
        }) { BaseAddress = Address };
        client.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        clients.Add(client);
        return client;
    }

    /// <summary>A browser signed in as somebody.</summary>
    public async Task<HttpClient> SignedIn(string name, string password = Password, CookieContainer? cookies = null)
    {
        HttpClient client = Client(cookies);
        using HttpResponseMessage answer = await SignIn(client, name, password);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        return client;
    }

    public static async Task<HttpResponseMessage> SignIn(HttpClient client, string name, string password, string back = "/") =>
        await client.PostAsync("/sign-in", await Form(client, "/sign-in", ("name", name), ("password", password), ("back", back)));

    /// <summary>A form with the token of a page.</summary>
    public static async Task<FormUrlEncodedContent> Form(HttpClient client, string page, params (string, string)[] fields) =>
        new([new("__RequestVerificationToken", await Token(client, page)), .. fields.Select(f => new KeyValuePair<string, string>(f.Item1, f.Item2))]);

    /// <summary>The token a page's forms carry.</summary>
    public static async Task<string> Token(HttpClient client, string page) =>
        Regex.Match(await client.GetStringAsync(page), "__RequestVerificationToken\" value=\"([^\"]+)\"").Groups[1].Value is { Length: > 0 } token ? token : throw new InvalidOperationException($"{page} has no form.");

    /// <summary>A flight with three lifts, kept as if it had been taken in.</summary>
    internal long Flight(string name, double day, string? pilot, string? takenInBy, KeptJob? job = null)
    {
        double from = SampleWork.MorningS + 86400 * day;
        return Store.Flights.Add(name, new MemoryStream(Gpx(from)), SampleWork.Now, null, SampleWork.Flight(from, pilot: pilot, aircraft: job?.Aircraft ?? "HB-XYZ", job: job?.Key), takenInBy).Flight.Id;
    }

    /// <summary>A record of three minutes without a delivery.</summary>
    public static byte[] Gpx(double fromS) => Encoding.UTF8.GetBytes("<?xml version=\"1.0\"?><gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"test\"><trk><trkseg>" + string.Concat(Enumerable.Range(0, 180).Select(i =>
        string.Create(CultureInfo.InvariantCulture, $"<trkpt lat=\"{46 + i * 1e-4}\" lon=\"8\"><ele>{1000 + i % 7}</ele><time>{DateTimeOffset.UnixEpoch.AddSeconds(fromS + i):yyyy-MM-ddTHH:mm:ssZ}</time></trkpt>"))) + "</trkseg></trk></gpx>");

    /// <summary>Sends a file as a browser does.</summary>
    public static async Task<HttpResponseMessage> Upload(HttpClient client, string page, string to, string field, string fileName, byte[] bytes)
    {
        ByteArrayContent file = new(bytes);
        // Written by hand: a client would mend the names that are tried here.
        file.Headers.TryAddWithoutValidation("Content-Disposition", $"form-data; name=\"{field}\"; filename=\"{fileName}\"");
        return await client.PostAsync(to, new MultipartFormDataContent { { new StringContent(await Token(client, page)), "__RequestVerificationToken" }, file });
    }

    public async ValueTask DisposeAsync()
    {
        foreach (HttpClient client in clients)
            client.Dispose();
        await app.DisposeAsync();
        certificate.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(Folder, recursive: true);
    }

    public static X509Certificate2 Certificate(SubjectAlternativeNameBuilder? names = null)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new("CN=stillhook test", key, HashAlgorithmName.SHA256);
        if (names is not null)
            request.CertificateExtensions.Add(names.Build());
        using X509Certificate2 made = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
        return X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pfx), null);
    }
}
