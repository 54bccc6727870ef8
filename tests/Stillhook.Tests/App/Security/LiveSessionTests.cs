using System.Net;
using Microsoft.AspNetCore.Identity;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Live;
using Stillhook.Tests.Files.Live;

namespace Stillhook.Tests.App.Security;

/// <summary>A flight that is listened to, in a program opened with accounts.</summary>
public sealed class LiveSessionTests
{
    private static CancellationToken Now => TestContext.Current.CancellationToken;

    [Fact]
    [Tried("a stream of the Live page that is open when its session ends: signed out, signed out everywhere, password changed elsewhere, account removed", "ended at once, what was done at the terminal within 5 s and a sign of life; it can't be opened again")]
    public async Task Stream_SessionEnds_Ends()
    {
        await using LiveHere live = await LiveHere.Start();
        Func<HttpClient, Task>[] ends =
        [
            async c => await Post(c, "/sign-out"),
            async c => await Post(c, "/account/sign-out"),
            async c => await live.Site.With(async a => await a.RemovePasswordAsync((await a.FindByNameAsync("anna2"))!)),
            async c => await live.Site.With(async a => await a.DeleteAsync((await a.FindByNameAsync("anna3"))!)),
        ];
        for (int i = 0; i < ends.Length; i++)
        {
            await live.Site.Account($"anna{i}", [Role.Pilot], allFlights: true);
            HttpClient anna = await live.Site.SignedIn($"anna{i}");
            foreach (string address in (string[])["/live/events", "/live/cockpit/events"])
            {
                using Stream open = await anna.GetStreamAsync(address, Now);
                Assert.NotEqual(0, await open.ReadAsync(new byte[1], Now));
            }
            using Stream stream = await anna.GetStreamAsync("/live/events", Now);
            Task<string> whole = new StreamReader(stream).ReadToEndAsync(Now);
            await Task.Delay(300, Now);
            Assert.False(whole.IsCompleted, "the stream ended by itself");
            await ends[i](anna);
            await whole.WaitAsync(TimeSpan.FromSeconds(15), Now);
            using HttpResponseMessage again = await anna.GetAsync("/live/part", Now);
            Assert.Equal(HttpStatusCode.Found, again.StatusCode);
        }
        static async Task Post(HttpClient client, string address) => (await client.PostAsync(address, await OpenedSite.Form(client, "/account"), Now)).Dispose();
    }

    [Fact]
    [Tried("a stream that is open when twelve hours without a request have passed", "ended at that moment")]
    public async Task Stream_SessionRunsOut_Ends()
    {
        LiveEvents events = new();
        List<LiveEvent> told = [];
        await foreach (LiveEvent e in OpenStreams.Until(events, null, DateTimeOffset.UtcNow.AddSeconds(0.3), CancellationToken.None, () => Task.FromResult(true), Now))
            told.Add(e);
        Assert.Equal("all", Assert.Single(told).What);
    }

    [Fact]
    [Tried("the flight that is listened to, by a pilot who doesn't fly it: its page, stream, what its loads may weigh now, and its deliveries on the Next page", "not there (404), and nothing of it stands on the Next page; whoever flies it gets it")]
    public async Task AnotherPilotsLiveFlight_IsNotThere()
    {
        await using LiveHere live = await LiveHere.Start();
        await live.Site.Account("anna", [Role.Pilot], fliesAs: live.Pilot);
        await live.Site.Account("beat", [Role.Pilot]);
        HttpClient anna = await live.Site.SignedIn("anna"), beat = await live.Site.SignedIn("beat");
        Assert.Equal(HttpStatusCode.OK, (await anna.GetAsync("/live", Now)).StatusCode);
        foreach (string address in (string[])["/live", "/live/part", "/live/events", "/live/cockpit", "/live/cockpit/events"])
            Assert.Equal(HttpStatusCode.NotFound, (await beat.GetAsync(address, Now)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await beat.GetAsync($"{live.Job.Address}/why/reserve?now=1", Now)).StatusCode);
        Assert.Contains("/live", await anna.GetStringAsync($"{live.Job.Address}/next", Now), StringComparison.Ordinal);
        Assert.DoesNotContain("/live", await beat.GetStringAsync($"{live.Job.Address}/next", Now), StringComparison.Ordinal);
    }

    /// <summary>An opened program that listens to an invented flight of the example job.</summary>
    private sealed class LiveHere : IAsyncDisposable
    {
        private LiveDesk desk = null!;

        public OpenedSite Site { get; private set; } = null!;

        public OpenJob Job { get; private set; } = null!;

        public string Pilot => Stillhook.Reporting.MeasuredFlight.OnlyPilot(Job.File.Request)!;

        public static async Task<LiveHere> Start()
        {
            LiveHere here = new();
            here.Site = await OpenedSite.Start(serving: options =>
            {
                string text = File.ReadAllText(Repository.File("examples/path-repair.json"));
                JobFile file = JobFile.Read(text);
                here.Job = new(ImportCommand.Keep(options.Store, file, text, "planner A", DateTimeOffset.UnixEpoch), file);
                LiveFlight flight = new(new() { Name = "by hand", Job = here.Job, Plan = Stillhook.Job.Plan(file.Request, new()), Setup = LiftSetup.From(file.Request), Cards = [new(null, null, new())] });
                here.desk = new(flight, LiveInput.Start(LiveSourceText.ParseAll([$"udp:{FreePort.Udp()}"], []), flight, new()), options.Store);
                return options with { Live = here.desk };
            });
            return here;
        }

        public async ValueTask DisposeAsync()
        {
            await Site.DisposeAsync();
            await desk.Input.DisposeAsync();
            await desk.Flight.DisposeAsync();
        }
    }
}
