namespace Stillhook.Planning.Payload;

/// <summary>When heat stops a load: the temperature at the governing site above which it no longer fits, and when the forecast passes it.</summary>
/// <param name="Site">The site where it stops first.</param>
/// <param name="TemperatureC">Highest temperature there at which the load still fits with its planned fuel, °C; not a number when it fits at none or can't be judged.</param>
/// <param name="Minute">Minute of the day at which the forecast passes it, or null when it never does.</param>
/// <param name="ToEndOfChart">The chart ends or has an empty cell before the load stops: the temperature is the chart's, not the load's.</param>
/// <param name="HasForecast">False when one observation stands for the whole day, so that no hour can be named.</param>
public sealed record HotOfDay(Site Site, double TemperatureC, double? Minute, bool ToEndOfChart, bool HasForecast)
{
    private const double ToleranceC = 0.05;

    /// <summary>When heat stops a load that is hooked on with a fuel.</summary>
    /// <param name="calculator">The payload computation.</param>
    /// <param name="load">The load.</param>
    /// <param name="at">Site and hour of the lift.</param>
    /// <param name="fuelKg">Fuel at hook-on, kg.</param>
    /// <param name="day">Weather of that site.</param>
    /// <param name="fromMinute">Minute of the day from which the forecast is looked through.</param>
    public static HotOfDay Find(PayloadCalculator calculator, LoadOnHook load, SiteHour at, double fuelKg, DayWeather day, double fromMinute)
    {
        ArgumentNullException.ThrowIfNull(calculator);
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(at);
        ArgumentNullException.ThrowIfNull(day);
        (double low, double high) = calculator.HoverChart.TemperatureRangeC;
        if (!Fits(low))
            return new(at.Site, double.NaN, null, false, day.HasForecast);
        bool toEnd = Fits(high);
        while (!toEnd && high - low > ToleranceC)
        {
            double middle = (low + high) / 2;
            if (Fits(middle))
                low = middle;
            else
                high = middle;
        }
        double temperature = toEnd ? high : low;
        // Where the page ends or has an empty cell before the load stops, the temperature is the page's, not the load's.
        toEnd |= double.IsNaN(calculator.GrossKgAt(at, temperature + 2 * ToleranceC));
        return new(at.Site, temperature, day.HasForecast ? day.MinuteHotterThan(temperature, fromMinute) : null, toEnd, day.HasForecast);

        // Mass never rises with heat (checked when the chart is read in), so one bisection finds the edge. A refused reading counts as not fitting.
        bool Fits(double temperatureC) => calculator.MostFuelKg(load, calculator.GrossKgAt(at, temperatureC)) >= fuelKg;
    }
}
