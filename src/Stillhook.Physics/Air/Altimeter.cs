namespace Stillhook.Physics.Air;

/// <summary>What an altimeter's setting (QNH) says about pressure, and how far a stale one misleads. Heights m, pressures Pa.</summary>
/// <remarks>
/// The altimeter shows its pressure altitude less the standard height of its setting, H(QNH) [ISO2533]. So the sums here are exact for the
/// instrument; what warm or cold air does to a reading is another matter and not in here. QNH from 850 to 1 100 hPa.
/// </remarks>
public static class Altimeter
{
    /// <summary>Pressure altitude of a place, m: PA = elevation + H(QNH). Lower than the elevation when QNH is above 1013.25 hPa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">QNH outside 85 000..110 000 Pa, or a value that is not a number.</exception>
    public static double PressureAltitudeM(double elevationM, double qnhPa)
    {
        if (!double.IsFinite(elevationM))
            throw new ArgumentOutOfRangeException(nameof(elevationM), elevationM, "Elevation is a finite number of metres.");
        return elevationM + StandardHeightM(qnhPa, nameof(qnhPa));
    }

    /// <summary>Pressure at a place of known elevation, Pa: the standard pressure at its pressure altitude.</summary>
    public static double StationPressurePa(double elevationM, double qnhPa) => StandardAtmosphere.PressurePa(PressureAltitudeM(elevationM, qnhPa));

    /// <summary>How far an altimeter left on one setting misreads when another is right, m: H(QNH now) − H(QNH set). Positive = reads high.</summary>
    /// <remarks>The same at every height. Pressure fallen since it was set: it reads high and the aircraft is lower than it shows.</remarks>
    /// <param name="setQnhPa">The setting on the instrument.</param>
    /// <param name="presentQnhPa">The QNH that is right now.</param>
    public static double ReadsHighM(double setQnhPa, double presentQnhPa) =>
        StandardHeightM(presentQnhPa, nameof(presentQnhPa)) - StandardHeightM(setQnhPa, nameof(setQnhPa));

    private static double StandardHeightM(double qnhPa, string name)
    {
        if (!(qnhPa is >= 85_000 and <= 110_000))
            throw new ArgumentOutOfRangeException(name, qnhPa, "QNH is within 85000 and 110000 Pa.");
        return StandardAtmosphere.PressureAltitudeM(qnhPa);
    }
}
