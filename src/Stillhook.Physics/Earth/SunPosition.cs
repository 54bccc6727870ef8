namespace Stillhook.Physics.Earth;

/// <summary>Where the sun's centre stands in the sky.</summary>
/// <remarks>
/// [MEEUS] chapter 25, low accuracy, with the refraction of chapter 16. Geometric place within 0.01° from 1950 to 2050 and 0.02° from 1900 to 2100;
/// the difference of dynamical and universal time (70 s) is left out, worth 0.0008°. Refraction is that of 1010 hPa and 10 °C: at 820 hPa it is a fifth less,
/// which is 0.004° at 40° and 0.1° on the horizon. Terrain, cloud and the dip of the horizon are not in it.
/// </remarks>
/// <param name="ElevationDeg">Apparent elevation of the centre above the level horizon, degrees, refraction included; negative below.</param>
/// <param name="AzimuthDeg">Clockwise from true north, degrees, 0 to below 360.</param>
public readonly record struct SunPosition(double ElevationDeg, double AzimuthDeg)
{
    private const double ParallaxDeg = 8.794 / 3600; // horizontal parallax at the mean distance
    private static readonly DateTimeOffset J2000 = new(2000, 1, 1, 12, 0, 0, TimeSpan.Zero);

    /// <summary>The sun's place at a time and position.</summary>
    /// <param name="time">1900 to 2100.</param>
    /// <param name="latitudeDeg">Degrees, north positive.</param>
    /// <param name="longitudeDeg">Degrees, east positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">Year outside 1900 to 2100, latitude beyond ±90°, longitude not finite.</exception>
    public static SunPosition At(DateTimeOffset time, double latitudeDeg, double longitudeDeg)
    {
        if (time.UtcDateTime.Year is < 1900 or > 2100)
            throw new ArgumentOutOfRangeException(nameof(time), time, "Year is within 1900 and 2100.");
        if (!(Math.Abs(latitudeDeg) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitudeDeg), latitudeDeg, "Latitude is within ±90°.");
        if (!double.IsFinite(longitudeDeg))
            throw new ArgumentOutOfRangeException(nameof(longitudeDeg), longitudeDeg, "Longitude is a finite number of degrees.");
        double days = (time - J2000).TotalDays;
        (double rightAscensionDeg, double declinationDeg, double siderealDeg) = Apparent(days);
        return Horizontal(siderealDeg + longitudeDeg - rightAscensionDeg, declinationDeg, latitudeDeg);
    }

    // Days from 2000-01-01 12:00 to apparent right ascension, declination and sidereal time at Greenwich, degrees. [MEEUS] (25.2)-(25.8), (12.4).
    private static (double RightAscension, double Declination, double Sidereal) Apparent(double days)
    {
        double t = days / 36525;
        double meanLongitude = 280.46646 + t * (36000.76983 + t * 0.0003032), meanAnomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
        double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * Sin(meanAnomaly) + (0.019993 - t * 0.000101) * Sin(2 * meanAnomaly) + 0.000289 * Sin(3 * meanAnomaly);
        double node = 125.04 - 1934.136 * t, nutation = -0.00478 * Sin(node); // nutation in longitude
        double longitude = meanLongitude + centre - 0.00569 + nutation;
        double obliquity = 23.439291 - t * (0.0130042 + t * (0.00000016 - t * 0.000000504)) + 0.00256 * Cos(node);
        double rightAscension = Degrees(Math.Atan2(Cos(obliquity) * Sin(longitude), Cos(longitude)));
        double sidereal = 280.46061837 + 360.98564736629 * days + t * t * 0.000387933 + nutation * Cos(obliquity);
        return (rightAscension, Degrees(Math.Asin(Sin(obliquity) * Sin(longitude))), sidereal);
    }

    // [MEEUS] (13.5), (13.6), with azimuth from north; then parallax and refraction.
    private static SunPosition Horizontal(double hourAngleDeg, double declinationDeg, double latitudeDeg)
    {
        double east = -Cos(declinationDeg) * Sin(hourAngleDeg);
        double north = Sin(declinationDeg) * Cos(latitudeDeg) - Cos(declinationDeg) * Sin(latitudeDeg) * Cos(hourAngleDeg);
        double up = Sin(declinationDeg) * Sin(latitudeDeg) + Cos(declinationDeg) * Cos(latitudeDeg) * Cos(hourAngleDeg);
        double elevation = Degrees(Math.Atan2(up, Math.Sqrt(east * east + north * north)));
        elevation -= ParallaxDeg * Cos(elevation);
        double azimuth = Degrees(Math.Atan2(east, north));
        return new(elevation + RefractionDeg(elevation), azimuth < 0 ? Math.Min(azimuth + 360, Math.BitDecrement(360.0)) : azimuth);
    }

    // [MEEUS] (16.4) of Sæmundsson, by geometric elevation, within 0.07' of tables; from 1° below the horizon, where nothing is seen, it falls off towards the nadir.
    private static double RefractionDeg(double elevationDeg)
    {
        if (elevationDeg < -1) return RefractionDeg(-1) * Math.Tan(double.DegreesToRadians(-1)) / Math.Tan(double.DegreesToRadians(elevationDeg));
        return 1.02 / 60 / Math.Tan(double.DegreesToRadians(elevationDeg + 10.3 / (elevationDeg + 5.11)));
    }

    private static double Sin(double degrees) => Math.Sin(double.DegreesToRadians(degrees));

    private static double Cos(double degrees) => Math.Cos(double.DegreesToRadians(degrees));

    private static double Degrees(double radians) => double.RadiansToDegrees(radians);
}
