using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing;
using Stillhook.App.Serving;

namespace Stillhook.Tests.App.Security;

/// <summary>Every address of the running program, one after the other.</summary>
public sealed class EveryAddressTests(SharedSite shared) : IClassFixture<SharedSite>
{
    // The short list of what is open to everybody; the code of the ground page is a way of its own to be let in.
    private static readonly string[] Open = ["GET /assets/{digest}/{**name}", "GET /sign-in", "POST /sign-in", "GET /live/code", "POST /live/code"];

    private readonly OpenedSite site = shared.Site;

    [Fact]
    [Tried("each address of the program, by reading what it is registered with", "names a right, or stands in the short list of open ones; those that change something and bind no form are counted too")]
    public void EveryAddress_NamesARightOrIsOpen()
    {
        string[] without = [.. site.Endpoints.Where(e => Rights(e).Length == 0).Select(Name)];
        Assert.Equal(Open.Order(StringComparer.Ordinal), without.Order(StringComparer.Ordinal));
        Assert.All(site.Endpoints.Where(e => Rights(e).Length > 0), e => Assert.Null(e.Metadata.GetMetadata<IAllowAnonymous>()));
        Assert.True(site.Endpoints.Count > 70, "the walk found too few addresses to be one");
    }

    [Fact]
    [Tried("each address, without signing in", "leads to the sign-in page, or is refused (401); of open ones only the sign-in page, its files and the code page answer")]
    public async Task EveryAddress_WithoutSigningIn_AsksForIt()
    {
        HttpClient client = site.Client();
        foreach (RouteEndpoint endpoint in site.Endpoints.Where(e => Rights(e).Length > 0))
            foreach (HttpMethod method in Methods(endpoint))
            {
                using HttpResponseMessage answer = await client.SendAsync(Request(method, endpoint), TestContext.Current.CancellationToken);
                string said = $"{method} {Path(endpoint)}: {(int)answer.StatusCode}";
                if (method == HttpMethod.Get)
                    Assert.True(answer.StatusCode == HttpStatusCode.Found && answer.Headers.Location!.OriginalString.StartsWith("/sign-in?back=", StringComparison.Ordinal), said);
                else
                    Assert.True(answer.StatusCode == HttpStatusCode.Unauthorized, said);
            }
    }

    [Theory]
    [InlineData("planner", false), InlineData("pilot", false), InlineData("ground", false), InlineData("maintenance", false), InlineData("viewer", false), InlineData("viewer", true)]
    [Tried("each address, signed in with each role (and with leave to read all flights)", "refused (403) where the role has no right; where it has one, a request that changes something and brings no form token is refused (400)")]
    public async Task EveryAddress_WithARole_FollowsTheRights(string role, bool allFlights)
    {
        await site.Account(role + allFlights, [role], allFlights);
        HttpClient client = await site.SignedIn(role + allFlights);
        int refused = 0;
        foreach (RouteEndpoint endpoint in site.Endpoints.Where(e => Rights(e).Length > 0))
            foreach (HttpMethod method in Methods(endpoint))
            {
                using HttpResponseMessage answer = await client.SendAsync(Request(method, endpoint), TestContext.Current.CancellationToken);
                bool may = Rights(endpoint).All(r => Access.Given[r].Contains(role) || (r == Access.Flights && allFlights));
                string said = $"{role}: {method} {Path(endpoint)}: {(int)answer.StatusCode}";
                Assert.True(answer.StatusCode == HttpStatusCode.Forbidden == !may, said);
                Assert.True(!may || method == HttpMethod.Get || answer.StatusCode == HttpStatusCode.BadRequest, said);
                refused += may ? 0 : 1;
            }
        Assert.True(refused > 0 || role == Role.Pilot, "every role but that of a pilot is kept from some pages");
    }

    [Fact]
    [Tried("each address of a program that is not opened, with POST and without a form token, as a foreign page in the same browser would", "refused (400), nothing is changed")]
    public async Task NotOpened_WithoutFormToken_ChangesNothing()
    {
        await using ClosedSite closed = await ClosedSite.Start();
        Guid job = closed.Store.Jobs.Save(new("kept", "{}"), "A", DateTimeOffset.UnixEpoch).Key;
        using HttpClient client = new() { BaseAddress = closed.Address };
        RouteEndpoint[] posts = [.. closed.Endpoints.Where(e => Methods(e).Contains(HttpMethod.Post) && e.RoutePattern.RawText != LiveRoutes.Code)];
        Assert.True(posts.Length > 20);
        foreach (RouteEndpoint endpoint in posts)
        {
            string path = Path(endpoint).Replace(Guid.Empty.ToString(), job.ToString(), StringComparison.Ordinal);
            foreach (HttpContent? content in new HttpContent?[] { null, new FormUrlEncodedContent([new("sure", "yes")]), new StringContent("x", null, "text/plain"), new MultipartFormDataContent { { new StringContent("yes"), "sure" } } })
            {
                using HttpResponseMessage answer = await client.PostAsync(path, content, TestContext.Current.CancellationToken);
                Assert.True(answer.StatusCode == HttpStatusCode.BadRequest, $"POST {path}: {(int)answer.StatusCode}");
            }
        }
        Assert.Equal(job, Assert.Single(closed.Store.Jobs.List()).Key);
    }

    /// <summary>With a form of the kind that the address takes: otherwise the request would be led to the page for what is not there.</summary>
    private static HttpRequestMessage Request(HttpMethod method, RouteEndpoint endpoint) => new(method, Path(endpoint))
    {
        Content = method == HttpMethod.Get ? null
            : endpoint.Metadata.GetMetadata<IAcceptsMetadata>()?.ContentTypes is ["multipart/form-data"] ? new MultipartFormDataContent { { new StringContent("yes"), "sure" } } : new FormUrlEncodedContent([new("sure", "yes")]),
    };

    private static string[] Rights(RouteEndpoint endpoint) => [.. endpoint.Metadata.OfType<IAuthorizeData>().Select(a => a.Policy).OfType<string>()];

    private static string Name(RouteEndpoint endpoint) => $"{Methods(endpoint)[0]} {endpoint.RoutePattern.RawText}";

    private static HttpMethod[] Methods(RouteEndpoint endpoint) => endpoint.Metadata.GetMetadata<IHttpMethodMetadata>() is { } methods ? [.. methods.HttpMethods.Select(m => new HttpMethod(m))] : [HttpMethod.Get, HttpMethod.Post, HttpMethod.Delete];

    /// <summary>The address with something of the right kind in each place.</summary>
    private static string Path(RouteEndpoint endpoint) => "/" + Regex.Replace(endpoint.RoutePattern.RawText!.TrimStart('/'), @"\{\*{0,2}(\w+)(:\w+)?\}", m => m.Groups[2].Value switch
    {
        ":guid" => Guid.Empty.ToString(), ":long" or ":int" => "999", ":nonfile" => "nothing-here", _ => m.Groups[1].Value == "day" ? "2026-06-01" : "x",
    });
}
