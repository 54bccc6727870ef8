using System.Buffers.Binary;
using System.Globalization;
using System.Text.RegularExpressions;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Terrain;

/// <summary>SRTM tiles [SRTM-2007]: 1201 or 3601 rows of as many big-endian 16-bit heights, m, from the north-west corner; -32768 is a void.</summary>
/// <remarks>The name gives the centre of the south-west cell in whole degrees; cell centres lie on the degree lines, so neighbouring tiles share their edges.</remarks>
internal static partial class HgtReader
{
    private const short Void = short.MinValue;

    public static int? SideOf(long bytes) => bytes switch { 2L * 1201 * 1201 => 1201, 2L * 3601 * 3601 => 3601, _ => null };

    public static RawGrid Read(ReadOnlySpan<byte> content, string name)
    {
        if (SideOf(content.Length) is not int side)
            throw new TerrainRefusedException("hgt-size", null,
                string.Create(CultureInfo.InvariantCulture, $"An SRTM tile has 2884802 bytes (1201 x 1201) or 25934402 (3601 x 3601); this file has {content.Length}."), "It is cut or something else; download it again.");
        (int south, int west) = Corner(name);
        float[] heights = new float[side * side];
        for (int i = 0; i < heights.Length; i++)
        {
            short height = BinaryPrimitives.ReadInt16BigEndian(content[(2 * i)..]);
            heights[i] = height == Void ? float.NaN : height;
        }

        double step = 1.0 / (side - 1);
        return new RawGrid(GridCoordinates.Degrees, west, south, step, step, side, side, heights);
    }

    private static (int South, int West) Corner(string name)
    {
        Match match = CornerPattern().Match(name);
        int latitude = match.Success ? int.Parse(match.Groups[2].ValueSpan, CultureInfo.InvariantCulture) : 99, longitude = match.Success ? int.Parse(match.Groups[4].ValueSpan, CultureInfo.InvariantCulture) : 999;
        int south = match.Groups[1].ValueSpan is "S" or "s" ? -latitude : latitude, west = match.Groups[3].ValueSpan is "W" or "w" ? -longitude : longitude;
        if (south is < -90 or > 89 || west is < -180 or > 179)
            throw new TerrainRefusedException("hgt-name", null, $"The name {name} does not give the tile's south-west corner.", "Name the file by its corner, such as N44W072.hgt.");
        return (south, west);
    }

    [GeneratedRegex(@"^([NS])([0-9]{2})_?([EW])([0-9]{3})(?![0-9])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex CornerPattern();
}
