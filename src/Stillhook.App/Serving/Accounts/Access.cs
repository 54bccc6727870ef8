using System.Security.Claims;

namespace Stillhook.App.Serving;

/// <summary>Who may do what. Every address of the program names one of these, or stands in the short list of open ones.</summary>
internal static class Access
{
    /// <summary>Anybody with an account.</summary>
    public const string Signed = "signed";

    /// <summary>The list of jobs and the way to each.</summary>
    public const string Jobs = "jobs";

    /// <summary>Reading a job, its lift plan, approach and workings.</summary>
    public const string Plans = "plans";

    /// <summary>Changing a job and what belongs to it; issuing cards.</summary>
    public const string Planning = "planning";

    /// <summary>Reading cards.</summary>
    public const string Cards = "cards";

    /// <summary>Reading the reports.</summary>
    public const string Reports = "reports";

    /// <summary>Reading days.</summary>
    public const string Days = "days";

    /// <summary>Writing of a day; ground writes the tally alone.</summary>
    public const string DayEntries = "day-entries";

    /// <summary>Aircraft library and the log of line and rigging.</summary>
    public const string Aircraft = "aircraft";

    /// <summary>Flights, deliveries, corrections and what follows from them; each only to whom it belongs (<see cref="FlightAccess"/>).</summary>
    public const string Flights = "flights";

    /// <summary>Page for the people at the hook-on place.</summary>
    public const string Ground = "ground";

    /// <summary>Name of the claim that lets an account read everybody's flights.</summary>
    public const string AllFlights = "all-flights";

    /// <summary>Name of the claim that holds the pilot's name as jobs write it.</summary>
    public const string FliesAs = "flies-as";

    /// <summary>The roles.</summary>
    public static IReadOnlyList<string> Roles { get; } = [Role.Planner, Role.Pilot, Role.Ground, Role.Maintenance, Role.Viewer];

    /// <summary>Who holds what; <see cref="Signed"/> is everybody's.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyList<string>> Given { get; } = new Dictionary<string, IReadOnlyList<string>>
    {
        [Signed] = Roles,
        [Jobs] = [Role.Planner, Role.Pilot, Role.Viewer, Role.Ground],
        [Plans] = [Role.Planner, Role.Pilot, Role.Viewer],
        [Planning] = [Role.Planner, Role.Pilot],
        [Cards] = [Role.Planner, Role.Pilot, Role.Viewer, Role.Ground],
        [Reports] = [Role.Planner, Role.Pilot, Role.Viewer],
        [Days] = [Role.Planner, Role.Pilot, Role.Ground, Role.Maintenance],
        [DayEntries] = [Role.Planner, Role.Pilot, Role.Ground],
        [Aircraft] = [Role.Planner, Role.Pilot, Role.Maintenance],
        [Flights] = [Role.Pilot],
        [Ground] = [Role.Planner, Role.Pilot, Role.Ground],
    };

    /// <summary>Whether the person before a page may do something; on a program that is not opened everybody may do everything.</summary>
    public static bool May(this HttpContext http, string what) => !IsOpened(http) || May(http.User, what);

    /// <summary>Whether an account may do something. A way into everybody's flights is one into the flights pages.</summary>
    public static bool May(ClaimsPrincipal user, string what) =>
        Given[what].Any(user.IsInRole) || (what == Flights && user.HasClaim(c => c.Type == AllFlights));

    /// <summary>Whether the pages are opened to a network.</summary>
    public static bool IsOpened(this HttpContext http) => http.RequestServices.GetRequiredService<ServingOptions>().Opened is not null;

    /// <summary>Name of the account that is signed in; null when none is.</summary>
    public static string? AccountName(this HttpContext http) => http.User.Identity is { IsAuthenticated: true, Name: { } name } ? name : null;

    /// <summary>The page a person begins at.</summary>
    public static string Start(HttpContext http) => http.May(Jobs) ? "/jobs" : http.May(Days) ? "/days" : "/account";

    /// <summary>Adds the policies. On a program that is not opened they let everybody pass; on an opened one an address that names none is refused.</summary>
    public static void AddPolicies(IServiceCollection services, bool opened)
    {
        services.AddAuthorization(authorization =>
        {
            foreach (string what in Given.Keys)
                authorization.AddPolicy(what, policy => policy.RequireAssertion(c => !opened || May(c.User, what) || (what == Ground && c.Resource is HttpContext http && HasCode(http))));
            if (opened)
                authorization.FallbackPolicy = new Microsoft.AspNetCore.Authorization.AuthorizationPolicyBuilder().RequireAssertion(_ => false).Build();
        });
    }

    private static bool HasCode(HttpContext http) =>
        http.RequestServices.GetRequiredService<ServingOptions>().Codes is { } codes && codes.IsOpen(http.Request.Cookies[LiveRoutes.ScreenCookie]);
}

/// <summary>Names of the roles.</summary>
internal static class Role
{
    public const string Planner = "planner", Pilot = "pilot", Ground = "ground", Maintenance = "maintenance", Viewer = "viewer";
}
