namespace Stillhook.Physics.Earth;

/// <summary>The WGS-84 ellipsoid: geodetic to geocentric and back.</summary>
/// <remarks>Equations: [EPSG-7-2] section 4.1.1 (geographic/geocentric). Constants: [WGS84].</remarks>
public static class Wgs84
{
    /// <summary>Semi-major axis, m. Exact by definition.</summary>
    public const double SemiMajorAxis = 6378137.0;

    /// <summary>Flattening, 1/298.257223563. Exact by definition.</summary>
    public const double Flattening = 1 / 298.257223563;

    /// <summary>First eccentricity squared, e² = f(2 − f).</summary>
    public const double EccentricitySquared = Flattening * (2 - Flattening);

    /// <summary>Geocentric position from geodetic latitude, longitude (degrees) and ellipsoid height (m).</summary>
    /// <remarks>X = (ν + h)cosφ cosλ, Y = (ν + h)cosφ sinλ, Z = ((1 − e²)ν + h)sinφ, ν = a/√(1 − e² sin²φ). Exact.</remarks>
    public static Ecef ToEcef(double latitudeDeg, double longitudeDeg, double heightM)
    {
        (double sinLat, double cosLat) = Math.SinCos(double.DegreesToRadians(latitudeDeg));
        (double sinLon, double cosLon) = Math.SinCos(double.DegreesToRadians(longitudeDeg));
        double nu = SemiMajorAxis / Math.Sqrt(1 - EccentricitySquared * sinLat * sinLat);
        return new((nu + heightM) * cosLat * cosLon, (nu + heightM) * cosLat * sinLon, ((1 - EccentricitySquared) * nu + heightM) * sinLat);
    }

    /// <summary>Geodetic latitude, longitude (degrees) and ellipsoid height (m) from a geocentric position.</summary>
    /// <remarks>
    /// Bowring's closed start followed by two fixed-point steps; below 100 km height the result returns to the start
    /// position within 1e-9 m (tested). At the centre of the Earth the result is meaningless.
    /// </remarks>
    public static (double LatitudeDeg, double LongitudeDeg, double HeightM) FromEcef(in Ecef p)
    {
        const double b = SemiMajorAxis * (1 - Flattening);
        const double secondEccentricitySquared = EccentricitySquared / (1 - EccentricitySquared);
        double fromAxis = Math.Sqrt(p.X * p.X + p.Y * p.Y);
        double theta = Math.Atan2(p.Z * SemiMajorAxis, fromAxis * b);
        (double sinTheta, double cosTheta) = Math.SinCos(theta);
        double lat = Math.Atan2(
            p.Z + secondEccentricitySquared * b * sinTheta * sinTheta * sinTheta,
            fromAxis - EccentricitySquared * SemiMajorAxis * cosTheta * cosTheta * cosTheta);
        for (int i = 0; i < 2; i++)
        {
            double s = Math.Sin(lat);
            double nu = SemiMajorAxis / Math.Sqrt(1 - EccentricitySquared * s * s);
            lat = Math.Atan2(p.Z + EccentricitySquared * nu * s, fromAxis);
        }
        (double sinLat, double cosLat) = Math.SinCos(lat);
        double height = fromAxis * cosLat + p.Z * sinLat - SemiMajorAxis * Math.Sqrt(1 - EccentricitySquared * sinLat * sinLat);
        return (double.RadiansToDegrees(lat), double.RadiansToDegrees(Math.Atan2(p.Y, p.X)), height);
    }
}

/// <summary>Earth-centred, Earth-fixed position, m: X to (0°, 0°), Y to (0°, 90° E), Z to the north pole.</summary>
public readonly record struct Ecef(double X, double Y, double Z);
