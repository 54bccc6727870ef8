using Stillhook.Debriefing;

namespace Stillhook.Planning;

/// <summary>Temperature, altimeter setting and wind at a site at a clock time.</summary>
/// <param name="TemperatureC">Outside air temperature, °C.</param>
/// <param name="QnhPa">Altimeter setting, Pa.</param>
/// <param name="DewPointC">Dew point, °C, or null when nobody observed it.</param>
/// <param name="Wind">Wind, or null when nobody gave it.</param>
/// <param name="Where">Path in the request that the temperature came from.</param>
public sealed record WeatherAt(double TemperatureC, double QnhPa, double? DewPointC, Wind? Wind, string Where);

/// <summary>The day's weather at one site: observation and hourly forecast, linear between their times.</summary>
/// <remarks>
/// Before the first time and after the last one, the nearest stands. Without a forecast the observation stands for the whole day, which
/// <see cref="HasForecast"/> says. Wind is that of the last time before that gave one, not blended: directions do not average.
/// </remarks>
public sealed class DayWeather
{
    private readonly record struct Point(double Minute, double TemperatureC, double? QnhPa, Wind? Wind, string Where);

    private readonly List<Point> points;
    private readonly WeatherNow now;
    private readonly WeatherShift shift;

    /// <summary>The weather of a site.</summary>
    /// <param name="site">The site; its weather must be given.</param>
    /// <param name="path">Path of the site in the request.</param>
    /// <param name="observedMinute">Minute of the day that the observation belongs to; null when it is another day's, and then it stands only where there is no forecast.</param>
    /// <param name="shift">What was typed since the plan was made; it moves the rest of the day.</param>
    public DayWeather(Site site, string path, double? observedMinute, WeatherShift shift)
    {
        ArgumentNullException.ThrowIfNull(site);
        now = site.Weather ?? throw new ArgumentException("The site's weather is given.", nameof(site));
        this.shift = shift;
        points = [.. site.Forecast.Select((f, i) => new Point(f.Hour.ToTimeSpan().TotalMinutes, f.Temperature.DegreesCelsius, f.Qnh?.Pascals, Wind(f.Wind), $"{path}.forecast[{i}].temperature"))];
        // A forecast for a later hour stands beside what was observed; one for the very hour of the observation gives way to it.
        if (observedMinute is not null || points.Count == 0)
        {
            double at = observedMinute ?? 0;
            points.RemoveAll(p => Math.Abs(p.Minute - at) < 1);
            points.Add(new(at, now.Temperature.DegreesCelsius, now.Qnh.Pascals, Wind(now.Wind), $"{path}.weather.temperature"));
        }
        points.Sort((a, b) => a.Minute.CompareTo(b.Minute));
        // A forecast hour without a setting or a wind keeps the last one given.
        double last = now.Qnh.Pascals;
        Wind? wind = Wind(now.Wind);
        for (int i = 0; i < points.Count; i++)
            points[i] = points[i] with { QnhPa = last = points[i].QnhPa ?? last, Wind = wind = points[i].Wind ?? wind };
    }

    /// <summary>False when one observation stands for the whole day.</summary>
    public bool HasForecast => points.Count > 1;

    /// <summary>The weather at a minute of the day.</summary>
    public WeatherAt At(double minute)
    {
        int after = points.FindIndex(p => p.Minute > minute);
        Point late = after < 0 ? points[^1] : points[after];
        Point early = after switch { < 0 => points[^1], 0 => points[0], _ => points[after - 1] };
        double share = late.Minute > early.Minute ? Math.Clamp((minute - early.Minute) / (late.Minute - early.Minute), 0, 1) : 0;
        double temperature = early.TemperatureC + share * (late.TemperatureC - early.TemperatureC);
        double qnh = early.QnhPa!.Value + share * (late.QnhPa!.Value - early.QnhPa.Value) + shift.QnhPa;
        string where = share >= 0.5 ? late.Where : early.Where;
        return new(temperature + shift.WarmerC, qnh, now.DewPoint?.DegreesCelsius, shift.Wind ?? early.Wind, where);
    }

    /// <summary>The hottest the site gets from one minute to another, °C.</summary>
    public double HottestC(double fromMinute, double toMinute) =>
        points.Where(p => p.Minute > fromMinute && p.Minute < toMinute).Select(p => p.TemperatureC + shift.WarmerC)
            .Append(At(fromMinute).TemperatureC).Append(At(toMinute).TemperatureC).Max();

    /// <summary>The lowest altimeter setting from one minute to another, Pa.</summary>
    public double LowestQnhPa(double fromMinute, double toMinute) =>
        points.Where(p => p.Minute > fromMinute && p.Minute < toMinute).Select(p => p.QnhPa!.Value + shift.QnhPa).Append(At(fromMinute).QnhPa).Append(At(toMinute).QnhPa).Min();

    /// <summary>First minute from a given one on, up to the last forecast, at which a temperature (°C) is passed; null when it never is.</summary>
    public double? MinuteHotterThan(double temperatureC, double fromMinute)
    {
        if (At(fromMinute).TemperatureC > temperatureC)
            return fromMinute;
        double last = fromMinute;
        foreach (Point p in points.Where(p => p.Minute > fromMinute))
        {
            double t0 = At(last).TemperatureC, t1 = p.TemperatureC + shift.WarmerC;
            if (t1 > temperatureC)
                return last + (temperatureC - t0) / (t1 - t0) * (p.Minute - last);
            last = p.Minute;
        }
        return null;
    }

    private static Wind? Wind(WindGiven? given) => given is null ? null : new Wind(given.From.Degrees % 360, given.Speed);
}

/// <summary>What was typed since the plan was made.</summary>
/// <param name="WarmerC">How much warmer than planned, °C, for the rest of the day at every site; never below zero.</param>
/// <param name="QnhPa">How much the altimeter setting is off what was planned, Pa, for the rest of the day; never above zero.</param>
/// <param name="Wind">New wind, or null.</param>
public sealed record WeatherShift(double WarmerC = 0, double QnhPa = 0, Wind? Wind = null);
