namespace Stillhook.Physics.Air;

/// <summary>Water vapour in the air and what it takes from the density. Temperatures K, pressures Pa.</summary>
/// <remarks>
/// Vapour pressure over water, [WMO-8]: e = 611.2·exp(17.62·t/(243.12 + t)) Pa, t in °C, from −45 to 60 °C; the formula by [BUCK] differs by 0.3 % at most
/// from 0 to 40 °C, which is under 0.02 % of the density. Vapour pressure in plain air is taken as over pure water (within 0.5 %).
/// </remarks>
public static class Humidity
{
    private const double LightnessOfVapour = 0.378; // 1 − 0.622, molar masses of water and dry air

    /// <summary>Vapour pressure of saturated air, Pa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 228.15..333.15 K, or not a number.</exception>
    public static double SaturationPressurePa(double temperatureK)
    {
        if (!(temperatureK is >= 228.15 and <= 333.15))
            throw new ArgumentOutOfRangeException(nameof(temperatureK), temperatureK, "Temperature is within 228.15 and 333.15 K.");
        double celsius = temperatureK - StandardAtmosphere.ZeroCelsiusK;
        return 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius));
    }

    /// <summary>Temperature at which dry air would be as light, K: Tv = T/(1 − 0.378·e/p).</summary>
    /// <param name="temperatureK">Air temperature.</param>
    /// <param name="pressurePa">Pressure of the air, vapour included.</param>
    /// <param name="vapourPressurePa">Vapour pressure, 0 to under half of the pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside these.</exception>
    public static double VirtualTemperatureK(double temperatureK, double pressurePa, double vapourPressurePa)
    {
        if (!(temperatureK > 0 && double.IsFinite(temperatureK)))
            throw new ArgumentOutOfRangeException(nameof(temperatureK), temperatureK, "Temperature is above 0 K.");
        if (!(pressurePa > 0 && double.IsFinite(pressurePa)))
            throw new ArgumentOutOfRangeException(nameof(pressurePa), pressurePa, "Pressure is above 0 Pa.");
        if (!(vapourPressurePa >= 0 && vapourPressurePa < pressurePa / 2))
            throw new ArgumentOutOfRangeException(nameof(vapourPressurePa), vapourPressurePa, "Vapour pressure is from 0 to under half of the pressure.");
        return temperatureK / (1 - LightnessOfVapour * vapourPressurePa / pressurePa);
    }

    /// <summary>Density of air of a known dew point, kg/m³: ρ = p/(R·Tv).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Dew point above the temperature, or a value outside its range.</exception>
    public static double DensityByDewPointKgM3(double pressurePa, double temperatureK, double dewPointK)
    {
        if (!(dewPointK <= temperatureK))
            throw new ArgumentOutOfRangeException(nameof(dewPointK), dewPointK, "Dew point is at most the temperature.");
        return DensityKgM3(pressurePa, temperatureK, SaturationPressurePa(dewPointK));
    }

    /// <summary>Density of air of a known relative humidity, kg/m³.</summary>
    /// <param name="pressurePa">Pressure.</param>
    /// <param name="temperatureK">Air temperature.</param>
    /// <param name="relativeHumidity">0 (dry) to 1 (saturated).</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static double DensityByRelativeHumidityKgM3(double pressurePa, double temperatureK, double relativeHumidity)
    {
        if (!(relativeHumidity is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(relativeHumidity), relativeHumidity, "Relative humidity is from 0 to 1.");
        return DensityKgM3(pressurePa, temperatureK, relativeHumidity * SaturationPressurePa(temperatureK));
    }

    private static double DensityKgM3(double pressurePa, double temperatureK, double vapourPressurePa) =>
        StandardAtmosphere.DensityKgM3(pressurePa, VirtualTemperatureK(temperatureK, pressurePa, vapourPressurePa));
}
