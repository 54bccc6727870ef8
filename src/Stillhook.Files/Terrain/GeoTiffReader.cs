using System.Buffers.Binary;
using System.Globalization;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Terrain;

/// <summary>Uncompressed GeoTIFF in strips [TIFF-6], [GEOTIFF]: one 16-bit or 32-bit sample a cell, north up.</summary>
/// <remarks>Everything else (compressed, tiled, several samples, rotated, feet) is refused by name. Heights are taken as metres when the file names no vertical unit.</remarks>
internal static class GeoTiffReader
{
    private const int Width = 256, Length = 257, BitsPerSample = 258, Compression = 259, Orientation = 274, StripOffsets = 273, SamplesPerPixel = 277, RowsPerStrip = 278,
        StripByteCounts = 279, TileWidth = 322, SampleFormat = 339, PixelScale = 33550, Tiepoint = 33922, Transformation = 34264, GeoKeys = 34735, GdalMetadata = 42112, GdalNodata = 42113;

    private const int ModelType = 1024, RasterType = 1025, ProjectionKey = 3072, LinearUnits = 3076, VerticalUnits = 4099, AngularUnits = 2054, Metre = 9001, Degree = 9102, UserDefined = 32767;

    private const string ExportPlain = "Export it uncompressed, in strips, with one band of heights in metres and north up.";

    public static RawGrid Read(byte[] content)
    {
        var tags = new TiffDirectory(content);
        RefuseLayout(tags);
        int columns = Count(tags, Width), rows = Count(tags, Length);
        Dictionary<int, int> keys = Keys(tags);
        GridCoordinates? coordinates = Coordinates(keys);
        (double west, double north, double stepX, double stepY) = Place(tags, keys.GetValueOrDefault(RasterType, 1) == 2);
        float[] heights = Heights(content, tags, columns, rows);
        int projection = keys.GetValueOrDefault(ProjectionKey, UserDefined);
        return new RawGrid(coordinates, west, north - (rows - 1) * stepY, stepX, stepY, columns, rows, heights) { ProjectionCode = projection == UserDefined ? null : projection };
    }

    private static void RefuseLayout(TiffDirectory tags)
    {
        if (tags.Whole(Compression, 1) != 1) throw Refuse("tiff-compressed", "The heights are compressed.");
        if (tags.Has(TileWidth)) throw Refuse("tiff-tiled", "The heights are stored in tiles.");
        if (tags.Whole(SamplesPerPixel, 1) != 1) throw Refuse("tiff-samples", string.Create(CultureInfo.InvariantCulture, $"A cell has {tags.Whole(SamplesPerPixel, 1)} values; an elevation grid has one."));
        if (tags.Whole(Orientation, 1) != 1) throw Refuse("tiff-orientation", "The rows do not run from the north-west corner.");
        if (tags.Text(GdalMetadata) is string metadata && (metadata.Contains("role=\"scale\"", StringComparison.Ordinal) || metadata.Contains("role=\"offset\"", StringComparison.Ordinal)))
            throw Refuse("tiff-scaled", "The heights are stored with a scale or an offset.");
    }

    private static GridCoordinates? Coordinates(Dictionary<int, int> keys)
    {
        RefuseUnit(keys, VerticalUnits, Metre, "heights", "metres");
        switch (keys.GetValueOrDefault(ModelType, 0))
        {
            case 1:
                RefuseUnit(keys, LinearUnits, Metre, "coordinates", "metres");
                return GridCoordinates.ProjectedMetres;
            case 2:
                RefuseUnit(keys, AngularUnits, Degree, "coordinates", "degrees");
                return GridCoordinates.Degrees;
            case 0 or UserDefined:
                return null;
            default:
                throw Refuse("tiff-model", "The coordinates are neither geographic nor projected.");
        }
    }

    private static void RefuseUnit(Dictionary<int, int> keys, int key, int unit, string what, string expected)
    {
        int found = keys.GetValueOrDefault(key, unit);
        if (found != unit && found != UserDefined)
            throw new TerrainRefusedException("tiff-unit", null, string.Create(CultureInfo.InvariantCulture, $"The {what} are in unit {found} of the EPSG list, not in {expected}."), $"Convert the {what} to {expected} and export again.");
    }

    // Centre of the north-west cell, and the steps. The tie point means the corner of a cell when a pixel is an area, its centre when it is a point.
    private static (double West, double North, double StepX, double StepY) Place(TiffDirectory tags, bool pixelIsPoint)
    {
        double toCentre = pixelIsPoint ? 0 : 0.5;
        double[] scale = tags.Numbers(PixelScale), tie = tags.Numbers(Tiepoint), matrix = tags.Numbers(Transformation);
        if (matrix.Length == 16)
        {
            if (matrix[1] != 0 || matrix[4] != 0) throw Refuse("tiff-rotated", "The grid is rotated.");
            return (matrix[3] + toCentre * matrix[0], matrix[7] + toCentre * matrix[5], matrix[0], -matrix[5]);
        }

        if (scale.Length < 2 || tie.Length != 6)
            throw Refuse("tiff-place", "The file does not say where the grid lies (one tie point and a pixel scale).");
        return (tie[3] + (toCentre - tie[0]) * scale[0], tie[4] - (toCentre - tie[1]) * scale[1], scale[0], scale[1]);
    }

