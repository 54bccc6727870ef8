namespace Stillhook.Tests.App.Security;

/// <summary>One opened program for all tests of a class.</summary>
public class SharedSite : IAsyncLifetime
{
    public OpenedSite Site { get; private set; } = null!;

    public virtual async ValueTask InitializeAsync() => Site = await Begin();

    public async ValueTask DisposeAsync()
    {
        await Site.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    protected virtual Task<OpenedSite> Begin() => OpenedSite.Start();
}
