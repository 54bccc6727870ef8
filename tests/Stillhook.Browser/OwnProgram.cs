using Microsoft.AspNetCore.Builder;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Files.Records;
using Stillhook.Store;

namespace Stillhook.Browser;

/// <summary>The whole program on an empty store of its own; it can be stopped and started again on the same port.</summary>
public sealed class OwnProgram : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("own-program").FullName;
    private WebApplication? app;
    private int port;

    /// <summary>Where its pages are.</summary>
    public string Address { get; private set; } = "";

    /// <summary>Its store, to look into.</summary>
    public WorkStore Store { get; private set; } = null!;

    /// <summary>Folder for a test's files.</summary>
    public string Folder => folder;

    /// <summary>Starts it on any free port, the next time on the same.</summary>
    /// <param name="opened">Accounts and HTTPS; null stays on this machine without any.</param>
    public async Task Start(OpenedPages? opened = null)
    {
        Store = WorkStore.Open(Path.Combine(folder, "work.db"), StoreOption.Options);
        app = WebServer.Build(new()
        {
            Store = Store,
            Steps = new((content, name) => RecordReader.Read(content, name), (record, setup) =>
            {
                var debrief = Job.Debrief(record, setup);
                return (debrief, Job.Next(debrief));
            }),
            Port = port,
            Opened = opened,
        });
        await app.StartAsync();
        Address = WebServer.Address(app);
        port = new Uri(Address).Port;
    }

    /// <summary>Stops it as a closed lid would.</summary>
    public async Task Stop()
    {
        await app!.StopAsync();
        await app.DisposeAsync();
        app = null;
    }

    public async ValueTask DisposeAsync()
    {
        if (app is not null)
            await Stop();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }
}