    private static Dictionary<int, int> Keys(TiffDirectory tags)
    {
        long[] directory = tags.Wholes(GeoKeys);
        var keys = new Dictionary<int, int>();
        for (int i = 4; i + 3 < directory.Length; i += 4)
            if (directory[i + 1] == 0) keys[(int)directory[i]] = (int)directory[i + 3];
        return keys;
    }

    private static float[] Heights(byte[] content, TiffDirectory tags, int columns, int rows)
    {
        Func<int, double> sample = Sample(content, tags, out int bytes);
        long rowBytes = (long)columns * bytes;
        if (rowBytes * rows > content.Length)
            throw new TerrainRefusedException("tiff-cut", null, string.Create(CultureInfo.InvariantCulture, $"{columns} x {rows} heights need {rowBytes * rows} bytes, the file has {content.Length}."), "The file is cut or damaged; copy or export it again.");
        long[] offsets = tags.Wholes(StripOffsets), counts = tags.Wholes(StripByteCounts);
        int rowsPerStrip = (int)Math.Clamp(tags.Whole(RowsPerStrip, rows), 1, rows);
        if (offsets.Length != (rows + rowsPerStrip - 1) / rowsPerStrip || counts.Length != offsets.Length)
            throw Refuse("tiff-strips", string.Create(CultureInfo.InvariantCulture, $"The number of strips ({offsets.Length}) does not fit {rows} rows, {rowsPerStrip} a strip."));
        float? nodata = Nodata(tags);
        float[] heights = new float[columns * rows];
        for (int row = 0; row < rows; row++)
        {
            int strip = row / rowsPerStrip, inStrip = row % rowsPerStrip;
            if ((inStrip + 1) * rowBytes > counts[strip]) throw Refuse("tiff-strips", "A strip is shorter than its rows.");
            long at = offsets[strip] + inStrip * rowBytes;
            tags.RefuseBeyond(at, rowBytes);
            for (int column = 0; column < columns; column++)
            {
                float height = (float)sample((int)at + column * bytes);
                heights[row * columns + column] = height == nodata ? float.NaN : height;
            }
        }

        return heights;
    }

    private static Func<int, double> Sample(byte[] content, TiffDirectory tags, out int bytes)
    {
        long bits = tags.Whole(BitsPerSample, 1), format = tags.Whole(SampleFormat, 1);
        bytes = bits == 16 ? 2 : 4;
        return (bits, format, tags.BigEndian) switch
        {
            (16, 1, false) => at => BinaryPrimitives.ReadUInt16LittleEndian(content.AsSpan(at)),
            (16, 1, true) => at => BinaryPrimitives.ReadUInt16BigEndian(content.AsSpan(at)),
            (16, 2, false) => at => BinaryPrimitives.ReadInt16LittleEndian(content.AsSpan(at)),
            (16, 2, true) => at => BinaryPrimitives.ReadInt16BigEndian(content.AsSpan(at)),
            (32, 1, false) => at => BinaryPrimitives.ReadUInt32LittleEndian(content.AsSpan(at)),
            (32, 1, true) => at => BinaryPrimitives.ReadUInt32BigEndian(content.AsSpan(at)),
            (32, 2, false) => at => BinaryPrimitives.ReadInt32LittleEndian(content.AsSpan(at)),
            (32, 2, true) => at => BinaryPrimitives.ReadInt32BigEndian(content.AsSpan(at)),
            (32, 3, false) => at => BinaryPrimitives.ReadSingleLittleEndian(content.AsSpan(at)),
            (32, 3, true) => at => BinaryPrimitives.ReadSingleBigEndian(content.AsSpan(at)),
            _ => throw Refuse("tiff-sample", string.Create(CultureInfo.InvariantCulture, $"Heights of {bits} bits in sample format {format} are not read; 16-bit whole numbers and 32-bit numbers are.")),
        };
    }

    private static float? Nodata(TiffDirectory tags)
    {
        if (tags.Text(GdalNodata) is not string text) return null;
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)) return (float)value;
        return text.Equals("nan", StringComparison.OrdinalIgnoreCase) ? float.NaN : throw Refuse("tiff-nodata", "The mark for voids (GDAL_NODATA) is no number.");
    }

    private static int Count(TiffDirectory tags, int tag)
    {
        long value = tags.Whole(tag, 0);
        return value is >= 2 and <= TerrainReader.LargestBytes ? (int)value
            : throw Refuse("tiff-size", string.Create(CultureInfo.InvariantCulture, $"The {(tag == Width ? "width" : "height")} of the grid is {value}; it is 2 or more."));
    }

    private static TerrainRefusedException Refuse(string code, string what) => new(code, null, what, ExportPlain);
}
