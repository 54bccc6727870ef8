using Stillhook.Planning.Ordering;
using Stillhook.Reporting;

namespace Stillhook.Planning;

/// <summary>How to plan: the solver, and what the program around it knows that the job file doesn't.</summary>
public sealed record PlanOptions
{
    /// <summary>Solver that improves on the quick search; null: the search alone.</summary>
    public IOrderSolver? Solver { get; init; }

    /// <summary>How long the solver may take.</summary>
    public OrderLimits OrderLimits { get; init; } = OrderLimits.Usual;

    /// <summary>Weather typed since the plan was made.</summary>
    public WeatherShift Weather { get; init; } = new();

    /// <summary>The sites' clock at a moment. Without it a moment's own offset is taken for the site's.</summary>
    public Func<DateTimeOffset, TimeOnly> SiteClock { get; init; } = time => TimeOnly.FromTimeSpan(time.TimeOfDay);

    /// <summary>What was measured on flights before; none where no store is read. Never a limit.</summary>
    public MeasuredBefore Measured { get; init; } = new();

    /// <summary>
    /// Number of the one load that is asked about; null for all. Order and fuel are those of the whole day either way, and so is what is said of that load; the other loads, air, papers, quote and form are left out.
    /// </summary>
    public string? OnlyLoad { get; init; }

    /// <summary>The day's weather at a site of a request.</summary>
    /// <param name="request">The job.</param>
    /// <param name="site">One of its sites, with weather.</param>
    /// <param name="shift">Weather typed since, instead of <see cref="Weather"/>.</param>
    public DayWeather WeatherOf(LiftRequest request, Site site, WeatherShift? shift = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(site);
        DateTimeOffset? time = site.Weather?.Time;
        bool ofTheDay = time is null || request.Date is null || DateOnly.FromDateTime(time.Value.DateTime) == request.Date;
        TimeOnly observed = time is { } given ? SiteClock(given) : request.Day?.Start ?? new TimeOnly(8, 0);
        return new(site, $"sites[{request.Sites.ToList().IndexOf(site)}]", ofTheDay ? observed.ToTimeSpan().TotalMinutes : null, shift ?? Weather);
    }
}
