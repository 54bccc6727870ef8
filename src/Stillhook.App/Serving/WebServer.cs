using System.Globalization;
using System.Net;
using System.Security.Authentication;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace Stillhook.App.Serving;

/// <summary>Sets the pages up: loopback only unless they are opened with accounts, no configuration from outside, nothing fetched from elsewhere.</summary>
public static class WebServer
{
    // Room for the form's own text round the file.
    private const long FormOverheadBytes = 1 << 20;

    // Own choice: some dozen people with a few open pages each.
    private const int MostConnections = 500;

    /// <summary>Makes the server; it listens once started.</summary>
    public static WebApplication Build(ServingOptions options)
    {
        // The empty builder reads no environment variable and no settings file, so nothing outside can open another address.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new() { ApplicationName = typeof(WebServer).Assembly.GetName().Name });
        long limit = options.UploadLimitMb * 1_000_000L + FormOverheadBytes;
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = limit;
            kestrel.Limits.MinRequestBodyDataRate = new(bytesPerSecond: 1000, options.SlowUpload);
            if (options.Opened is { } opened)
            {
                kestrel.Limits.MaxConcurrentConnections = MostConnections;
                kestrel.Listen(opened.Address, listen => Https(listen, opened));
                return;
            }
            kestrel.Listen(IPAddress.Loopback, options.Port, listen => listen.Protocols = HttpProtocols.Http1);
            if (options.Open is { } open)
                kestrel.Listen(open, listen => listen.Protocols = HttpProtocols.Http1);
        });
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.Logging.AddJsonConsole().SetMinimumLevel(LogLevel.Warning)
            // That the keys lie unencrypted beside the store is meant: whoever reads that disk reads the store too.
            .AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error)
            // A form sent from a page older than the keys is answered in words; it is no fault of the program.
            .AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.None);
        builder.Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Services.AddRouting();
        builder.Services.AddRazorComponents();
        builder.Services.AddAntiforgery(antiforgery =>
        {
            antiforgery.HeaderName = "X-Form-Token";
            antiforgery.Cookie.Name = options.Opened is null ? "stillhook-form" : "__Host-stillhook-form";
            antiforgery.Cookie.SecurePolicy = options.Opened is null ? CookieSecurePolicy.SameAsRequest : CookieSecurePolicy.Always;
            // Said by the policy on content for everybody, and below for what is older than that.
            antiforgery.SuppressXFrameOptionsHeader = true;
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
        });
        builder.Services.AddDataProtection().SetApplicationName("stillhook")
            .PersistKeysToFileSystem(Keys(options.Store.Folder));
        builder.Services.Configure<FormOptions>(form => form.MultipartBodyLengthLimit = limit);
        builder.Services.AddHttpContextAccessor();
        builder.Services.AddSingleton(options).AddSingleton<FlightDebriefs>().AddSingleton<FlightIntake>().AddSingleton<LiftCorrections>()
            .AddSingleton<JobWork>()
            .AddSingleton<JobEditing>();
        builder.Services.AddSingleton<GroundStore>().AddSingleton<ApproachWork>().AddSingleton<OpenStreams>();
        Access.AddPolicies(builder.Services, options.Opened is not null);
        if (options.Opened is not null)
            AccountSetup.Add(builder.Services, options.Store, options.Opened);

        WebApplication app = builder.Build();
        if (options.Opened is not null)
            AccountSetup.UseHttpsOnly(app, options.Opened);
        app.Use((http, next) => Guard(http, next, limit, options));
        app.UseRouting();
        if (options.Opened is not null)
        {
            app.UseRateLimiter();
            app.UseAuthentication();
        }
        app.UseAuthorization();
        app.Use((http, next) => FormGuard.Run(http, next, limit, options.LongestUpload));
        app.UseAntiforgery();
        if (options.Opened is not null)
            AccountRoutes.Map(app);
        CarriedFiles.Map(app);
        JobRoutes.Map(app);
        PlanRoutes.Map(app);
        WhyRoutes.Map(app);
        ApproachRoutes.Map(app);
        CardRoutes.Map(app);
        FlightRoutes.Map(app);
        DeliveryRoutes.Map(app);
        NextRoutes.Map(app);
        DayRoutes.Map(app);
        ReportRoutes.Map(app);
        AircraftRoutes.Map(app);
        LiveRoutes.Map(app);
        app.MapFallback("{*path}", () => PageResults.Message("Not here", "There is no such page.", "Go back to the jobs.", 404)).RequireAuthorization(Access.Signed);
        app.Lifetime.ApplicationStarted.Register(() => _ = Task.Run(() => WarmUp(app.Services)));
        return app;
    }

    /// <summary>Opens the flight taken in last, which is the one most likely asked for: the first page then waits neither for it nor for the machine code of a debrief.</summary>
    private static void WarmUp(IServiceProvider services)
    {
        try
        {
            if (services.GetRequiredService<ServingOptions>().Store.Flights.List() is [var newest, ..])
                services.GetRequiredService<FlightDebriefs>().Open(newest.Id);
        }
        catch (Exception e) when (e is Stillhook.Store.StoreException or IOException or ObjectDisposedException)
        {
            // Whoever opens the flight is told; nobody asked for it yet.
        }
    }

    /// <summary>Where a started server is to be opened, such as http://127.0.0.1:5080.</summary>
    public static string Address(WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        return app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault()
            ?? throw new InvalidOperationException("The server is not started.");
    }

    private static async Task Guard(HttpContext http, RequestDelegate next, long limit, ServingOptions options)
    {
        IHeaderDictionary headers = http.Response.Headers;
        headers.ContentSecurityPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers.CacheControl = "no-store";
        if (http.Request.IsHttps)
            headers.StrictTransportSecurity = "max-age=31536000";
        if (options.Opened is null && (!IPAddress.IsLoopback(http.Connection.LocalIpAddress ?? IPAddress.None) || http.Connection.LocalPort == options.Open?.Port))
        {
            await FromNetwork(http, next, options);
            return;
        }
        // A name that was made to point at this machine from outside is not this program's address.
        if (!(options.Opened?.Answers(http.Request.Host.Host) ?? IsOwnHost(http.Request.Host.Host)))
            await OtherHost(http, options.Opened is null ? "Open this program by http://127.0.0.1 or http://localhost.\n" : "These pages are not reached by this name. Whoever runs the program names it with --host.\n");
        else if (http.Request.ContentLength > limit)
            await PageResults.TooLarge(http.Request.ContentLength.Value, options.UploadLimitMb, http.Request.Query["name"]).ExecuteAsync(http);
        else
            await AnswerInWords(http, next);
    }

    private static async Task OtherHost(HttpContext http, string instead)
    {
        http.Response.StatusCode = StatusCodes.Status400BadRequest;
        await http.Response.WriteAsync(instead);
    }

    /// <summary>From the network only the ground page can be read, and only by a screen that brought a code.</summary>
    private static async Task FromNetwork(HttpContext http, RequestDelegate next, ServingOptions options)
    {
        // It is opened by an address; a name may have been made to point here.
        if (!IPAddress.TryParse(http.Request.Host.Host.Trim('[', ']'), out _) && !IsOwnHost(http.Request.Host.Host))
        {
            await OtherHost(http, "Open this page by the address that the program printed.\n");
            return;
        }
        PathString path = http.Request.Path;
        bool read = HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method);
        bool letIn = options.Codes is { } codes && codes.IsOpen(http.Request.Cookies[LiveRoutes.ScreenCookie]);
        bool code = path == LiveRoutes.Code && (read || (HttpMethods.IsPost(http.Request.Method) && http.Request.ContentLength is <= 1000));
        if (code || (read && path.StartsWithSegments("/assets")) || (letIn && read && path.StartsWithSegments(LiveRoutes.Ground)))
            await AnswerInWords(http, next);
        else if (read && (path == "/" || path.StartsWithSegments(LiveRoutes.Ground)))
            http.Response.Redirect(letIn ? LiveRoutes.Ground : LiveRoutes.Code);
        else
            http.Response.StatusCode = StatusCodes.Status404NotFound;
    }

    /// <summary>A failure or a bare status becomes a page that says what happened and what to do.</summary>
    private static async Task AnswerInWords(HttpContext http, RequestDelegate next)
    {
        try
        {
            await next(http);
        }
        catch (Exception e) when (e is not (OperationCanceledException or Microsoft.AspNetCore.Http.BadHttpRequestException) && !http.Response.HasStarted)
        {
            http.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger("Stillhook").LogError(e, "{Method} {Path} failed", http.Request.Method, http.Request.Path);
            await PageResults.Message("The program failed here", "This page could not be made. What is in the store is unharmed.", "What failed is written where the program was started; please report it.", 500).ExecuteAsync(http);
        }
        if (!http.Response.HasStarted && http.Response.StatusCode == StatusCodes.Status400BadRequest && http.Response.ContentType is null)
            await PageResults.Message("Not taken", "The form was too old or not complete, and nothing was changed.", "Go back, reload the page and send it again.", 400).ExecuteAsync(http);
    }

    /// <summary>HTTPS of this program's own; a proxy in front is spoken to without, and asked whether it did it (<see cref="AccountSetup.UseHttpsOnly"/>).</summary>
    private static void Https(ListenOptions listen, OpenedPages opened)
    {
        listen.Protocols = HttpProtocols.Http1;
        if (opened.Certificate is not null)
            listen.UseHttps(https =>
            {
                https.ServerCertificate = opened.Certificate;
                https.ServerCertificateChain = opened.Chain;
                https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13;
            });
        else if (opened.Proxies.Count == 0)
            throw new ArgumentException("Pages are opened only with a certificate or behind a proxy that does HTTPS.", nameof(opened));
    }

    /// <summary>The keys sign sessions and forms, so nobody else on the machine may read them.</summary>
    private static DirectoryInfo Keys(string folder)
    {
        DirectoryInfo keys = new(Path.Combine(folder, "form-keys"));
        if (OperatingSystem.IsWindows())
            keys.Create();
        else
        {
            const UnixFileMode OwnerAlone = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
            Directory.CreateDirectory(keys.FullName, OwnerAlone);
            File.SetUnixFileMode(keys.FullName, OwnerAlone);
        }
        return keys;
    }

    private static bool IsOwnHost(string host) => host is "localhost" or "127.0.0.1" or "[::1]";
}
