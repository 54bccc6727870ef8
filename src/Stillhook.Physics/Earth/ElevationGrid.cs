namespace Stillhook.Physics.Earth;

/// <summary>What the coordinates of an elevation grid are.</summary>
public enum GridCoordinates
{
    /// <summary>Degrees: x = longitude (east positive), y = latitude (north positive).</summary>
    Degrees,

    /// <summary>Metres of a map projection: x = easting, y = northing.</summary>
    ProjectedMetres,
}

/// <summary>Ground heights on an even grid, north up.</summary>
/// <remarks>
/// Heights stand at cell centres and are bilinear between them; where a height is unknown (void, or outside) the answer is null, never a guess:
/// unknown is not low. Heights keep the datum of their source; only differences of heights from one grid are meant to be used (docs/method/terrain-and-sun.md).
/// Accuracy is the source's: the published goal of the radar mission of 2000 is 16 m absolute and 10 m relative for nine in ten cells [SRTM-2007], with
/// tree tops partly counted as ground, and without wires, masts and single trees.
/// </remarks>
public sealed class ElevationGrid
{
    // Positions this near to a row or column, in cells, are on it: headers print steps to 9-12 digits.
    private const double OnCentre = 1e-6;
    private readonly float[] heights;

    /// <summary>A grid of heights.</summary>
    /// <param name="coordinates">What x and y are.</param>
    /// <param name="westCentre">x of the centres of the westernmost column.</param>
    /// <param name="southCentre">y of the centres of the southernmost row.</param>
    /// <param name="stepX">Distance of columns, in units of x.</param>
    /// <param name="stepY">Distance of rows, in units of y.</param>
    /// <param name="columns">At least 2.</param>
    /// <param name="rows">At least 2.</param>
    /// <param name="heightsM">Row by row from the north-west corner, m; NaN is a void. Kept, not copied.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, no step, fewer than 2 columns or rows, latitude beyond ±90°, longitude beyond ±360°, infinite height.</exception>
    /// <exception cref="ArgumentException">The number of heights is not columns times rows.</exception>
    public ElevationGrid(GridCoordinates coordinates, double westCentre, double southCentre, double stepX, double stepY, int columns, int rows, float[] heightsM)
    {
        ArgumentNullException.ThrowIfNull(heightsM);
        RefuseShape(stepX, stepY, columns, rows);
        (Coordinates, WestCentre, SouthCentre, StepX, StepY, Columns, Rows) = (coordinates, westCentre, southCentre, stepX, stepY, columns, rows);
        RefusePlace();
        if (heightsM.Length != (long)columns * rows)
            throw new ArgumentException($"There are columns × rows heights, {(long)columns * rows}; given were {heightsM.Length}.", nameof(heightsM));
        heights = heightsM;
        (LowestM, HighestM, Voids) = Range(heightsM);
    }

    /// <summary>What x and y are.</summary>
    public GridCoordinates Coordinates { get; }

    /// <summary>x of the westernmost cell centres.</summary>
    public double WestCentre { get; }

    /// <summary>y of the southernmost cell centres.</summary>
    public double SouthCentre { get; }

    /// <summary>x of the easternmost cell centres.</summary>
    public double EastCentre => WestCentre + (Columns - 1) * StepX;

    /// <summary>y of the northernmost cell centres.</summary>
    public double NorthCentre => SouthCentre + (Rows - 1) * StepY;

    /// <summary>Distance of columns, in units of x.</summary>
    public double StepX { get; }

    /// <summary>Distance of rows, in units of y.</summary>
    public double StepY { get; }

    /// <summary>Number of columns.</summary>
    public int Columns { get; }

    /// <summary>Number of rows.</summary>
    public int Rows { get; }

    /// <summary>Lowest known height, m; null when every cell is void.</summary>
    public double? LowestM { get; }

    /// <summary>Highest known height, m; null when every cell is void.</summary>
    public double? HighestM { get; }

    /// <summary>Number of cells without a height.</summary>
    public long Voids { get; }

    /// <summary>Height of one cell, m; null when void.</summary>
    /// <param name="row">0 is the northernmost.</param>
    /// <param name="column">0 is the westernmost.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not a cell of the grid.</exception>
    public double? CellM(int row, int column)
    {
        if (row < 0 || row >= Rows)
            throw new ArgumentOutOfRangeException(nameof(row), row, $"Row is within 0 and {Rows - 1}.");
        if (column < 0 || column >= Columns)
            throw new ArgumentOutOfRangeException(nameof(column), column, $"Column is within 0 and {Columns - 1}.");
        return Known(At(row, column));
    }

