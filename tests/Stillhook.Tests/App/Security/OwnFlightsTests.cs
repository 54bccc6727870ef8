using System.Net;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Files.Jobs;
using Stillhook.Store;
using Stillhook.Tests.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>One person's flights and another person.</summary>
public sealed class OwnFlightsTests(OwnFlightsTests.Shared shared) : IClassFixture<OwnFlightsTests.Shared>
{
    private readonly OpenedSite site = shared.Site;
    private readonly HttpClient anna = shared.Anna, beat = shared.Beat, office = shared.Office;
    private readonly long annas = shared.Annas, beats = shared.Beats, nobodys = shared.Nobodys;

    /// <summary>Two pilots, an office that reads all, and a flight of each kind.</summary>
    public sealed class Shared : SharedSite
    {
        public HttpClient Anna { get; private set; } = null!;
        public HttpClient Beat { get; private set; } = null!;
        public HttpClient Office { get; private set; } = null!;
        public long Annas { get; private set; }
        public long Beats { get; private set; }
        public long Nobodys { get; private set; }

        public override async ValueTask InitializeAsync()
        {
            await base.InitializeAsync();
            string key = (await Site.Account("anna", [Role.Pilot])).Id;
            await Site.Account("beat", [Role.Pilot], fliesAs: "B. Keller");
            await Site.Account("office", [Role.Maintenance], allFlights: true);
            (Annas, Beats, Nobodys) = (Site.Flight("annas.gpx", 0, "B. Keller", key), Site.Flight("beats.gpx", 1, "b. keller ", null), Site.Flight("nobodys.gpx", 2, null, null));
            (Anna, Beat, Office) = (await Site.SignedIn("anna"), await Site.SignedIn("beat"), await Site.SignedIn("office"));
        }
    }

    [Fact]
    [Tried("every address of another pilot's flight: page, fragments, series, pictures, tables, corrections", "there is no such flight (404), as for one that was never there; the owner and an account that reads all flights get it")]
    public async Task AnotherPilotsFlight_IsNotThere()
    {
        foreach (string address in (string[])["", "/panel", "/pair?pair=1&pair=2", "/series", "/files/rotations.csv", "/lifts/1"])
        {
            string never = Normal(await (await beat.GetAsync($"/deliveries/4242{address}", Now)).Content.ReadAsStringAsync(Now), 4242);
            using HttpResponseMessage answer = await beat.GetAsync($"/deliveries/{annas}{address}", Now);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            Assert.Equal(never, Normal(await answer.Content.ReadAsStringAsync(Now), annas));
        }
        Assert.Equal(HttpStatusCode.OK, await Status(anna, $"/deliveries/{annas}"));
        Assert.Equal(HttpStatusCode.OK, await Status(office, $"/deliveries/{annas}"));
        Assert.Equal(HttpStatusCode.OK, await Status(beat, $"/deliveries/{beats}"));
        Assert.Equal(HttpStatusCode.NotFound, await Status(anna, $"/deliveries/{beats}"));
    }

    [Fact]
    [Tried("a flight that somebody took in for himself, by the pilot whose name its job gives (whoever edits the job could write his own name there)", "not there: the account that took it in counts")]
    public async Task NameInTheJob_DoesNotOpenWhatAnotherTookIn() => Assert.Equal(HttpStatusCode.NotFound, await Status(beat, $"/deliveries/{annas}"));

    [Fact]
    [Tried("a flight without account and without pilot's name", "not there for a pilot; there for an account that reads all flights")]
    public async Task Nobodys_IsReadByThoseWhoReadAll()
    {
        Assert.Equal(HttpStatusCode.NotFound, await Status(anna, $"/deliveries/{nobodys}"));
        Assert.Equal(HttpStatusCode.OK, await Status(office, $"/deliveries/{nobodys}"));
    }

    [Fact]
    [Tried("the list of flights", "shows one's own alone; all to an account that reads all")]
    public async Task List_ShowsOwn()
    {
        Assert.Equal(new[] { true, false, false }, await Shown(anna, "/flights"));
        Assert.Equal(new[] { false, true, false }, await Shown(beat, "/flights"));
        Assert.Equal(new[] { true, true, true }, await Shown(office, "/flights"));
    }

    [Fact]
    [Tried("sending figures for, correcting or removing another pilot's flight with a valid form token", "there is no such flight (404), nothing is changed")]
    public async Task AnotherPilotsFlight_IsNotChanged()
    {
        foreach ((string address, (string, string)[] fields) in new[]
        {
            ($"/deliveries/{annas}/figures", new[] { ("line", "30m") }),
            ($"/deliveries/{annas}/lifts/1", [("number", "99"), ("read-number", "01"), ("who", "anna")]),
            ($"/flights/{annas}/remove", [("sure", "yes")]),
        })
            Assert.Equal(HttpStatusCode.NotFound, (await beat.PostAsync(address, await OpenedSite.Form(beat, "/flights", fields), Now)).StatusCode);
        Assert.Empty(site.Store.Flights.Find(annas)!.Typed);
        Assert.All(site.Store.Lifts.OfFlight(annas), l => Assert.Empty(l.Corrections));
    }

