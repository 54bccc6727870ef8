using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Accounts;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of signing in and out and of one's own account; there are none unless the pages are opened.</summary>
internal static class AccountRoutes
{
    public const string SignIn = "/sign-in", Own = "/account";
    private const int LargestForm = 16_384;

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet(SignIn, (HttpContext http, string? back) => http.AccountName() is not null ? Results.Redirect("/") : Page(http, back, null)).AllowAnonymous();
        routes.MapPost(SignIn, Enter).AllowAnonymous().RequireRateLimiting(AccountSetup.TryLimit).WithMetadata(new BodyLimit(LargestForm));
        RouteGroupBuilder signed = routes.MapGroup("").RequireAuthorization(Access.Signed).WithMetadata(new BodyLimit(LargestForm));
        signed.MapPost("/sign-out", Leave);
        signed.MapGet(Own, (HttpContext http, string? kept) => OwnPage(http, null, kept is not null));
        signed.MapPost(Own, ChangePassword).RequireRateLimiting(AccountSetup.TryLimit);
        signed.MapPost(Own + "/sign-out", LeaveEverywhere);
    }

    private static RazorComponentResult<SignInPage> Page(HttpContext http, string? back, string? mistake, string? name = null) =>
        new(new { Token = http.FormToken(), Back = PageContext.Own(back, "/"), Mistake = mistake, Name = name }) { StatusCode = mistake is null ? StatusCodes.Status200OK : StatusCodes.Status403Forbidden };

    private static async Task<IResult> Enter(HttpContext http, SignIn signIn, [FromForm] string? name, [FromForm] string? password, [FromForm] string? back) =>
        await signIn.Try(name?.Trim() ?? "", password ?? "", http.Connection.RemoteIpAddress?.ToString(), http.RequestAborted)
            ? Results.LocalRedirect(PageContext.Own(back, "/"))
            : Page(http, back, "That name and password do not go together, or there were too many wrong tries. After five wrong ones wait a quarter of an hour.", name);

    private static async Task<IResult> Leave(HttpContext http, OpenStreams streams, [FromForm] IFormCollection _)
    {
        streams.End(http.User);
        await http.SignOutAsync(IdentityConstants.ApplicationScheme);
        return Results.LocalRedirect(SignIn);
    }

    private static async Task<IResult> LeaveEverywhere(HttpContext http, UserManager<Account> accounts, OpenStreams streams, [FromForm] IFormCollection _)
    {
        if (await accounts.GetUserAsync(http.User) is { } account)
            await accounts.UpdateSecurityStampAsync(account);
        streams.End(http.User);
        await http.SignOutAsync(IdentityConstants.ApplicationScheme);
        return Results.LocalRedirect(SignIn);
    }

    private static RazorComponentResult<AccountPage> OwnPage(HttpContext http, IReadOnlyList<(string Field, string Mistake)>? mistakes, bool kept = false) =>
        new(new { Token = http.FormToken(), Mistakes = mistakes ?? [], Kept = kept }) { StatusCode = mistakes is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };

    private static async Task<IResult> ChangePassword(HttpContext http, UserManager<Account> accounts, SignInManager<Account> sessions, SignIn signIn, SignInTries tries, OpenStreams streams,
        [FromForm] string? now, [FromForm(Name = "new")] string? wanted, [FromForm] string? again)
    {
        if (await accounts.GetUserAsync(http.User) is not { } account)
            return Results.LocalRedirect(SignIn);
        await tries.OneByOne.WaitAsync(http.RequestAborted);
        try
        {
            if (now is not { Length: > 0 and <= AccountSetup.LongestPassword } || !await signIn.IsRight(account, now))
                return OwnPage(http, [("now", "That is not the password of this account, or there were too many wrong tries.")]);
            if (wanted != again)
                return OwnPage(http, [("again", "This differs from the new password; type the same twice.")]);
            IdentityResult changed = await accounts.ChangePasswordAsync(account, now, wanted ?? "");
            if (!changed.Succeeded)
                return OwnPage(http, [.. changed.Errors.Select(e => ("new", e.Description))]);
        }
        finally
        {
            tries.OneByOne.Release();
        }
        // Every other session has ended with the change; this one goes on.
        await sessions.RefreshSignInAsync(account);
        streams.End(http.User);
        return Results.LocalRedirect(Own + "?kept=1");
    }
}
