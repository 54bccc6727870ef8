using System.Globalization;
using Stillhook.Debriefing;

namespace Stillhook.Planning.Checking;

/// <summary>What a person must look at before the plan's air can be trusted: one reading for a whole day, old readings, guessed elevations, a way in that is downwind.</summary>
internal static class DayConditions
{
    private const double DownwindKt = 1;

    public static IReadOnlyList<CheckItem> Check(LiftRequest request, PlanOptions options)
    {
        double start = request.Day!.Start!.Value.ToTimeSpan().TotalMinutes;
        return [.. request.Sites.SelectMany((site, i) => Of(request, options, site, $"sites[{i}]")), .. Downwind(request, options, start)];
    }

    private static IEnumerable<CheckItem> Of(LiftRequest request, PlanOptions options, Site site, string path)
    {
        if (site.Use == SiteUse.Base || site.Weather is not { } weather)
            yield break;
        if (!options.WeatherOf(request, site).HasForecast)
            yield return Item("weather-one-reading", path + ".forecast", site.Name, "One reading stands for the whole day: heat after it is not followed. Enter the hourly forecast.");
        if (weather.Time is { } time && request.Date is { } day && Math.Abs(DateOnly.FromDateTime(time.DateTime).DayNumber - day.DayNumber) > 1)
            yield return Item("weather-other-day", path + ".weather.time", site.Name, string.Create(CultureInfo.InvariantCulture, $"The weather was read on {time:yyyy-MM-dd}, the job is on {day:yyyy-MM-dd}."));
        if (site.ElevationFrom == ElevationFrom.Guess)
            yield return Item("elevation-guess", path + ".elevation", site.Name, "The elevation is a guess: every hover mass here rests on it.");
    }

    private static IEnumerable<CheckItem> Downwind(LiftRequest request, PlanOptions options, double minute)
    {
        foreach ((Site pickUp, Site delivery) in Ways(request))
            if (options.WeatherOf(request, delivery).At(minute).Wind is { } wind && wind.TailKt(RotationLegs.CourseDeg(pickUp, delivery)) is var tail and > DownwindKt)
                yield return Item("way-in-downwind", $"sites[{request.Sites.ToList().IndexOf(delivery)}].weather.wind", delivery.Name,
                    string.Create(CultureInfo.InvariantCulture, $"The straight way in from {pickUp.Name} is downwind by {Math.Ceiling(tail):0} kt at the start: plan the direction of the way in."));
    }

    /// <summary>Every pair of pick-up and delivery that some load flies.</summary>
    public static IEnumerable<(Site PickUp, Site Delivery)> Ways(LiftRequest request) => request.Loads
        .Select(l => (PickUp: request.SiteOf(l.PickUp, SiteUse.PickUp), Delivery: request.SiteOf(l.Delivery, SiteUse.Delivery)))
        .Where(w => w.PickUp is not null && w.Delivery is not null).Select(w => (w.PickUp!, w.Delivery!)).Distinct();

    private static CheckItem Item(string code, string path, string subject, string text) => new(CheckVerdict.ToConfirm, code, path, subject, text, CheckItem.CommonPractice);
}
