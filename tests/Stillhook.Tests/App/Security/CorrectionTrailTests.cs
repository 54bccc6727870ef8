using System.IO.Compression;
using System.Net;
using System.Text;
using Stillhook.App.Serving;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>Who corrected what, and what of the accounts leaves the store.</summary>
public sealed class CorrectionTrailTests(CorrectionTrailTests.Shared shared) : IClassFixture<CorrectionTrailTests.Shared>
{
    private readonly OpenedSite site = shared.Site;
    private readonly HttpClient client = shared.Client;
    private readonly long flight = shared.Flight();

    /// <summary>A pilot with a flight for each test.</summary>
    public sealed class Shared : SharedSite
    {
        private string pilot = "";
        private int flights;

        public HttpClient Client { get; private set; } = null!;

        public override async ValueTask InitializeAsync()
        {
            await base.InitializeAsync();
            pilot = (await Site.Account("anna", [Role.Pilot])).Id;
            Client = await Site.SignedIn("anna");
        }

        public long Flight() => Site.Flight($"own{++flights}.gpx", 10 + flights, null, pilot);
    }

    [Fact]
    [Tried("correcting a lift in another person's name", "the account that is signed in stands beside it, with when, from what and to what; the page shows it")]
    public async Task Correction_StandsUnderTheAccount()
    {
        await Correct("99", "01");
        Correction kept = Assert.Single(site.Store.Lifts.Find(flight, 1)!.Corrections);
        Assert.Equal(("anna", "01", "99"), (kept.By, kept.Old, kept.New));
        Assert.InRange(kept.At, DateTimeOffset.UtcNow.AddMinutes(-5), DateTimeOffset.UtcNow);
    }

    [Fact]
    [Tried("getting rid of a correction: putting the old value back, taking it back, removing the flight", "each change is one more line of the trail; a flight with corrections can't be removed from a page")]
    public async Task Correction_StaysInTheTrail()
    {
        await Correct("99", "01");
        await Correct("01", "99");
        Assert.Equal(["99", "01"], site.Store.Lifts.Find(flight, 1)!.Corrections.Select(c => c.New));
        using HttpResponseMessage removed = await client.PostAsync($"/flights/{flight}/remove", await OpenedSite.Form(client, "/flights", ("sure", "yes")), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Conflict, removed.StatusCode);
        Assert.Equal(2, site.Store.Lifts.Find(flight, 1)!.Corrections.Count);
    }

    [Fact]
    [Tried("the ground role writing anything of a day but the tally, and under another name", "refused (403); a line of the tally stands under the account's name")]
    public async Task Ground_WritesTheTallyAlone()
    {
        await site.Account("ground", [Role.Ground]);
        HttpClient ground = await site.SignedIn("ground");
        WorkDay day = new(new(2026, 6, 1));
        using HttpResponseMessage fuel = await ground.PostAsync("/days/2026-06-01", await OpenedSite.Form(ground, "/days/2026-06-01", ("kind-of-entry", "fuel"), ("by", "anna"), ("at", "10:00"), ("fuel", "300kg")), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, fuel.StatusCode);
        using HttpResponseMessage tally = await ground.PostAsync("/days/2026-06-01", await OpenedSite.Form(ground, "/days/2026-06-01", ("kind-of-entry", "tally"), ("by", "anna"), ("load", "7")), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Found, tally.StatusCode);
        Assert.Equal("ground", Assert.Single(site.Store.Days.Entries<TallyEntry>(day)).By);
    }

    [Fact]
    [Tried("looking for passwords in an archive of everything, and in a backup", "an archive holds no hash, stamp or key of an account (who corrected what stands in it by name); a backup of a SQLite store is the store itself and holds the hashes")]
    public async Task Archive_HoldsNoAccount()
    {
        Account account = await site.With(async accounts => (await accounts.FindByNameAsync("anna"))!);
        using MemoryStream archive = new();
        Archive.ExportAll(site.Store, archive);
        string all = Unpacked(archive);
        foreach (string secret in (string[])[account.PasswordHash!, account.SecurityStamp!, account.Id])
            Assert.DoesNotContain(secret, all, StringComparison.Ordinal);
        BackupReceipt backup = Backup.Write(site.Store, Path.Combine(site.Folder, "backup.zip"));
        using MemoryStream whole = new(await File.ReadAllBytesAsync(backup.File, TestContext.Current.CancellationToken));
        Assert.Contains(account.PasswordHash!, Unpacked(whole), StringComparison.Ordinal);
    }

    private async Task Correct(string to, string from)
    {
        using HttpResponseMessage answer = await client.PostAsync($"/deliveries/{flight}/lifts/1", await OpenedSite.Form(client, $"/deliveries/{flight}", ("number", to), ("read-number", from), ("who", "somebody else")), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
    }

    private static string Unpacked(Stream zip)
    {
        using ZipArchive archive = new(zip, ZipArchiveMode.Read);
        StringBuilder text = new();
        foreach (ZipArchiveEntry entry in archive.Entries)
        {
            using StreamReader reader = new(entry.Open(), Encoding.Latin1);
            text.Append(reader.ReadToEnd());
        }
        return text.ToString();
    }
}