    /// <summary>Height at a position, m, bilinear between the four cell centres around it.</summary>
    /// <returns>Null outside the rectangle of the cell centres, and when one of the centres that count is void. On a centre only that cell counts, on a row or column two.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite position.</exception>
    public double? HeightM(double x, double y)
    {
        RefusePosition(x, y);
        return Bilinear(x, y);
    }

    /// <summary>Highest ground within a distance of a position, m.</summary>
    /// <remarks>
    /// The highest of: the position itself, every cell centre within the radius, and the bilinear ground on the circle where it crosses rows and columns
    /// and at steps of a quarter cell or less (at least 16). A bilinear patch has no summit inside, so nothing within the radius is higher than the answer by more than the
    /// slope times an eighth of a cell or, for a circle within one cell, a fifth of the radius. Degrees become metres by the radii of curvature at the position [EPSG-7-2]: east-west distances are then 0.02 % off
    /// per kilometre to the north or south at 46°.
    /// </remarks>
    /// <param name="x">Longitude, degrees, or easting, m.</param>
    /// <param name="y">Latitude, degrees, or northing, m.</param>
    /// <param name="radiusM">m; 0 gives the height at the position.</param>
    /// <returns>Null when any ground within the radius is void or outside the grid: unknown is not low.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite position, or a radius that is negative or not a number.</exception>
    public double? HighestNearM(double x, double y, double radiusM)
    {
        RefusePosition(x, y);
        if (!(radiusM >= 0 && double.IsFinite(radiusM)))
            throw new ArgumentOutOfRangeException(nameof(radiusM), radiusM, "Radius is 0 m or more.");
        (double metresPerX, double metresPerY) = Scale(y);
        double reachX = radiusM / metresPerX, reachY = radiusM / metresPerY;
        if (!Covers(x - reachX, y - reachY) || !Covers(x + reachX, y + reachY)) return null;
        double highest = Ground(x, y);
        if (radiusM > 0) highest = Math.Max(HighestOnLines(x, y, reachX, reachY), Highest(highest, HighestCentre(x, y, reachX, reachY), HighestOnCircle(x, y, reachX, reachY)));
        return double.IsNaN(highest) ? null : highest;
    }

    // Math.Max hands NaN on: one unknown height makes the answer unknown.
    private static double Highest(double a, double b, double c) => Math.Max(a, Math.Max(b, c));

    private double HighestCentre(double x, double y, double reachX, double reachY)
    {
        double highest = double.NegativeInfinity;
        int firstRow = Math.Max(0, (int)Math.Ceiling((NorthCentre - y - reachY) / StepY)), lastRow = Math.Min(Rows - 1, (int)Math.Floor((NorthCentre - y + reachY) / StepY));
        for (int row = firstRow; row <= lastRow; row++)
        {
            double dy = (NorthCentre - row * StepY - y) / reachY, halfX = reachX * Math.Sqrt(Math.Max(0, 1 - dy * dy));
            int first = Math.Max(0, (int)Math.Ceiling((x - halfX - WestCentre) / StepX)), last = Math.Min(Columns - 1, (int)Math.Floor((x + halfX - WestCentre) / StepX));
            for (int column = first; column <= last; column++)
                highest = Math.Max(highest, At(row, column));
        }

        return highest;
    }

    // Where the circle crosses rows and columns: ridges of the bilinear ground run along them.
    private double HighestOnLines(double x, double y, double reachX, double reachY)
    {
        double highest = double.NegativeInfinity;
        for (int row = Math.Max(0, (int)Math.Ceiling((NorthCentre - y - reachY) / StepY)); row < Rows && NorthCentre - row * StepY >= y - reachY; row++)
        {
            double at = NorthCentre - row * StepY, away = reachX * Math.Sqrt(Math.Max(0, 1 - (at - y) / reachY * ((at - y) / reachY)));
            highest = Highest(highest, Ground(x - away, at), Ground(x + away, at));
        }

        for (int column = Math.Max(0, (int)Math.Ceiling((x - reachX - WestCentre) / StepX)); column < Columns && WestCentre + column * StepX <= x + reachX; column++)
        {
            double at = WestCentre + column * StepX, away = reachY * Math.Sqrt(Math.Max(0, 1 - (at - x) / reachX * ((at - x) / reachX)));
            highest = Highest(highest, Ground(at, y - away), Ground(at, y + away));
        }

        return highest;
    }

    private double HighestOnCircle(double x, double y, double reachX, double reachY)
    {
        double cells = Math.Max(reachX / StepX, reachY / StepY), highest = double.NegativeInfinity;
        int points = Math.Max(16, (int)Math.Ceiling(8 * Math.PI * cells));
        for (int i = 0; i < points; i++)
        {
            (double sin, double cos) = Math.SinCos(2 * Math.PI * i / points);
            highest = Math.Max(highest, Ground(x + reachX * sin, y + reachY * cos));
        }

        return highest;
    }

