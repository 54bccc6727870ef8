using System.CommandLine;
using System.Net;
using System.Security.Cryptography.X509Certificates;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook serve</c>: the pages, for this machine only unless they are opened to a network.</summary>
internal static class ServeCommand
{
    public static Command Create()
    {
        ServingArguments serving = new("stillhook.db");
        OpenArguments opening = new();
        Command command = new("serve", """
            Opens the pages in a browser on this machine; nothing leaves it and no account is needed.
            With --open they stand on a network: everybody signs in with an account, and HTTPS is needed, of a certificate here or of a proxy in front.
            Example: stillhook serve --port 5080
            Example: stillhook serve --open 192.168.1.20:5443 --certificate stillhook.pfx --certificate-password-file password.txt
            Example: stillhook serve --open 127.0.0.1:5081 --proxy-https --host stillhook.example
            Exit code: 0 ended, 2 it can't be used.
            """);
        serving.AddTo(command);
        opening.AddTo(command);
        command.SetAction(async (arguments, cancellation) =>
        {
            WorkStore store = serving.OpenStore(arguments);
            if (!opening.TryRead(arguments, store, out OpenedPages? opened, out string problem))
            {
                Console.Error.WriteLine($"serve: {problem}");
                return ExitCode.BadInput;
            }
            using X509Certificate2? certificate = opened?.Certificate;
            return await serving.Run(arguments, store, cancellation, opened: opened);
        });
        return command;
    }
}

/// <summary>Where the store is and on which port the pages stand; shared by <c>serve</c> and <c>demo</c>.</summary>
internal sealed class ServingArguments(string defaultStore)
{
    private readonly StoreOption store = new(defaultStore);
    private readonly Option<int> port = new("--port") { Description = "Port on this machine; 0 takes any free one", DefaultValueFactory = _ => 5080 };
    private readonly Option<int> limit = new("--upload-limit-mb") { Description = "Largest record a page takes, MB", DefaultValueFactory = _ => 400 };

    public void AddTo(Command command)
    {
        command.Options.Add(store.Place);
        command.Options.Add(port);
        command.Options.Add(limit);
    }

    public WorkStore OpenStore(ParseResult arguments) => store.Open(arguments);

    /// <summary>Asks for a page once, so that the first one a person opens is compiled already.</summary>
    private static async Task FirstPage(WebApplication app, CancellationToken cancellation)
    {
        using HttpClient client = new();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(WebServer.Address(app) + "/jobs"), cancellation);
    }

    /// <summary>Serves until interrupted, with the flight listened to if any; the address goes to standard output as soon as the pages answer.</summary>
    public async Task<int> Run(ParseResult arguments, WorkStore work, CancellationToken cancellation, LiveDesk? live = null, IPEndPoint? open = null, OneTimeCodes? codes = null, OpenedPages? opened = null)
    {
        WebApplication app = WebServer.Build(new()
        {
            Store = work,
            Steps = DebriefSteps.Usual(arguments.GetValue(limit)),
            Port = arguments.GetValue(port),
            UploadLimitMb = arguments.GetValue(limit),
            Live = live,
            Open = open,
            Codes = codes,
            Opened = opened,
        });
        try
        {
            await app.StartAsync(cancellation);
        }
        catch (IOException e)
        {
            string where = opened is not null ? $"{opened.Address}" : open is null ? $"port {arguments.GetValue(port)}" : $"port {arguments.GetValue(port)} or {open}";
            Console.Error.WriteLine($"serve: {where} can't be used: {e.Message} Take another with --port, or --port 0 for any free one.");
            return ExitCode.BadInput;
        }
        if (opened is null)
        {
            await FirstPage(app, cancellation);
            Console.WriteLine($"Open {WebServer.Address(app)} in a browser on this machine. Ctrl+C ends it.");
        }
        else
        {
            Console.Error.WriteLine($"serve: warning: the pages are opened to the network at {opened.Address}; whoever has an account can sign in from there.");
            Console.WriteLine(opened.Certificate is null
                ? $"The pages stand at {WebServer.Address(app)} for the proxy in front, with an account. Ctrl+C ends it."
                : $"Open https://{(opened.Shown.Contains(':', StringComparison.Ordinal) ? $"[{opened.Shown}]" : opened.Shown)}:{opened.Address.Port} in a browser and sign in. Ctrl+C ends it.");
        }
        await app.WaitForShutdownAsync(cancellation);
        return ExitCode.Done;
    }
}
