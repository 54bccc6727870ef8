using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Microsoft.AspNetCore.Http;
using Stillhook.App.Serving;

namespace Stillhook.Tests.App.Security;

/// <summary>What is sent to a page: too much, too slowly, with names that are none, with documents that bite.</summary>
public sealed class UploadTests(UploadTests.Shared shared) : IClassFixture<UploadTests.Shared>
{
    private readonly OpenedSite site = shared.Site;
    private readonly HttpClient client = shared.Client;

    /// <summary>A program with narrow bounds and one pilot.</summary>
    public sealed class Shared : SharedSite
    {
        public HttpClient Client { get; private set; } = null!;

        public override async ValueTask InitializeAsync()
        {
            await base.InitializeAsync();
            await Site.Account("anna", [Role.Pilot]);
            Client = await Site.SignedIn("anna");
        }

        protected override Task<OpenedSite> Begin() => OpenedSite.Start(serving: s => s with { UploadLimitMb = 2, Steps = DebriefSteps.Usual(2) });
    }

    [Fact]
    [Tried("a record above the limit, told beforehand and untold (in chunks)", "refused (413), nothing is kept")]
    public async Task TooLarge_IsRefused()
    {
        HttpClient asking = await site.SignedIn("anna");
        // So that the answer is read before the rest is sent.
        asking.DefaultRequestHeaders.ExpectContinue = true;
        byte[] large = new byte[4_000_000];
        using HttpResponseMessage told = await OpenedSite.Upload(asking, "/flights", "/flights", "records", "large.gpx", large);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, told.StatusCode);
        string token = await OpenedSite.Token(client, "/flights");
        using HttpRequestMessage chunked = new(HttpMethod.Post, "/flights") { Content = new MultipartFormDataContent { { new StringContent(token), "__RequestVerificationToken" }, { new StreamContent(new MemoryStream(large)), "records", "large.gpx" } } };
        chunked.Headers.TransferEncodingChunked = true;
        try
        {
            using HttpResponseMessage untold = await client.SendAsync(chunked, Now);
            Assert.Equal(HttpStatusCode.RequestEntityTooLarge, untold.StatusCode);
        }
        catch (HttpRequestException)
        {
            // The connection was closed before all was sent; whether the answer is read then is chance.
        }
        Assert.DoesNotContain(site.Store.Flights.List(), f => f.Name == "large.gpx");
    }

    [Fact]
    [Tried("a long form at the sign-in page, by somebody who isn't signed in; a record sent by such a one", "refused (413 and 401) without being read")]
    public async Task LargeForm_WithoutSession_IsRefused()
    {
        HttpClient nobody = site.Client();
        FormUrlEncodedContent form = await OpenedSite.Form(nobody, "/sign-in", ("name", new string('x', 20_000)));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await nobody.PostAsync("/sign-in", form, Now)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await nobody.PostAsync("/flights", form, Now)).StatusCode);
    }

    [Theory]
    [InlineData(20, "slower than 1 kB/s"), InlineData(3000, "faster than that, but longer than the longest time")]
    [Tried("a record sent a few bytes at a time (20 bytes and 3 kB a second)", "ended after the time it may be slow, and after the longest time at the latest")]
    public async Task Slow_IsEnded(int bytesASecond, string why)
    {
        // A raw connection: a proxy in front that does HTTPS, so that the bytes are the tests' own.
        await using OpenedSite behind = await OpenedSite.Start(o => new() { Address = o.Address, Proxies = [IPAddress.Loopback], Hosts = ["x"] },
            s => s with { UploadLimitMb = 2, LongestUpload = TimeSpan.FromSeconds(4), SlowUpload = TimeSpan.FromSeconds(1.5) });
        using TcpClient link = new();
        await link.ConnectAsync(IPAddress.Loopback, behind.Address.Port, Now);
        NetworkStream stream = link.GetStream();
        await stream.WriteAsync("POST /sign-in HTTP/1.1\r\nHost: x\r\nX-Forwarded-Proto: https\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 16000\r\n\r\n"u8.ToArray(), Now);
        long start = Stopwatch.GetTimestamp();
        byte[] piece = Encoding.ASCII.GetBytes(new string('a', bytesASecond / 10 + 1)), answer = new byte[1000];
        bool ended = false;
        while (!ended && Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(12))
        {
            try
            {
                await stream.WriteAsync(piece, Now);
                ended = stream.DataAvailable || (link.Client.Poll(0, SelectMode.SelectRead) && link.Client.Available == 0);
            }
            catch (IOException)
            {
                ended = true;
            }
            await Task.Delay(100, Now);
        }
        Assert.True(ended, why);
        Assert.InRange(Stopwatch.GetElapsedTime(start).TotalSeconds, 1, 9);
    }

    [Theory]
    [InlineData("<!DOCTYPE gpx [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\"><!ENTITY d \"&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;\"><!ENTITY e \"&d;&d;&d;&d;&d;&d;&d;&d;&d;&d;\"><!ENTITY f \"&e;&e;&e;&e;&e;&e;&e;&e;&e;&e;\"><!ENTITY g \"&f;&f;&f;&f;&f;&f;&f;&f;&f;&f;\"><!ENTITY z \"&g;&g;&g;&g;&g;&g;&g;&g;&g;&g;\">]>")]
    [InlineData("<!DOCTYPE gpx [<!ENTITY z SYSTEM \"file:///etc/passwd\">]>")]
    [InlineData("<!DOCTYPE gpx [<!ENTITY z SYSTEM \"http://127.0.0.1:PORT/z\">]>")]
    [InlineData("<!DOCTYPE gpx SYSTEM \"http://127.0.0.1:PORT/gpx.dtd\">")]
    [InlineData("<!DOCTYPE gpx [<!ENTITY % z SYSTEM \"http://127.0.0.1:PORT/z\"> %z;]>")]
    [Tried("GPX records with a document type: entities that unfold to 10⁸ characters, an entity that is a file of the machine, entities and a type that are to be fetched", "not taken in, nothing is unfolded, read or fetched")]
    public async Task DocumentType_IsNotFollowed(string type)
    {
        using TcpListener asked = new(IPAddress.Loopback, 0);
        asked.Start();
        string xml = "<?xml version=\"1.0\"?>" + type.Replace("PORT", ((IPEndPoint)asked.LocalEndpoint).Port.ToString(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal)
            + "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"x\"><trk><name>&z;</name><trkseg><trkpt lat=\"46\" lon=\"8\"><ele>1</ele><time>2026-06-01T08:00:00Z</time></trkpt></trkseg></trk></gpx>";
        long start = Stopwatch.GetTimestamp();
        using HttpResponseMessage answer = await OpenedSite.Upload(client, "/flights", "/flights", "records", "x.gpx", Encoding.UTF8.GetBytes(xml));
        string text = await answer.Content.ReadAsStringAsync(Now);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("data-upload=\"refused\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("root:", text, StringComparison.Ordinal);
        Assert.DoesNotContain("aaaaaaaaaaaaaaaaaaaa", text, StringComparison.Ordinal);
        Assert.True(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(5));
        Assert.False(asked.Pending());
        Assert.DoesNotContain(site.Store.Flights.List(), f => f.Name == "x.gpx");
    }

    [Theory]
    [InlineData("../../evil.gpx", "evil.gpx"), InlineData("/etc/evil.gpx", "evil.gpx"), InlineData("C:\\\\Windows\\\\evil.gpx", "evil.gpx"), InlineData("..", "record"), InlineData("a\0b.gpx", null), InlineData("CON", "CON"), InlineData("....//....//evil.gpx", "evil.gpx")]
    [Tried("file names with `../`, from the root, with a drive, with a zero character, `..`, of a device", "kept as a name to show without its folders (with a zero character not taken); no file of that name is made anywhere")]
    public async Task FileName_NeverBecomesAPath(string fileName, string? shown)
    {
        string[] before = Files();
        long[] there = [.. site.Store.Flights.List().Select(f => f.Id)];
        // Other bytes for each name, so that each is a record of its own.
        using HttpResponseMessage answer = await OpenedSite.Upload(client, "/flights", "/flights", "records", fileName, OpenedSite.Gpx(1.78e9 + 1000.0 * fileName.Sum(c => (int)c)));
        string[] added = [.. site.Store.Flights.List().Where(f => !there.Contains(f.Id)).Select(f => f.Name)];
        Assert.Equal(shown is null ? [] : [shown], added);
        Assert.Equal(before, Files());
        Assert.False(File.Exists("/etc/evil.gpx"));
    }

    [Theory]
    [InlineData("a\0b\r\n.gpx", "ab.gpx"), InlineData("x/", "none"), InlineData("\ud800.gpx", ".gpx")]
    [Tried("names with control characters and half characters, past HTTP", "left out of the name")]
    public void NameOf_LeavesOutWhatCantBeKept(string fileName, string shown) => Assert.Equal(shown, Stillhook.App.Pages.Upload.NameOf(fileName, "none"));

    [Fact]
    [Tried("a form with a zero character in a field, and a name for oneself of 5,000 characters or with line ends", "the form is refused (400) and changes nothing; the name is not believed")]
    public async Task Form_WithWhatNoTextHas_IsRefused()
    {
        using HttpResponseMessage zero = await client.PostAsync("/jobs", await OpenedSite.Form(client, "/jobs", ("name", "a\0b")), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, zero.StatusCode);
        Assert.DoesNotContain(site.Store.Jobs.List(), j => j.Name.StartsWith('a'));
        Assert.Equal("Vera", TypedBy("Vera"));
        Assert.Equal("this device", TypedBy(new string('n', 5000)));
        Assert.Equal("this device", TypedBy("a\r\nb"));

        static string TypedBy(string name)
        {
            DefaultHttpContext http = new();
            http.Request.Headers.Cookie = "name=" + Uri.EscapeDataString(name);
            return http.TypedBy();
        }
    }

    [Fact]
    [Tried("an elevation grid named `../../evil.asc`, and one with 5,000 characters", "taken; its file has the job's key for a name, and the name handed in is kept as a text")]
    public async Task GridName_NeverBecomesAPath()
    {
        Guid job = site.Store.Jobs.Save(new("x", File.ReadAllText(Repository.File("examples/path-repair.json"))), "A", DateTimeOffset.UnixEpoch).Key;
        foreach (string name in (string[])["../../evil.asc", new string('n', 5000) + ".asc"])
        {
            byte[] grid = Encoding.ASCII.GetBytes("ncols 2\nnrows 2\nxllcorner 8.0\nyllcorner 46.0\ncellsize 0.01\nNODATA_value -9999\n1 2\n3 4\n");
            using HttpResponseMessage answer = await OpenedSite.Upload(client, "/flights", $"/jobs/{job}/approach/ground", "grid", name, grid);
            Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
            Assert.Equal([$"{job:N}-grid", $"{job:N}.name"], Directory.GetFiles(Path.Combine(site.Folder, "kept", "terrain")).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        }
        Assert.DoesNotContain(Files(), f => f.Contains("evil", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/assets/x/..%2f..%2f..%2fetc/passwd"), InlineData("/assets/x/%2e%2e/%2e%2e/%2e%2e/etc/passwd"), InlineData("/deliveries/1/files/..%2f..%2fetc%2fpasswd"), InlineData("/days/2026-06-01/..%2fwork.db"), InlineData("/aircraft/..%2f..%2fwork.db"), InlineData("/form-keys"), InlineData("/work.db")]
    [Tried("addresses that climb out of their folder or name a file of the store", "there is no such page")]
    public async Task Address_NeverBecomesAPath(string address)
    {
        using HttpResponseMessage answer = await client.GetAsync(address, Now);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private static CancellationToken Now => TestContext.Current.CancellationToken;

    /// <summary>All files around the store, but for the database's own and those that wait.</summary>
    private string[] Files() => [.. Directory.GetFiles(site.Folder, "*", SearchOption.AllDirectories).Where(f => !Path.GetFileName(f).StartsWith("work.db", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
}
