using Microsoft.AspNetCore.Antiforgery;
using Stillhook.Files.Pictures;

namespace Stillhook.App.Serving;

/// <summary>What every page knows of the person before it: units, the job last opened, who types, the form's token.</summary>
internal static class PageContext
{
    private const int LongestName = 80;
    private const string UnitsCookie = "units", JobCookie = "job", NameCookie = "name", FlightCookie = "flight", LookCookie = "look", MarkCookie = "mark";

    /// <summary>Units chosen by this person, with the mark before the decimals.</summary>
    public static DisplayUnits Units(this HttpContext http) => DisplayUnits.Named(http.Request.Cookies[UnitsCookie]).With(DecimalMark.Named(http.Request.Cookies[MarkCookie]));

    /// <summary>Look chosen by this person: <c>day</c>, <c>night</c> or <c>bright</c>; null follows the device.</summary>
    public static string? Look(this HttpContext http) => KnownLook((string?)http.Items[LookCookie] ?? http.Request.Cookies[LookCookie]);

    private static string? KnownLook(string? look) => look is "day" or "night" or "bright" ? look : null;

    /// <summary>Token that a form sends back; guards the forms against other sites.</summary>
    public static string FormToken(this HttpContext http) => http.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(http).RequestToken!;

    /// <summary>Stands for whoever types until somebody says who it is.</summary>
    public const string Nobody = "this device";

    /// <summary>Who types here, as given on this device.</summary>
    public static string TypedBy(this HttpContext http) => http.NameTyped() ?? Nobody;

    /// <summary>The name as given on this device, for a field that asks for it; null until somebody says.</summary>
    public static string? NameTyped(this HttpContext http) => http.AccountName()
        ?? (http.Request.Cookies[NameCookie] is { Length: > 0 } cookie && Uri.UnescapeDataString(cookie) is { Length: > 0 and <= LongestName } name && !name.Any(char.IsControl) ? name : null);

    /// <summary>Who stands beside an entry: the account that is signed in whatever was typed, else what was typed; null when nobody says.</summary>
    public static string? Who(this HttpContext http, string? typed) => http.AccountName() ?? (typed?.Trim() is { Length: > 0 } name ? name : null);

    /// <summary>The job last opened on this device; null when there is none.</summary>
    public static Guid? LastJob(this HttpContext http) => Guid.TryParse((string?)http.Items[JobCookie] ?? http.Request.Cookies[JobCookie], out Guid key) ? key : null;

    /// <summary>The flight last opened on this device; null when there is none.</summary>
    public static long? LastFlight(this HttpContext http) => long.TryParse(http.Request.Cookies[FlightCookie], System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out long id) ? id : null;

    /// <summary>Remembers the job as the one last opened.</summary>
    public static void RememberJob(this HttpContext http, Guid key) => Remember(http, JobCookie, key.ToString());

    /// <summary>Remembers the flight as the one last opened.</summary>
    public static void RememberFlight(this HttpContext http, long id) => Remember(http, FlightCookie, id.ToString(System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>Remembers the units.</summary>
    public static void RememberUnits(this HttpContext http, string? units) => Remember(http, UnitsCookie, DisplayUnits.Named(units).Name);

    /// <summary>Remembers the mark before the decimals.</summary>
    public static void RememberMark(this HttpContext http, string mark) => Remember(http, MarkCookie, DecimalMark.Named(mark).Name);

    /// <summary>Remembers the look.</summary>
    public static void RememberLook(this HttpContext http, string look)
    {
        if (KnownLook(look) is { } known)
            Remember(http, LookCookie, known);
    }

    /// <summary>Remembers who types.</summary>
    public static void RememberName(this HttpContext http, string name) => Remember(http, NameCookie, Uri.EscapeDataString(name));

    /// <summary>Only an address of this program: one slash at the start, no second one.</summary>
    public static string Own(string? address, string otherwise) => (address is ['/', not ('/' or '\\'), ..] or "/") && !address.Any(char.IsControl) ? address : otherwise;

    private static void Remember(HttpContext http, string cookie, string value)
    {
        // Also for the page that is being made just now.
        http.Items[cookie] = value;
        http.Response.Cookies.Append(cookie, value, new() { SameSite = SameSiteMode.Strict, HttpOnly = true, Secure = http.Request.IsHttps, MaxAge = TimeSpan.FromDays(3650), IsEssential = true });
    }
}
