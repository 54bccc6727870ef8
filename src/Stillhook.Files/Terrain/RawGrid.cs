using System.Globalization;
using Stillhook.Files.Records;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Terrain;

/// <summary>What a format said about a grid, before it is checked as ground.</summary>
/// <param name="Coordinates">Null when the format does not say; then the numbers decide.</param>
/// <param name="West">x of the westernmost centres.</param>
/// <param name="South">y of the southernmost centres.</param>
/// <param name="StepX">Distance of columns.</param>
/// <param name="StepY">Distance of rows.</param>
/// <param name="Columns">Number of columns.</param>
/// <param name="Rows">Number of rows.</param>
/// <param name="Heights">North-west first, NaN for a void.</param>
internal sealed record RawGrid(GridCoordinates? Coordinates, double West, double South, double StepX, double StepY, int Columns, int Rows, float[] Heights)
{
    // The Dead Sea's shore is at −430 m, Everest at 8 849 m; what is outside is an undeclared mark for a void, or another unit or byte order.
    private const float LowestGroundM = -500, HighestGroundM = 9000;

    /// <summary>Projection by its EPSG code, when the file names it.</summary>
    public int? ProjectionCode { get; init; }

    /// <summary>The last height ends with the file, without a line end: it may be cut.</summary>
    public bool LastHeightOpen { get; init; }

    /// <summary>The words nan among the heights.</summary>
    public long NotANumber { get; init; }

    private double East => West + (Columns - 1) * StepX;

    private double North => South + (Rows - 1) * StepY;

    private bool InDegrees => Math.Abs(West) <= 360 && East <= 360 && Math.Abs(South) <= 90 && North <= 90.0000005;

    public ElevationGrid Build(FindingLog findings)
    {
        GridCoordinates coordinates = Coordinates ?? (InDegrees && StepX <= 1 && StepY <= 1 ? GridCoordinates.Degrees : GridCoordinates.ProjectedMetres);
        RefusePlace(coordinates);
        if (coordinates == GridCoordinates.ProjectedMetres) NoteProjected(findings);
        if (LastHeightOpen)
        {
            Heights[^1] = float.NaN;
            findings.Warn("last-line-open", null, "The file ends within its last height, without a line end: that height may be cut.", "The last cell is taken as unknown; add a line end if the file is whole.");
        }

        if (NotANumber > 0)
            findings.Warn("not-a-number", null, "Heights written as nan.", "Those cells are taken as unknown.", NotANumber);
        VoidImplausible(findings);
        var grid = new ElevationGrid(coordinates, West, South, StepX, StepY, Columns, Rows, Heights);
        if (grid.HighestM is null)
            throw new TerrainRefusedException("no-heights", null, "Not one cell has a usable height.", "Check the NODATA value, the unit (metres) and the area of the export.");
        if (grid.Voids > 0)
            findings.Note("voids", null, "Cells without a height.", "The ground there is unknown, and is answered so.", grid.Voids);
        return grid;
    }

    private void VoidImplausible(FindingLog findings)
    {
        long count = 0;
        foreach (ref float height in Heights.AsSpan())
        {
            if (float.IsNaN(height) || height is >= LowestGroundM and <= HighestGroundM) continue;
            height = float.NaN;
            count++;
        }

        if (count > 0)
            findings.Warn("height-implausible", null, "Heights outside -500 to 9000 m.", "Those cells are taken as unknown; check the NODATA value, the unit (metres) and the byte order.", count);
    }

    private void NoteProjected(FindingLog findings)
    {
        string which = ProjectionCode is int code ? string.Create(CultureInfo.InvariantCulture, $", EPSG {code}") : "; the file does not say which";
        findings.Note("coordinates-projected", null, $"Coordinates are metres of a map projection{which}.", "Positions are asked for as easting and northing of that projection.");
    }

    private void RefusePlace(GridCoordinates coordinates)
    {
        if (!(StepX > 0 && StepY > 0 && double.IsFinite(StepX) && double.IsFinite(StepY)))
            throw new TerrainRefusedException("cell-size", null, "The cell size is not above 0.", "Correct it in the file, or export again with north up.");
        if (!(double.IsFinite(West) && double.IsFinite(South) && double.IsFinite(East) && double.IsFinite(North)))
            throw new TerrainRefusedException("position-impossible", null, "The corner of the grid is no finite position.", "Correct the corner, or export again.");
        if (coordinates == GridCoordinates.Degrees && !InDegrees)
            throw new TerrainRefusedException("position-impossible", null,
                string.Create(CultureInfo.InvariantCulture, $"The grid in degrees runs from {West:0.####}, {South:0.####} to {East:0.####}, {North:0.####} (x, y)."), "Longitudes are within ±360° and latitudes within ±90°; correct corner and cell size.");
    }
}
