using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.Tests.App.Security;

/// <summary>The pages as they stand without being told otherwise: on this machine, without accounts.</summary>
public sealed class ClosedSite : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;
    private WebApplication app = null!;

    internal WorkStore Store { get; private set; } = null!;

    public Uri Address { get; private set; } = null!;

    public IReadOnlyList<RouteEndpoint> Endpoints => [.. app.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()];

    public IReadOnlyList<string> Addresses => [.. app.Urls];

    internal static async Task<ClosedSite> Start(Func<ServingOptions, ServingOptions>? how = null)
    {
        ClosedSite site = new();
        site.Store = WorkStore.Open(Path.Combine(site.folder, "work.db"), StoreOption.Options);
        ServingOptions options = new() { Store = site.Store, Steps = DebriefSteps.Usual(400), Port = 0 };
        site.app = WebServer.Build(how?.Invoke(options) ?? options);
        await site.app.StartAsync();
        site.Address = new(WebServer.Address(site.app));
        return site;
    }

    public async ValueTask DisposeAsync()
    {
        await app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }
}
