namespace Stillhook.Physics.Air;

/// <summary>The height in the standard atmosphere at which the air is as dense as here, m.</summary>
/// <remarks>
/// Exact inverse of [ISO2533]: DA = (T₀/0.0065)·(1 − (ρ/ρ₀)^(1/(g/(R·0.0065) − 1))). The rule of 120 ft per °C is not used: at 10 000 ft and 20 °C it is
/// 190 ft high, and its error grows with the distance from the standard temperature.
/// </remarks>
public static class DensityAltitude
{
    private const double SeaLevelKgM3 = StandardAtmosphere.SeaLevelPa / (StandardAtmosphere.GasConstant * StandardAtmosphere.SeaLevelK);

    /// <summary>Density altitude of air of a known density (kg/m³, dry or moist), m.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Density outside 0.3..1.8 kg/m³, or not a number.</exception>
    public static double OfDensityM(double densityKgM3)
    {
        if (!(densityKgM3 is >= 0.3 and <= 1.8))
            throw new ArgumentOutOfRangeException(nameof(densityKgM3), densityKgM3, "Density is within 0.3 and 1.8 kg/m3.");
        double ratio = Math.Pow(densityKgM3 / SeaLevelKgM3, 1 / (StandardAtmosphere.Exponent - 1));
        return StandardAtmosphere.SeaLevelK / StandardAtmosphere.LapseKPerM * (1 - ratio);
    }

    /// <summary>Density altitude of dry air at a pressure altitude (m) and temperature (K), m.</summary>
    public static double OfDryAirM(double pressureAltitudeM, double temperatureK) =>
        OfDensityM(StandardAtmosphere.DensityKgM3(StandardAtmosphere.PressurePa(pressureAltitudeM), temperatureK));

    /// <summary>Density altitude of moist air at a pressure altitude (m), temperature and dew point (K), m.</summary>
    public static double OfMoistAirM(double pressureAltitudeM, double temperatureK, double dewPointK) =>
        OfDensityM(Humidity.DensityByDewPointKgM3(StandardAtmosphere.PressurePa(pressureAltitudeM), temperatureK, dewPointK));
}