    [Fact]
    [Tried("taking in the very bytes of another pilot's record to be shown its deliveries", "told that it is kept and belongs to somebody else, nothing else")]
    public async Task SameBytes_ShowNothing()
    {
        using HttpResponseMessage answer = await OpenedSite.Upload(beat, "/flights", "/flights", "records", "mine.gpx", OpenedSite.Gpx(SampleWork.MorningS));
        string text = await answer.Content.ReadAsStringAsync(Now);
        Assert.Contains("belongs to somebody else", text, StringComparison.Ordinal);
        Assert.DoesNotContain($"/deliveries/{annas}", text, StringComparison.Ordinal);
        Assert.DoesNotContain("annas.gpx", text, StringComparison.Ordinal);
    }

    [Fact]
    [Tried("a record taken in on the page by a pilot", "belongs to that account from then on")]
    public async Task TakenIn_BelongsToTheAccount()
    {
        using HttpResponseMessage answer = await OpenedSite.Upload(beat, "/flights", "/flights", "records", "new.gpx", OpenedSite.Gpx(SampleWork.MorningS + 9e6));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        long taken = site.Store.Flights.List().Single(f => f.Name == "new.gpx").Id;
        Assert.Equal(HttpStatusCode.OK, await Status(beat, $"/deliveries/{taken}"));
        Assert.Equal(HttpStatusCode.NotFound, await Status(anna, $"/deliveries/{taken}"));
    }

    [Fact]
    [Tried("the Next page of a job that two pilots flew on one day, one pilot after the other", "each gets what follows from his own deliveries; nothing worked out for one is shown to the other")]
    public async Task Next_IsOfOwnDeliveries()
    {
        // Without loads, so that nothing is planned for it.
        const string text = """{"job":"two pilots","date":"2026-07-01","timeZone":"Europe/Zurich","aircraft":{"name":"HB-XYZ"}}""";
        KeptJob job = ImportCommand.Keep(site.Store, JobFile.Read(text), text, "A", DateTimeOffset.UnixEpoch);
        double day = (job.Day!.Value.ToDateTime(new(9, 0), DateTimeKind.Utc) - DateTime.UnixEpoch).TotalDays - SampleWork.MorningS / 86400;
        site.Flight("first of anna.gpx", day, null, site.Store.Flights.Find(annas)!.TakenInBy, job);
        site.Flight("later of beat.gpx", day + 0.1, "B. Keller", null, job);
        KeptNext both = KeptNext.Of(site.Store, job), ofOne = KeptNext.Of(site.Store, job, null, mayRead: id => site.Store.Flights.Find(id)!.Name.Contains("anna", StringComparison.Ordinal));
        Assert.Equal((2, 1), (both.Day.Flights.Count, ofOne.Day.Flights.Count));
        Assert.Equal(6, both.Day.Lifts.Count);
        Assert.Equal(3, ofOne.Day.Lifts.Count);
        string[] said = [await anna.GetStringAsync($"/jobs/{job.Key}/next", Now), await beat.GetStringAsync($"/jobs/{job.Key}/next", Now), await office.GetStringAsync($"/jobs/{job.Key}/next", Now)];
        Assert.All(said, s => Assert.Contains("two pilots", s, StringComparison.Ordinal));
        Assert.Contains("6 deliver", said[2], StringComparison.Ordinal);
        Assert.DoesNotContain("6 deliver", said[0] + said[1], StringComparison.Ordinal);
    }

    [Fact]
    [Tried("approaches that a pilot gave up, on the day sheet and in its file, by another role", "left out of the sheet, and the file with every number is refused (403); the pilot and those who read all get both")]
    public async Task DaySheet_LeavesOutAnothersApproaches()
    {
        const string GivenUp = "approach given up";
        string by = await anna.GetStringAsync("/days/2026-06-01", Now), other = await beat.GetStringAsync("/days/2026-06-01", Now);
        Assert.Contains(GivenUp, by, StringComparison.Ordinal);
        Assert.DoesNotContain(GivenUp, other, StringComparison.Ordinal);
        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.Forbidden, HttpStatusCode.OK), (await Status(anna, "/days/2026-06-01/sheet.json"), await Status(beat, "/days/2026-06-01/sheet.json"), await Status(office, "/days/2026-06-01/sheet.json")));
    }

    private static CancellationToken Now => TestContext.Current.CancellationToken;

    private static async Task<HttpStatusCode> Status(HttpClient client, string address) => (await client.GetAsync(address, Now)).StatusCode;

    private static async Task<bool[]> Shown(HttpClient client, string page)
    {
        string text = await client.GetStringAsync(page, Now);
        return [text.Contains("annas.gpx", StringComparison.Ordinal), text.Contains("beats.gpx", StringComparison.Ordinal), text.Contains("nobodys.gpx", StringComparison.Ordinal)];
    }

    /// <summary>The page without what differs by itself: the number asked for and the form tokens.</summary>
    private static string Normal(string page, long id) => System.Text.RegularExpressions.Regex.Replace(page, "value=\"[^\"]*\"", "").Replace(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"flight {id}"), "flight N", StringComparison.Ordinal);
}
