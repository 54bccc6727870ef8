using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Stillhook.Bench.Baselines;

/// <summary>The least a page of this kind can be: the same server with one rendered component that holds a heading.</summary>
internal static class EmptyPageProgram
{
    public static int Run()
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.Services.AddRazorComponents();
        WebApplication app = builder.Build();
        app.Urls.Add("http://127.0.0.1:0");
        app.MapGet("/", () => new RazorComponentResult<EmptyPage>());
        app.Start();
        Console.WriteLine("Open " + app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First() + " in a browser.");
        app.WaitForShutdown();
        return 0;
    }

    private sealed class EmptyPage : ComponentBase
    {
        protected override void BuildRenderTree(RenderTreeBuilder builder) => builder.AddMarkupContent(0, "<!doctype html><html lang=\"en\"><head><title>Empty</title></head><body><h1>Empty</h1></body></html>");
    }
}