    private double Ground(double x, double y) => Bilinear(x, y) ?? double.NaN;

    private double? Bilinear(double x, double y)
    {
        if (!Covers(x, y)) return null;
        (int column, double east) = Split((x - WestCentre) / StepX, Columns);
        (int row, double south) = Split((NorthCentre - y) / StepY, Rows);
        return Known(Between(Along(row, column, east), south > 0 ? Along(row + 1, column, east) : 0, south));
    }

    private double Along(int row, int column, double east) => Between(At(row, column), east > 0 ? At(row, column + 1) : 0, east);

    private static double Between(double a, double b, double share) => share > 0 ? a + (b - a) * share : a;

    // Whole cells and the rest; a position within OnCentre of a centre is on it, so that rounding calls in no neighbour.
    private static (int Cell, double Share) Split(double cells, int count)
    {
        double whole = Math.Clamp(Math.Floor(cells + OnCentre), 0, count - 1);
        double rest = cells - whole;
        return ((int)whole, rest > OnCentre ? rest : 0);
    }

    private bool Covers(double x, double y) =>
        x >= WestCentre - OnCentre * StepX && x <= EastCentre + OnCentre * StepX && y >= SouthCentre - OnCentre * StepY && y <= NorthCentre + OnCentre * StepY;

    private float At(int row, int column) => heights[(long)row * Columns + column];

    private static double? Known(double height) => double.IsNaN(height) ? null : height;

    // Metres per unit of x and y. M = a(1 − e²)/(1 − e² sin²φ)^1.5 along the meridian, ν·cosφ along the parallel [EPSG-7-2].
    private (double X, double Y) Scale(double y)
    {
        if (Coordinates == GridCoordinates.ProjectedMetres) return (1, 1);
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(Math.Clamp(y, -90, 90)));
        double w = Math.Sqrt(1 - Wgs84.EccentricitySquared * sin * sin);
        const double degree = Math.PI / 180 * Wgs84.SemiMajorAxis;
        return (degree / w * cos, degree * (1 - Wgs84.EccentricitySquared) / (w * w * w));
    }

    private static (double? Lowest, double? Highest, long Voids) Range(float[] heights)
    {
        float lowest = float.PositiveInfinity, highest = float.NegativeInfinity;
        long voids = 0;
        foreach (float height in heights)
        {
            if (float.IsNaN(height)) voids++;
            else if (height < lowest || height > highest) (lowest, highest) = (Math.Min(lowest, height), Math.Max(highest, height));
        }

        if (voids == heights.Length) return (null, null, voids);
        if (float.IsInfinity(lowest) || float.IsInfinity(highest))
            throw new ArgumentOutOfRangeException(nameof(heights), "infinite", "A height is a finite number of metres, or NaN for a void.");
        return (lowest, highest, voids);
    }

    private static void RefuseShape(double stepX, double stepY, int columns, int rows)
    {
        if (!(stepX > 0 && double.IsFinite(stepX)))
            throw new ArgumentOutOfRangeException(nameof(stepX), stepX, "Step is above 0.");
        if (!(stepY > 0 && double.IsFinite(stepY)))
            throw new ArgumentOutOfRangeException(nameof(stepY), stepY, "Step is above 0.");
        if (columns < 2)
            throw new ArgumentOutOfRangeException(nameof(columns), columns, "There are 2 columns or more.");
        if (rows < 2)
            throw new ArgumentOutOfRangeException(nameof(rows), rows, "There are 2 rows or more.");
    }

    private void RefusePlace()
    {
        double limitX = Coordinates == GridCoordinates.Degrees ? 360 : double.MaxValue, limitY = Coordinates == GridCoordinates.Degrees ? 90 : double.MaxValue;
        if (!(Math.Abs(WestCentre) <= limitX && EastCentre <= limitX + OnCentre))
            throw new ArgumentOutOfRangeException("westCentre", WestCentre, "Cell centres lie within ±360° of longitude, or at finite metres.");
        if (!(Math.Abs(SouthCentre) <= limitY && NorthCentre <= limitY + OnCentre))
            throw new ArgumentOutOfRangeException("southCentre", SouthCentre, "Cell centres lie within ±90° of latitude, or at finite metres.");
    }

    private static void RefusePosition(double x, double y)
    {
        if (!double.IsFinite(x))
            throw new ArgumentOutOfRangeException(nameof(x), x, "Position is a finite number.");
        if (!double.IsFinite(y))
            throw new ArgumentOutOfRangeException(nameof(y), y, "Position is a finite number.");
    }
}
