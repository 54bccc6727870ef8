using System.Globalization;
using System.Net;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.RateLimiting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Accounts by ASP.NET Core Identity: rules of passwords, session cookie, limits on signing in.</summary>
internal static class AccountSetup
{
    /// <summary>Name of the limit on tries to sign in.</summary>
    public const string TryLimit = "sign-in";

    /// <summary>Shortest password, characters. Length is asked for and nothing else: rules on kinds of characters make worse passwords [NIST63B].</summary>
    public const int ShortestPassword = 12;

    /// <summary>Longest password, characters.</summary>
    public const int LongestPassword = 200;

    /// <summary>Wrong passwords before an account is locked, and for how long.</summary>
    public const int MostWrong = 5;

    /// <summary>How long an account stays locked. Own choice.</summary>
    public static readonly TimeSpan Locked = TimeSpan.FromMinutes(15);

    // Of PBKDF2 with HMAC-SHA-512 [OWASPPW].
    private const int HashRounds = 210_000;
    private static readonly TimeSpan Session = TimeSpan.FromHours(12);

    /// <summary>Identity over the accounts of a store; for the pages and for the terminal.</summary>
    public static IdentityBuilder AddIdentity(IServiceCollection services, WorkStore store)
    {
        services.AddAccounts(store);
        services.Configure<PasswordHasherOptions>(hasher => hasher.IterationCount = HashRounds);
        return services.AddIdentityCore<Account>(identity =>
        {
            identity.Password = new() { RequiredLength = ShortestPassword, RequireDigit = false, RequireLowercase = false, RequireNonAlphanumeric = false, RequireUppercase = false, RequiredUniqueChars = 4 };
            identity.Lockout = new() { AllowedForNewUsers = true, DefaultLockoutTimeSpan = Locked, MaxFailedAccessAttempts = MostWrong };
            // Names of people in any alphabet; what can't stand in a name is refused where an account is made.
            identity.User.AllowedUserNameCharacters = "";
        }).AddPasswordValidator<PasswordRules>();
    }

    /// <summary>What an opened program needs besides.</summary>
    public static void Add(IServiceCollection services, WorkStore store, OpenedPages opened)
    {
        services.TryAddClock();
        AddIdentity(services, store).AddSignInManager();
        services.AddScoped<SignIn>();
        services.AddSingleton(new SignInTries(opened.TriesAName));
        services.AddAuthentication(IdentityConstants.ApplicationScheme).AddCookie(IdentityConstants.ApplicationScheme, Cookie);
        services.AddRateLimiter(limits =>
        {
            limits.AddPolicy(TryLimit, http => RateLimitPartition.GetFixedWindowLimiter(Network(http.Connection.RemoteIpAddress), _ => new FixedWindowRateLimiterOptions { PermitLimit = opened.TriesAnAddress, Window = TimeSpan.FromMinutes(1) }));
            limits.OnRejected = async (rejected, _) =>
            {
                rejected.HttpContext.Response.Headers.RetryAfter = "60";
                await PageResults.Message("Too many tries", "Too many tries to sign in came from this address.", "Wait a minute and try again.", StatusCodes.Status429TooManyRequests).ExecuteAsync(rejected.HttpContext);
            };
        });
        services.Configure<ForwardedHeadersOptions>(forwarded =>
        {
            forwarded.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto;
            forwarded.KnownIPNetworks.Clear();
            forwarded.KnownProxies.Clear();
            foreach (IPAddress proxy in opened.Proxies)
                forwarded.KnownProxies.Add(proxy);
        });
    }

    /// <summary>Lets in only what came by HTTPS: by this program's own, or by the proxy that was named, which has to say so with every request.</summary>
    public static void UseHttpsOnly(WebApplication app, OpenedPages opened)
    {
        if (opened.Proxies.Count == 0)
            return;
        app.Use(async (http, next) =>
        {
            if (http.Connection.RemoteIpAddress is { } from && opened.Proxies.Contains(from.IsIPv4MappedToIPv6 ? from.MapToIPv4() : from))
                await next(http);
            else
                await Refuse(http, "Only the proxy in front of this program is answered here.\n");
        });
        app.UseForwardedHeaders();
        app.Use(async (http, next) =>
        {
            if (http.Request.IsHttps)
                await next(http);
            else
                await Refuse(http, "The proxy did not say that this came over HTTPS; let it send X-Forwarded-Proto: https.\n");
        });
    }

