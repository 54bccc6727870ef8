using System.Globalization;

namespace Stillhook.Planning;

/// <summary>Clock times of the plan, which counts minutes from midnight of the sites' own time.</summary>
public static class ClockText
{
    /// <summary>
    /// A minute of the day as <c>09:54</c>, up to the whole minute, so that nothing is shown before it can be: hook-on, release, fuel, back at base, on plan, page and card alike. Beyond
    /// midnight the days are counted: <c>00:20 (+1 d)</c>. What must be over by a minute takes <see cref="Limit"/>.
    /// </summary>
    public static string Of(double minute)
    {
        int whole = (int)Math.Ceiling(minute - 1e-6);
        return string.Create(CultureInfo.InvariantCulture, $"{whole / 60 % 24:00}:{whole % 60:00}{(whole >= 1440 ? $" (+{whole / 1440} d)" : "")}");
    }

    /// <summary>A minute by which something must be over or from which it no longer holds, down to the whole minute: never shown later than it is.</summary>
    public static string Limit(double minute) => Of(Math.Floor(minute + 1e-6));

    /// <summary>A clock hour with its end: <c>09:00 to 10:00</c>.</summary>
    public static string Hour(int hour) => $"{Of(hour % 24 * 60)} to {Of((hour + 1) % 24 * 60)}";
}
