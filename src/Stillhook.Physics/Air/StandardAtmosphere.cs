using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Air;

/// <summary>The international standard atmosphere up to 11 km.</summary>
/// <remarks>
/// [ISO2533]: T₀ = 288.15 K, p₀ = 101 325 Pa, lapse 6.5 K/km, R = 287.05287 J/(kg·K). Heights are geopotential; below 6 km the geometric
/// height is at most 6 m more, which is invisible here. Dry air. Range −2 000 to 11 000 m; outside it is refused.
/// </remarks>
public static class StandardAtmosphere
{
    /// <summary>0 °C, K.</summary>
    public const double ZeroCelsiusK = 273.15;

    internal const double SeaLevelK = 288.15, SeaLevelPa = 101_325, LapseKPerM = 0.0065, GasConstant = 287.05287;
    internal const double Exponent = Gravity.Standard / (GasConstant * LapseKPerM);
    private const double HeatRatio = 1.4, EarthRadiusM = 6_356_766;

    /// <summary>Temperature, K: T = T₀ − 0.0065·H.</summary>
    /// <param name="heightM">Geopotential height, m.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside −2 000..11 000 m, or not a number.</exception>
    public static double TemperatureK(double heightM)
    {
        if (!(heightM is >= -2000 and <= 11_000))
            throw new ArgumentOutOfRangeException(nameof(heightM), heightM, "Height is within -2000 and 11000 m.");
        return SeaLevelK - LapseKPerM * heightM;
    }

    /// <summary>Pressure, Pa: p = p₀·(T/T₀)^(g/(R·0.0065)).</summary>
    public static double PressurePa(double heightM) => SeaLevelPa * Math.Pow(TemperatureK(heightM) / SeaLevelK, Exponent);

    /// <summary>Density, kg/m³: ρ = p/(R·T).</summary>
    public static double DensityKgM3(double heightM) => DensityKgM3(PressurePa(heightM), TemperatureK(heightM));

    /// <summary>Density of dry air of a pressure (Pa) and temperature (K), kg/m³.</summary>
    public static double DensityKgM3(double pressurePa, double temperatureK) => pressurePa / (GasConstant * temperatureK);

    /// <summary>Pressure altitude, m: the standard height of a pressure (Pa).</summary>
    public static double PressureAltitudeM(double pressurePa) => SeaLevelK / LapseKPerM * (1 - Math.Pow(pressurePa / SeaLevelPa, 1 / Exponent));

    /// <summary>Speed of sound in dry air, m/s: a = √(1.4·R·T).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Temperature not above 0 K.</exception>
    public static double SpeedOfSoundMs(double temperatureK)
    {
        if (!(temperatureK > 0 && double.IsFinite(temperatureK)))
            throw new ArgumentOutOfRangeException(nameof(temperatureK), temperatureK, "Temperature is above 0 K.");
        return Math.Sqrt(HeatRatio * GasConstant * temperatureK);
    }

    /// <summary>Geopotential height of a geometric height above sea level, both m: H = r·h/(r + h), r = 6 356 766 m [ISO2533].</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside −2 000..11 019 m (11 000 m geopotential), or not a number.</exception>
    public static double GeopotentialM(double geometricM)
    {
        if (!(geometricM is >= -2000 and <= 11_019))
            throw new ArgumentOutOfRangeException(nameof(geometricM), geometricM, "Height is within -2000 and 11019 m.");
        return EarthRadiusM * geometricM / (EarthRadiusM + geometricM);
    }
}
