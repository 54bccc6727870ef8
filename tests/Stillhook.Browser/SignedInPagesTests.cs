using System.Net;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.Browser;

/// <summary>The invented day in a program opened with accounts over HTTPS, with an account of every role; each is called as its role.</summary>
public sealed class OpenedProgram : DemoProgram
{
    public const string Password = "grey gravel over the ridge";

    private readonly X509Certificate2 certificate = Certificate();

    protected override OpenedPages Opened => new() { Address = new(IPAddress.Loopback, 0), Certificate = certificate, TriesAnAddress = 1000, TriesAName = 100 };

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        ServiceCollection services = new();
        services.AddLogging();
        AccountSetup.AddIdentity(services, Program.Store);
        await using ServiceProvider provider = services.BuildServiceProvider();
        await using AsyncServiceScope scope = provider.CreateAsyncScope();
        UserManager<Account> accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        foreach (string role in Access.Roles)
        {
            Account account = new() { UserName = role };
            Assert.True((await accounts.CreateAsync(account, Password)).Succeeded);
            await accounts.AddClaimsAsync(account, [new(ClaimTypes.Role, role), new(Access.FliesAs, "pilot B")]);
        }
    }

    private static X509Certificate2 Certificate()
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using X509Certificate2 made = new CertificateRequest("CN=stillhook test", key, HashAlgorithmName.SHA256).CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
        return X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pfx), null);
    }
}

/// <summary>Signing in, and the pages as each role has them, at three widths: rules of accessibility, nothing wider than the window, no form that the role may not send.</summary>
public sealed class SignedInPagesTests(Site site, OpenedProgram program) : IClassFixture<OpenedProgram>
{
    private static readonly int[] Widths = [390, 820, 1440];

    [Fact]
    public async Task SignIn_AtThreeWidths_IsAccessibleAndFits()
    {
        await using Watched watched = await site.Open("/sign-in", address: program.Address);
        foreach (int width in Widths)
        {
            await watched.Page.SetViewportSizeAsync(width, width == 390 ? 844 : 1000);
            await watched.Page.GotoAsync(program.Address + "/sign-in");
            await Look(watched.Page, "sign-in", width, kept: true);
        }
        watched.NothingWentWrong();
        // The browser writes every refused answer to its console, so this comes after.
        foreach (int width in Widths)
        {
            await watched.Page.SetViewportSizeAsync(width, 1000);
            await watched.Page.GotoAsync(program.Address + "/sign-in");
            await Enter(watched.Page, "planner", "not the password");
            await Assertions.Expect(watched.Page.Locator("#mistake")).ToBeVisibleAsync();
            await Look(watched.Page, "sign-in-refused", width);
        }
    }

    [Theory]
    [InlineData(Role.Planner, "day", "account"), InlineData(Role.Pilot, "lift-plan", "deliveries"), InlineData(Role.Ground, "cards", "day"), InlineData(Role.Maintenance, "day", "aircraft"), InlineData(Role.Viewer, "job-day", "job-loads", "reports")]
    public async Task Pages_OfARole_AreAccessibleAndFit(string role, params string[] names)
    {
        await using Watched watched = await site.Open("/sign-in", 390, address: program.Address);
        await Enter(watched.Page, role, OpenedProgram.Password);
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Button, new() { Name = "Sign out", Exact = true })).ToBeVisibleAsync();
        foreach (string name in names)
            foreach (int width in Widths)
            {
                await watched.Page.SetViewportSizeAsync(width, 1000);
                await watched.Page.GotoAsync(program.Address + Of(name), new() { WaitUntil = WaitUntilState.NetworkIdle });
                await Look(watched.Page, name == "account" ? name : $"{role}-{name}", width, kept: name == "account");
            }
        watched.NothingWentWrong();
    }

    private string Of(string name) => name == "account" ? AccountRoutes.Own : program.Pages[name];

    private static async Task Enter(IPage page, string name, string password)
    {
        await page.GetByLabel("Name").FillAsync(name);
        await page.GetByLabel("Password").FillAsync(password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
    }

    private static async Task Look(IPage page, string name, int width, bool kept = false)
    {
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0, $"{name} is wider than {width}: {await page.EvaluateAsync<string>(PagesTests.Widest)}");
        await PagesTests.Rules(page, $"{name} at {width}");
        await PagesTests.Picture(page, name, width, kept);
    }
}
