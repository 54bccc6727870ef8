using System.Security.Claims;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>One person's flights are read by that person alone, or by an account that may read all.</summary>
/// <remarks>
/// A flight that an account took in for itself belongs to that account. One that was taken in at the terminal, or by an account that reads all flights, belongs to the pilot
/// whose name the job gave when it was taken in. One with neither is read only by accounts that read all flights.
/// </remarks>
internal static class FlightAccess
{
    /// <summary>Whether the person before a page may read every flight.</summary>
    public static bool MayReadAll(this HttpContext http) => !http.IsOpened() || http.User.HasClaim(c => c.Type == Access.AllFlights);

    /// <summary>Whether a flight of that owner may be read.</summary>
    public static bool MayRead(this HttpContext http, FlightOwner owner) => http.MayReadAll() || (http.May(Access.Flights) && IsOwn(http.User, owner));

    /// <summary>Whether a flight may be read; one that is not there can't.</summary>
    public static bool MayReadFlight(this HttpContext http, long id) =>
        http.MayReadAll() || (http.RequestServices.GetRequiredService<ServingOptions>().Store.Flights.Owner(id) is { } owner && http.MayRead(owner));

    /// <summary>Which flights may be read; null when all may.</summary>
    public static Func<long, bool>? Readable(this HttpContext http, WorkStore store)
    {
        if (http.MayReadAll())
            return null;
        IReadOnlyDictionary<long, FlightOwner> owners = store.Flights.Owners();
        return id => owners.TryGetValue(id, out FlightOwner owner) && http.MayRead(owner);
    }

    /// <summary>The flight that is listened to, where it may be read: by the one pilot of its job. Null when there is none, for this reader or of that job.</summary>
    public static LiveDesk? Live(this HttpContext http, Guid? ofJob = null) =>
        http.RequestServices.GetRequiredService<ServingOptions>().Live is { } live && (ofJob is null || live.Flight.Setup.Job?.Kept.Key == ofJob)
        && http.MayRead(new FlightOwner(null, MeasuredFlight.OnlyPilot(live.Flight.Setup.Job?.File.Request))) ? live : null;

    /// <summary>Key of the account a record is taken in for; null when it is nobody's own.</summary>
    public static string? TakesInFor(this HttpContext http) => http.MayReadAll() ? null : http.User.FindFirstValue(ClaimTypes.NameIdentifier);

    /// <summary>Answers for a flight that belongs to somebody else as for one that is not there.</summary>
    public static RouteGroupBuilder OwnFlightsOnly(this RouteGroupBuilder group)
    {
        group.AddEndpointFilter(async (context, next) =>
            long.TryParse((string?)context.HttpContext.GetRouteValue("id"), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out long id) && !context.HttpContext.MayReadFlight(id)
                ? DeliveryRoutes.NoFlight(id)
                : await next(context));
        return group;
    }

    private static bool IsOwn(ClaimsPrincipal user, FlightOwner owner) => owner.TakenInBy is { } key
        ? key == user.FindFirstValue(ClaimTypes.NameIdentifier)
        : owner.Pilot is { } pilot && string.Equals(pilot.Trim(), user.FindFirstValue(Access.FliesAs), StringComparison.OrdinalIgnoreCase);
}
