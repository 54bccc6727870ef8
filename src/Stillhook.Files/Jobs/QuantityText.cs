using System.Globalization;
using Stillhook.Debriefing;
using UnitsNet;

namespace Stillhook.Files.Jobs;

/// <summary>Reads a quantity as a person types it: a number with a decimal point, then its unit, such as <c>780kg</c>, <c>100 ft</c> or <c>240/12kt</c>.</summary>
/// <remarks>
/// The number is read the same under every culture and has no grouping marks, so <c>78,5kg</c> is refused and never becomes 785.
/// A bare number is refused too: a missing unit is the commonest way to be wrong by a factor of two.
/// </remarks>
public static class QuantityText
{
    private static readonly Dictionary<string, Func<double, Length>> Lengths = new(StringComparer.OrdinalIgnoreCase)
    {
        ["m"] = v => Length.FromMeters(v),
        ["ft"] = v => Length.FromFeet(v),
        ["km"] = v => Length.FromKilometers(v),
        ["nm"] = v => Length.FromNauticalMiles(v),
    };

    private static readonly Dictionary<string, Func<double, Mass>> Masses = new(StringComparer.OrdinalIgnoreCase)
    {
        ["kg"] = v => Mass.FromKilograms(v),
        ["lb"] = v => Mass.FromPounds(v),
        ["lbs"] = v => Mass.FromPounds(v),
        ["t"] = v => Mass.FromTonnes(v),
    };

    private static readonly Dictionary<string, Func<double, Area>> Areas = new(StringComparer.OrdinalIgnoreCase)
    {
        ["m2"] = v => Area.FromSquareMeters(v),
        ["m²"] = v => Area.FromSquareMeters(v),
        ["ft2"] = v => Area.FromSquareFeet(v),
        ["ft²"] = v => Area.FromSquareFeet(v),
    };

    private static readonly Dictionary<string, Func<double, Speed>> Speeds = new(StringComparer.OrdinalIgnoreCase)
    {
        ["kt"] = v => Speed.FromKnots(v),
        ["m/s"] = v => Speed.FromMetersPerSecond(v),
        ["km/h"] = v => Speed.FromKilometersPerHour(v),
    };

    private static readonly Dictionary<string, Func<double, Pressure>> Pressures = new(StringComparer.OrdinalIgnoreCase)
    {
        ["hPa"] = v => Pressure.FromHectopascals(v),
        ["inHg"] = v => Pressure.FromInchesOfMercury(v),
    };

    private static readonly Dictionary<string, Func<double, Angle>> Angles = new(StringComparer.OrdinalIgnoreCase)
    {
        ["deg"] = v => Angle.FromDegrees(v),
        ["°"] = v => Angle.FromDegrees(v),
    };

    private static readonly Dictionary<string, Func<double, Temperature>> Temperatures = new(StringComparer.OrdinalIgnoreCase)
    {
        ["C"] = v => Temperature.FromDegreesCelsius(v),
        ["°C"] = v => Temperature.FromDegreesCelsius(v),
        ["F"] = v => Temperature.FromDegreesFahrenheit(v),
        ["°F"] = v => Temperature.FromDegreesFahrenheit(v),
    };

    /// <summary>A length at or above zero.</summary>
    public static bool TryLength(string text, out Length value, out string expected) =>
        TryParse(text, Lengths, "a length with its unit, such as 30m or 100ft", out value, out expected);

    /// <summary>A mass at or above zero.</summary>
    public static bool TryMass(string text, out Mass value, out string expected) =>
        TryParse(text, Masses, "a mass with its unit, such as 780kg or 1720lb", out value, out expected);

    /// <summary>An area at or above zero.</summary>
    public static bool TryArea(string text, out Area value, out string expected) =>
        TryParse(text, Areas, "a drag area with its unit, such as 1.8m2 or 19ft2", out value, out expected);

    /// <summary>A pressure above zero.</summary>
    public static bool TryPressure(string text, out Pressure value, out string expected) =>
        TryParse(text, Pressures, "a pressure with its unit, such as 1013hPa or 29.92inHg", out value, out expected);

    /// <summary>A temperature; it may be below zero.</summary>
    public static bool TryTemperature(string text, out Temperature value, out string expected) =>
        TryParse(text, Temperatures, "a temperature with its unit, such as 24C or 75F", out value, out expected, smallest: -100);

    /// <summary>A speed at or above zero.</summary>
    public static bool TrySpeed(string text, out Speed value, out string expected) =>
        TryParse(text, Speeds, "a speed with its unit, such as 10kt", out value, out expected);

    /// <summary>An angle in degrees, such as <c>8deg</c> or <c>8°</c>.</summary>
    public static bool TryAngle(string text, out Angle value, out string expected) =>
        TryParse(text, Angles, "an angle with its unit, such as 8deg", out value, out expected);

    /// <summary>A local clock time such as <c>10:30</c>.</summary>
    public static bool TryClock(string text, out TimeOnly value, out string expected)
    {
        expected = "a clock time such as 10:30";
        return TimeOnly.TryParseExact(text.Trim(), ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out value);
    }

    /// <summary>A wind as direction it blows from (degrees true) and speed: <c>240/12kt</c>.</summary>
    public static bool TryWind(string text, out Wind value, out string expected)
    {
        expected = "the direction it blows from in degrees true, a slash, and the speed with its unit, such as 240/12kt";
        value = default;
        int slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash <= 0 || !TryNumber(text[..slash], out double from) || from is < 0 or > 360)
            return false;
        if (!TryParse(text[(slash + 1)..], Speeds, "", out Speed speed, out _))
            return false;
        value = new(from % 360, speed);
        return true;
    }

    private const double Largest = 1e12; // beyond any quantity of this work, and far enough from the largest number that no unit can make an infinity of it

    private static bool TryParse<T>(string text, Dictionary<string, Func<double, T>> units, string expectation, out T value, out string expected, double smallest = 0)
        where T : struct
    {
        expected = expectation;
        value = default;
        string trimmed = text.Trim();
        int unitAt = trimmed.Length;
        while (unitAt > 0 && !char.IsDigit(trimmed[unitAt - 1]) && trimmed[unitAt - 1] != '.')
            unitAt--;
        // The 2 of m2 belongs to the unit, not to the number.
        if (unitAt == trimmed.Length && trimmed.EndsWith('2'))
            unitAt = trimmed.AsSpan(0, trimmed.Length - 1).LastIndexOfAny("0123456789. ") + 1;
        if (!units.TryGetValue(trimmed[unitAt..].Trim(), out Func<double, T>? unit) || !TryNumber(trimmed[..unitAt], out double number) || number < smallest || number > Largest)
            return false;
        value = unit(number);
        return true;
    }

    private static bool TryNumber(string text, out double number) =>
        double.TryParse(text.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);
}
