using System.Globalization;
using System.IO.Compression;
using System.Net;
using System.Text;
using Microsoft.Playwright;
using Stillhook.Reporting;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class FlightsPageTests(DaySite site) : IClassFixture<DaySite>
{
    // A short straight walk with times, in a format that is quick to write: a record without deliveries.
    private static string Gpx(int seed)
    {
        StringBuilder text = new("<gpx version=\"1.1\" creator=\"test\" xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n");
        for (int i = 0; i < 120; i++)
            text.Append(CultureInfo.InvariantCulture, $"<trkpt lat=\"{47 + seed * 0.001 + i * 1e-5:0.000000}\" lon=\"11.5\"><ele>{900 + i}</ele><time>{new DateTime(2025, 9, 1 + seed, 8, i / 60, i % 60):yyyy-MM-ddTHH:mm:ss}Z</time></trkpt>\n");
        return text.Append("</trkseg></trk></gpx>\n").ToString();
    }

    private static FilePayload Payload(string name, string text) => new() { Name = name, MimeType = "application/octet-stream", Buffer = Encoding.UTF8.GetBytes(text) };

    [Fact]
    public async Task Upload_TenFilesOneBad_NineAreReadAndTheBadOneIsNamedWithItsLine()
    {
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        List<FilePayload> files = [.. Enumerable.Range(1, 9).Select(i => Payload($"ten-{i}.gpx", Gpx(i)))];
        files.Insert(4, Payload("ten-bad.gpx", Gpx(20)[..100] + "\n<trkpt lat=\"47\" <<< \n"));
        await page.Locator("#records").SetInputFilesAsync(files);
        await Expect(page.Locator("[data-upload=kept]")).ToHaveCountAsync(9);
        ILocator bad = page.Locator("[data-upload]", new() { HasText = "ten-bad.gpx" });
        await Expect(bad.Locator(".findings")).ToContainTextAsync("Line ");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Upload_OfNoRecord_SaysWhatIsExpected()
    {
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        await page.Locator("#records").SetInputFilesAsync(new[] { new FilePayload { Name = "picture.png", MimeType = "image/png", Buffer = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13] } });
        ILocator refused = page.Locator("[data-upload=refused]", new() { HasText = "picture.png" });
        await Expect(refused).ToContainTextAsync("Expected GPX, IGC, NMEA 0183, or CSV");
        Assert.DoesNotContain(site.Store.Flights.List(), f => f.Name == "picture.png");
        watched.NothingWentWrong();
    }

    // A zip of 3 MB that would unpack to 600 MB of track: one finding, nothing kept, and the program goes on.
    [Fact]
    public async Task Upload_OfAZipThatUnpacksWithoutEnd_IsOneFinding()
    {
        string path = site.In("bomb.zip");
        await using (FileStream file = File.Create(path))
        using (ZipArchive zip = new(file, ZipArchiveMode.Create))
        await using (Stream entry = zip.CreateEntry("long.gpx", CompressionLevel.SmallestSize).Open())
        {
            string head = Gpx(1), point = head.Split('\n')[1] + "\n";
            await entry.WriteAsync(Encoding.UTF8.GetBytes(head[..head.IndexOf('\n', StringComparison.Ordinal)]), TestContext.Current.CancellationToken);
            byte[] points = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(point + new string(' ', 100_000), 10)));
            for (int i = 0; i < 600; i++)
                await entry.WriteAsync(points, TestContext.Current.CancellationToken);
        }
        await using Watched watched = await site.Open("/flights");
        await watched.Page.Locator("#records").SetInputFilesAsync(path);
        ILocator refused = watched.Page.Locator("[data-upload=refused]", new() { HasText = "bomb.zip" });
        await Expect(refused).ToContainTextAsync("grows");
        await Expect(refused.Locator(".findings li")).ToHaveCountAsync(1);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Upload_Of500Megabytes_IsRefusedAtOnceWithSizeLimitAndCommand()
    {
        using HttpClient client = new();
        client.DefaultRequestHeaders.ExpectContinue = true;
        Zeros body = new(500_000_000);
        using StreamContent content = new(body);
        using HttpResponseMessage answer = await client.PostAsync(site.Address + "/flights?name=season.gpx", content, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("season.gpx has 500 MB; the page takes up to 400 MB", text, StringComparison.Ordinal);
        Assert.Contains("stillhook debrief season.gpx", text, StringComparison.Ordinal);
        // Refused before the body was asked for.
        Assert.Equal(0, body.Position);
    }

    [Fact]
    public async Task Upload_OfACrewSheet_BecomesEntriesOfTheJobsDayOnce()
    {
        WorkDay day = new(DateOnly.Parse(DaySite.Day, CultureInfo.InvariantCulture));
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        FilePayload sheet = Payload("crew.csv", "what,from,to,load,massKg,fuelKg,note\r\ndelivery,08:36,,1,,,\r\nweather,09:27,09:36,,,,cloud on the ridge\r\ngauge,08:20,,,,300,\r\nnonsense,1,,,,,\r\n");
        await page.Locator("#job").SelectOptionAsync("");
        await page.Locator("#records").SetInputFilesAsync(new[] { sheet });
        await Expect(page.Locator("[data-upload=refused]")).ToContainTextAsync("Choose a job");
        await page.Locator("#job").SelectOptionAsync(site.Job.ToString());
        await page.Locator("#records").SetInputFilesAsync(new[] { sheet });
        ILocator kept = page.Locator("[data-upload=kept]");
        await Expect(kept).ToContainTextAsync("3 lines of the crew kept");
        await Expect(kept).ToContainTextAsync("Line 5");
        Assert.Equal("cloud on the ridge", Assert.Single(site.Store.Days.Entries<TimeMark>(day), e => e.Entry.Note == "cloud on the ridge").Entry.Note);
        await page.Locator("#records").SetInputFilesAsync(new[] { sheet });
        await Expect(kept.First).ToContainTextAsync("0 lines of the crew kept");
        await Expect(kept.First).ToContainTextAsync("3 stood already");
        await kept.First.Locator("a.button").ClickAsync();
        await Expect(page.Locator(".written")).ToContainTextAsync("cloud on the ridge");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Page_NamesTheJobAFlightWasFlownFor()
    {
        await using Watched watched = await site.Open("/flights");
        await Expect(watched.Page.Locator(".flights")).ToContainTextAsync("Path repair");
        watched.NothingWentWrong();
    }

    private sealed class Zeros(long length) : Stream
    {
        private long at;

        public override bool CanRead => true;

        public override bool CanSeek => true;

        public override bool CanWrite => false;

        public override long Length => length;

        public override long Position { get => at; set => at = value; }

        public override int Read(byte[] buffer, int offset, int count)
        {
            int given = (int)Math.Min(count, length - at);
            Array.Clear(buffer, offset, given);
            at += given;
            return given;
        }

        public override void Flush() { }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
