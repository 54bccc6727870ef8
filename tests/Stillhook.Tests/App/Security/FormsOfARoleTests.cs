using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Template;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Files.Jobs;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>What a page offers to whom.</summary>
public sealed partial class FormsOfARoleTests(SharedSite shared) : IClassFixture<SharedSite>
{
    private readonly OpenedSite site = shared.Site;

    private static CancellationToken Now => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(Role.Planner), InlineData(Role.Pilot), InlineData(Role.Ground), InlineData(Role.Maintenance), InlineData(Role.Viewer)]
    [Tried("the forms and links on the pages of a job, its day, its report and the libraries, as each role has them", "none leads to what the role is refused; where something is left out, one line says which roles have it")]
    public async Task Page_OfARole_OffersWhatTheRoleMayDo(string role)
    {
        string text = await File.ReadAllTextAsync(Repository.File("examples/path-repair.json"), Now);
        KeptJob job = site.Store.Jobs.List().FirstOrDefault() ?? ImportCommand.Keep(site.Store, JobFile.Read(text), text, "planner A", DateTimeOffset.UnixEpoch);
        string day = job.Day!.Value.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), of = $"/jobs/{job.Key}";
        if (site.Store.Days.Entries<TallyEntry>(new(job.Day.Value)).Count == 0)
            site.Store.Days.Add(new(job.Day.Value), new TallyEntry(1, null, "1", null, null), "planner A", DateTimeOffset.UnixEpoch);
        await site.Account(role, [role]);
        HttpClient client = await site.SignedIn(role);
        int pages = 0, offered = 0;
        foreach (string page in (string[])["/jobs", of, of + "?part=sites", of + "?part=loads", of + "/plan", of + "/approach", of + "/cards", of + "/next", of + "/report", "/days", $"/days/{day}", "/aircraft", "/flights", "/account"])
        {
            using HttpResponseMessage answer = await client.GetAsync(page, Now);
            if (answer.StatusCode != HttpStatusCode.OK)
                continue;
            pages++;
            string html = await answer.Content.ReadAsStringAsync(Now);
            foreach (Match form in Forms().Matches(html).Where(f => !f.Value.Contains("data-job-form=\"off\"", StringComparison.Ordinal)))
                foreach (string to in Actions().Matches(form.Value).Select(a => a.Groups[1].Value))
                {
                    offered++;
                    Assert.True(May(role, "POST", to), $"{role} on {page} is offered the form {to}");
                }
            foreach (string to in Links().Matches(html).Select(l => l.Groups[1].Value).Where(l => l.StartsWith('/')))
                Assert.True(May(role, "GET", to), $"{role} on {page} is led to {to}");
        }
        Assert.True(pages >= 3 && offered >= 2 * pages, $"{pages} pages with {offered} forms are too few to tell");
    }

    [Fact]
    [Tried("the ground role looking for more than the tally on a day's page, and maintenance for any form", "the other forms and other people's lines are not there, and one line says whose they are")]
    public async Task DayPage_OffersTheTallyToGroundAlone()
    {
        string address = "/days/2025-03-04";
        site.Store.Days.Add(new(new(2025, 3, 4)), new TallyEntry(1, null, "1", null, null), "somebody", DateTimeOffset.UnixEpoch);
        await site.Account("gina", [Role.Ground]);
        await site.Account("max", [Role.Maintenance]);
        string ground = await (await site.SignedIn("gina")).GetStringAsync(address, Now), maintenance = await (await site.SignedIn("max")).GetStringAsync(address, Now);
        Assert.Equal(["tally"], Kinds().Matches(ground).Select(m => m.Groups[1].Value));
        Assert.DoesNotContain("Withdraw it", ground, StringComparison.Ordinal);
        Assert.Contains("Writing more than the tally is for the roles planner and pilot.", ground, StringComparison.Ordinal);
        Assert.DoesNotContain("kind-of-entry", maintenance, StringComparison.Ordinal);
        Assert.Contains("Writing of a day is for the roles planner, pilot and ground.", maintenance, StringComparison.Ordinal);
    }

    private bool May(string role, string method, string to)
    {
        string path = WebUtility.HtmlDecode(to).Split('?', '#')[0];
        RouteEndpoint? endpoint = site.Endpoints.Where(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains(method) == true)
            .OrderBy(e => e.RoutePattern.InboundPrecedence).FirstOrDefault(e => new TemplateMatcher(TemplateParser.Parse(e.RoutePattern.RawText!), []).TryMatch(path, []) && Fits(e, path));
        Assert.True(endpoint is not null, $"nothing answers {method} {path}");
        return endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().Select(a => a.Policy!).All(p => Access.Given[p].Contains(role));
    }

    /// <summary>A key or a number stands where the address has one; the matcher doesn't look.</summary>
    private static bool Fits(RouteEndpoint endpoint, string path)
    {
        string[] pattern = endpoint.RoutePattern.RawText!.Trim('/').Split('/'), given = path.Trim('/').Split('/');
        return pattern.Length != given.Length || pattern.Zip(given).All(p => !p.First.Contains(":guid", StringComparison.Ordinal) || Guid.TryParse(p.Second, out _));
    }

    [GeneratedRegex("<form [^>]*method=\"post\".*?</form>", RegexOptions.Singleline)]
    private static partial Regex Forms();

    [GeneratedRegex("(?:form)?action=\"([^\"]+)\"")]
    private static partial Regex Actions();

    [GeneratedRegex("<a [^>]*href=\"([^\"]+)\"")]
    private static partial Regex Links();

    [GeneratedRegex("name=\"kind-of-entry\" value=\"([^\"]+)\"")]
    private static partial Regex Kinds();
}
