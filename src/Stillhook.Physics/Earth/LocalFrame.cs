namespace Stillhook.Physics.Earth;

/// <summary>A vector in metres (or m/s, m/s²) east, north, up of a stated origin.</summary>
public readonly record struct Enu(double East, double North, double Up)
{
    /// <summary>Length of the horizontal part.</summary>
    public double Horizontal => Math.Sqrt(East * East + North * North);

    /// <summary>Length of the whole vector.</summary>
    public double Length => Math.Sqrt(East * East + North * North + Up * Up);

    /// <summary>Sum.</summary>
    public static Enu operator +(Enu a, Enu b) => new(a.East + b.East, a.North + b.North, a.Up + b.Up);

    /// <summary>Difference.</summary>
    public static Enu operator -(Enu a, Enu b) => new(a.East - b.East, a.North - b.North, a.Up - b.Up);

    /// <summary>Multiple.</summary>
    public static Enu operator *(double k, Enu a) => new(k * a.East, k * a.North, k * a.Up);
}

/// <summary>East-north-up frame tangent to WGS-84 at an origin; exact conversion through geocentric coordinates.</summary>
/// <remarks>
/// [EPSG-7-2] section 4.1.2, method 9837 (geographic/topocentric). Up is along the ellipsoid normal at the origin, so at a
/// horizontal distance d the surface lies d²/2R lower (2 m at 5 km): heights compared far apart use <see cref="HeightAbove"/>.
/// Ellipsoid and mean-sea-level heights are not told apart here: a constant difference drops out of every relative height.
/// </remarks>
public sealed class LocalFrame
{
    private readonly Ecef origin;
    private readonly double sinLat, cosLat, sinLon, cosLon;

    /// <summary>Frame at a geodetic position (degrees, m).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Latitude beyond ±90°, or a value that is not finite.</exception>
    public LocalFrame(double latitudeDeg, double longitudeDeg, double heightM)
    {
        if (!(Math.Abs(latitudeDeg) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitudeDeg), latitudeDeg, "Latitude is within ±90°.");
        if (!double.IsFinite(longitudeDeg))
            throw new ArgumentOutOfRangeException(nameof(longitudeDeg), longitudeDeg, "Longitude is a finite number of degrees.");
        if (!double.IsFinite(heightM))
            throw new ArgumentOutOfRangeException(nameof(heightM), heightM, "Height is a finite number of metres.");
        (LatitudeDeg, LongitudeDeg, HeightM) = (latitudeDeg, longitudeDeg, heightM);
        origin = Wgs84.ToEcef(latitudeDeg, longitudeDeg, heightM);
        (sinLat, cosLat) = Math.SinCos(double.DegreesToRadians(latitudeDeg));
        (sinLon, cosLon) = Math.SinCos(double.DegreesToRadians(longitudeDeg));
    }

    /// <summary>Origin latitude, degrees.</summary>
    public double LatitudeDeg { get; }

    /// <summary>Origin longitude, degrees.</summary>
    public double LongitudeDeg { get; }

    /// <summary>Origin height, m.</summary>
    public double HeightM { get; }

    /// <summary>Geodetic position (degrees, m) to this frame.</summary>
    public Enu ToEnu(double latitudeDeg, double longitudeDeg, double heightM)
    {
        Ecef p = Wgs84.ToEcef(latitudeDeg, longitudeDeg, heightM);
        double dx = p.X - origin.X, dy = p.Y - origin.Y, dz = p.Z - origin.Z;
        return new(
            -sinLon * dx + cosLon * dy,
            -sinLat * cosLon * dx - sinLat * sinLon * dy + cosLat * dz,
            cosLat * cosLon * dx + cosLat * sinLon * dy + sinLat * dz);
    }

    /// <summary>This frame to a geodetic position (degrees, m).</summary>
    public (double LatitudeDeg, double LongitudeDeg, double HeightM) ToGeodetic(Enu p)
    {
        Ecef e = new(
            origin.X - sinLon * p.East - sinLat * cosLon * p.North + cosLat * cosLon * p.Up,
            origin.Y + cosLon * p.East - sinLat * sinLon * p.North + cosLat * sinLon * p.Up,
            origin.Z + cosLat * p.North + sinLat * p.Up);
        return Wgs84.FromEcef(e);
    }

    /// <summary>Height of a point above the origin's level surface, m: the up component with the Earth's curvature taken off.</summary>
    public double HeightAbove(Enu p) => ToGeodetic(p).HeightM - HeightM;
}
