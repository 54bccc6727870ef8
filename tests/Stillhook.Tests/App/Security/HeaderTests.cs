using System.Net;
using System.Text.RegularExpressions;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Files.Jobs;
using Stillhook.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>What every answer says to the browser, and that the pages need nothing looser.</summary>
public sealed partial class HeaderTests(HeaderTests.Shared shared) : IClassFixture<HeaderTests.Shared>
{
    private readonly HttpClient client = shared.Client;
    private readonly string[] pages = shared.Pages;

    /// <summary>A program with a job and a flight whose names are markup.</summary>
    public sealed class Shared : SharedSite
    {
        public HttpClient Client { get; private set; } = null!;
        public string[] Pages { get; private set; } = [];

        public override async ValueTask InitializeAsync()
        {
            await base.InitializeAsync();
            await Site.Account("all", [Role.Planner, Role.Pilot, Role.Maintenance], allFlights: true);
            Client = await Site.SignedIn("all");
            string text = File.ReadAllText(Repository.File("examples/path-repair.json"));
            KeptJob job = ImportCommand.Keep(Site.Store, JobFile.Read(text), text, "<script>alert(1)</script>", DateTimeOffset.UnixEpoch);
            long flight = Site.Flight("<img src=x onerror=alert(1)>.gpx", 0, null, null);
            string j = $"/jobs/{job.Key}";
            Pages = ["/sign-in", "/account", "/jobs", j, j + "/plan", j + "/why", j + "/cards", j + "/cards/print", j + "/report", j + "/next", "/flights", $"/deliveries/{flight}", "/days", "/days/2026-06-01", "/aircraft", "/live", "/live/code", "/nothing", "/units"];
        }
    }

    [Fact]
    [Tried("every kind of page (also refused, missing and redirecting ones), for a policy on content, framing, types and referrers", "no inline script or style is allowed, no frame, no foreign source; HTTPS is remembered for a year; nothing is kept in a cache")]
    public async Task EveryAnswer_IsStrict()
    {
        foreach (string page in pages)
        {
            using HttpResponseMessage answer = await client.GetAsync(page, TestContext.Current.CancellationToken);
            string policy = answer.Headers.GetValues("Content-Security-Policy").Single();
            Assert.StartsWith("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("base-uri 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("*", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Equal("DENY", answer.Headers.GetValues("X-Frame-Options").Single());
            Assert.Equal("same-origin", answer.Headers.GetValues("Referrer-Policy").Single());
            Assert.StartsWith("max-age=31536000", answer.Headers.GetValues("Strict-Transport-Security").Single(), StringComparison.Ordinal);
            Assert.True(answer.Headers.CacheControl!.NoStore, page);
            Assert.False(answer.Headers.Contains("Server"));
        }
    }

    [Fact]
    [Tried("markup in the names of a flight and of who saved a job, on every page", "shown as text; no page holds a script or style of its own, nor an attribute that runs one")]
    public async Task EveryPage_HoldsNoInlineScriptOrStyle()
    {
        foreach (string page in pages)
        {
            using HttpResponseMessage answer = await client.GetAsync(page, TestContext.Current.CancellationToken);
            string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            Assert.DoesNotMatch(InlineScript(), html);
            Assert.DoesNotMatch(Attributes(), Regex.Replace(html, "<style>.*?</style>", "", RegexOptions.Singleline));
            if (!page.EndsWith("/print", StringComparison.Ordinal))
                Assert.DoesNotContain("<style", html, StringComparison.Ordinal);
        }
    }

    [GeneratedRegex(@"<script(?![^>]*\ssrc=""/assets/)")]
    private static partial Regex InlineScript();

    // An attribute of a tag, not text between tags.
    [GeneratedRegex(@"<[a-zA-Z][^<>]*\s(style|on[a-z]+)\s*=\s*[""']")]
    private static partial Regex Attributes();
}
