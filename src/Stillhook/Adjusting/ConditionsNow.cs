using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.Adjusting;

/// <summary>The approach to one delivery site before and after what was read.</summary>
/// <param name="Site">Its name.</param>
/// <param name="Before">As planned.</param>
/// <param name="After">Planned for what was read.</param>
/// <param name="Changes">What moved, what stops first.</param>
public sealed record SiteMarks(string Site, ApproachPlan Before, ApproachPlan After, IReadOnlyList<string> Changes);

/// <summary>The shift re-check between loads: setting, temperature and wind as read now, what they change, and what was not read again.</summary>
/// <param name="Recheck">Altimeter, wind, loads, order and fuel.</param>
/// <param name="Sites">The approach to each delivery site to which something is still to be flown.</param>
/// <param name="NotReadAgain">What stands from before, with its value and from when, one sentence a site.</param>
public sealed record ConditionsNow(Recheck Recheck, IReadOnlyList<SiteMarks> Sites, IReadOnlyList<string> NotReadAgain)
{
    private const string StopWord = "STOP: ";
    private const double LeastWindChangeKt = 1;
    private const int TrialFlights = 1000;

    /// <summary>Land and re-brief: something no longer holds.</summary>
    public bool Stops => Recheck.Changes.Any(c => c.Kind == ChangeKind.Stop) || Sites.Any(s => s.Changes.Any(c => c.StartsWith(StopWord, StringComparison.Ordinal)));

    /// <summary>Compares the job as planned with what was read.</summary>
    /// <param name="request">The job.</param>
    /// <param name="options">How to plan.</param>
    /// <param name="shift">What was read; what is null stands as planned, and that is said.</param>
    public static ConditionsNow Compare(LiftRequest request, ApproachOptions options, Shift shift)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(shift);
        Recheck recheck = Rechecker.Compare(request, options.Plan, shift);
        LiftRequest left = Rechecker.Remaining(request, shift);
        ApproachShift readings = new(
            shift.QnhPa is { } qnh ? Pressure.FromPascals(qnh) : null, shift.Wind, shift.TemperatureC is { } celsius ? Temperature.FromDegreesCelsius(celsius) : null);
        LiftRequest moved = readings.Applied(left);
        LiftPlan before = Job.Plan(left, options.Plan), after = Job.Plan(moved, options.Plan);
        Site[] sites = [.. left.Sites.Where(s => s.Use == Debriefing.SiteUse.Delivery && (left.Loads.Count == 0 || left.Loads.Any(l => left.SiteOf(l.Delivery, Debriefing.SiteUse.Delivery) == s)))];
        return new(recheck, [.. sites.Select(Marks)], [.. sites.Select(s => NotRead(left, options.Plan, s, shift)).OfType<string>()]);

        SiteMarks Marks(Site site)
        {
            ApproachOptions there = options with { Site = site.Name, Load = null, Flights = TrialFlights };
            ApproachPlan was = BriefedApproaches.Of(left, before, there, []).FirstOrDefault()?.Plan ?? Job.Approach(left, before, there);
            ApproachOptions then = there with { Load = was.Situation?.Listed?.Number, Shift = readings };
            // The direction that was briefed stands while it can be flown; only else another one is looked for.
            ApproachPlan? same = was.IsOffered ? Job.Approach(moved with { Approach = (moved.Approach ?? new()) with { Course = Angle.FromDegrees(was.CourseDeg) } }, after, then) : null;
            ApproachPlan now = same is { IsOffered: true } ? same : Job.Approach(moved, after, then);
            // The altimeter's line is the re-check's own where it could say one.
            ApproachShift told = recheck.Changes.Any(c => c.Text.StartsWith("QNH ", StringComparison.Ordinal)) ? readings with { Qnh = null } : readings;
            return new(site.Name, was, now, [.. Downwind(was, shift), .. ApproachChanges.Between(was, now, told)]);
        }
    }

    private static IEnumerable<string> Downwind(ApproachPlan planned, Shift shift)
    {
        if (!planned.IsOffered || shift.Wind is not { } wind || wind.TailKt(planned.CourseDeg) is not (> 0 and var tail))
            yield break;
        if (planned.Situation!.Wind is { } was && tail < was.TailKt(planned.CourseDeg) + LeastWindChangeKt)
            yield break;
        yield return string.Create(CultureInfo.InvariantCulture, $"{StopWord}the planned approach, course {planned.CourseDeg:000}, is downwind by {Math.Ceiling(tail):0} kt now: re-brief.");
    }

    private static string? NotRead(LiftRequest request, PlanOptions options, Site site, Shift shift)
    {
        if (site.Weather is not { } observed)
            return shift is { QnhPa: not null, TemperatureC: not null, Wind: not null } ? null : $"Not read now at {site.Name}, and none in the job: {string.Join(", ", Missing(shift))}.";
        WeatherAt at = options.WeatherOf(request, site).At(shift.Minute ?? request.Day?.Start?.ToTimeSpan().TotalMinutes ?? 12 * 60);
        string when = observed.Time is { } time
            ? string.Create(CultureInfo.InvariantCulture, $"as observed on {time:yyyy-MM-dd} at {options.SiteClock(time):HH:mm}") : "as entered in the job without a time";
        List<string> stands = [];
        if (shift.QnhPa is null)
            stands.Add(string.Create(CultureInfo.InvariantCulture, $"QNH {at.QnhPa / 100:0.#} hPa {(site.Forecast.Any(f => f.Qnh is not null) ? "from observation and forecast" : when)}"));
        if (shift.TemperatureC is null)
            stands.Add(string.Create(CultureInfo.InvariantCulture, $"temperature {at.TemperatureC:0.#} °C {Hour(site, at.Where) ?? when}"));
        if (shift.Wind is null)
            stands.Add(at.Wind is { } wind
                ? string.Create(CultureInfo.InvariantCulture, $"wind {wind.FromDeg:000}/{wind.Speed.Knots:0} kt {(site.Forecast.Any(f => f.Wind is not null) ? "from observation and forecast" : when)}") : "wind, of which the job says nothing");
        return stands.Count == 0 ? null : $"Not read now at {site.Name}, taken from before: {string.Join("; ", stands)}.";
    }

    private static IEnumerable<string> Missing(Shift shift)
    {
        if (shift.QnhPa is null)
            yield return "QNH";
        if (shift.TemperatureC is null)
            yield return "temperature";
        if (shift.Wind is null)
            yield return "wind";
    }

    // The temperature says which forecast hour it is nearest to.
    private static string? Hour(Site site, string where)
    {
        for (int i = 0; i < site.Forecast.Count; i++)
            if (where.Contains(string.Create(CultureInfo.InvariantCulture, $".forecast[{i}]."), StringComparison.Ordinal))
                return string.Create(CultureInfo.InvariantCulture, $"from the forecast round {site.Forecast[i].Hour:HH:mm}");
        return null;
    }
}