    private static async Task Refuse(HttpContext http, string why)
    {
        http.Response.StatusCode = StatusCodes.Status403Forbidden;
        await http.Response.WriteAsync(why);
    }

    private static void Cookie(CookieAuthenticationOptions cookie)
    {
        cookie.Cookie.Name = "__Host-stillhook";
        cookie.Cookie.Path = "/";
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.IsEssential = true;
        cookie.Cookie.SameSite = SameSiteMode.Strict;
        cookie.Cookie.SecurePolicy = CookieSecurePolicy.Always;
        cookie.ExpireTimeSpan = Session;
        cookie.SlidingExpiration = true;
        cookie.Events.OnValidatePrincipal = Validate;
        cookie.Events.OnRedirectToLogin = context => ToSignIn(context.HttpContext);
        cookie.Events.OnRedirectToAccessDenied = context =>
            PageResults.Message("Not for this account", "This account may not do that.", "Whoever looks after the accounts can give it the role.", StatusCodes.Status403Forbidden).ExecuteAsync(context.HttpContext);
    }

    /// <summary>Every request is held against the account as it stands now: removed, or with another password or role, its sessions have ended.</summary>
    private static async Task Validate(CookieValidatePrincipalContext context)
    {
        SignInManager<Account> accounts = context.HttpContext.RequestServices.GetRequiredService<SignInManager<Account>>();
        if (await accounts.ValidateSecurityStampAsync(context.Principal) is null)
        {
            context.RejectPrincipal();
            context.HttpContext.Response.Cookies.Delete(context.Options.Cookie.Name!, context.Options.Cookie.Build(context.HttpContext));
        }
    }

    private static async Task ToSignIn(HttpContext http)
    {
        bool opensPage = HttpMethods.IsGet(http.Request.Method) && http.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal);
        if (opensPage)
            http.Response.Redirect(AccountRoutes.SignIn + QueryString.Create("back", http.Request.Path + http.Request.QueryString));
        else
            await PageResults.Message("Signed out", "Nothing was changed: nobody is signed in here any more.", "Sign in in another tab, come back and send it again.", StatusCodes.Status401Unauthorized).ExecuteAsync(http);
    }

    /// <summary>One customer of an IPv6 network has a whole /64, so that is counted as one address.</summary>
    private static string Network(IPAddress? address)
    {
        if (address is { IsIPv4MappedToIPv6: true })
            address = address.MapToIPv4();
        if (address is not { AddressFamily: System.Net.Sockets.AddressFamily.InterNetworkV6 })
            return address?.ToString() ?? "";
        byte[] bytes = address.GetAddressBytes();
        bytes.AsSpan(8).Clear();
        return new IPAddress(bytes).ToString();
    }

    private static void TryAddClock(this IServiceCollection services) => Microsoft.Extensions.DependencyInjection.Extensions.ServiceCollectionDescriptorExtensions.TryAddSingleton(services, TimeProvider.System);

    /// <summary>What else a password must not be.</summary>
    private sealed class PasswordRules : IPasswordValidator<Account>
    {
        public Task<IdentityResult> ValidateAsync(UserManager<Account> manager, Account user, string? password) => Task.FromResult(
            password is { Length: > LongestPassword } ? Refused(string.Create(CultureInfo.InvariantCulture, $"The password has more than {LongestPassword} characters."))
            : user.UserName is { } name && password is not null && password.Contains(name, StringComparison.OrdinalIgnoreCase) ? Refused("The password must not contain the account's name.")
            : IdentityResult.Success);

        private static IdentityResult Refused(string why) => IdentityResult.Failed(new IdentityError { Code = "Password", Description = why });
    }
}
