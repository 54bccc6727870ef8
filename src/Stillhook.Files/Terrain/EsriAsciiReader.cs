using System.Globalization;
using System.Text;

namespace Stillhook.Files.Terrain;

/// <summary>Esri ASCII grids [ESRI-ASCII]: words and numbers of a header in any order and case, then heights row by row from the north.</summary>
/// <remarks>Line breaks among the heights mean nothing. A corner is moved by half a cell to the cell's centre. Grids with dx and dy in place of cellsize are read too.</remarks>
internal static class EsriAsciiReader
{
    private static readonly string[] Keys = ["ncols", "nrows", "xllcorner", "xllcenter", "yllcorner", "yllcenter", "cellsize", "dx", "dy", "nodata_value"];

    private const string Example = "The file begins with ncols, nrows, xllcorner or xllcenter, yllcorner or yllcenter, cellsize and, where there are voids, NODATA_value, each with its number.";

    public static bool IsEsri(ReadOnlySpan<byte> content)
    {
        var words = new Words(content);
        return words.Next() && Array.IndexOf(Keys, Key(words.Word)) >= 0;
    }

    public static RawGrid Read(ReadOnlySpan<byte> content)
    {
        var words = new Words(content);
        Dictionary<string, double> header = Header(ref words);
        (double dx, double dy) = header.ContainsKey("cellsize") ? (header["cellsize"], header["cellsize"]) : (Value(header, "dx"), Value(header, "dy"));
        int columns = Count(header, "ncols"), rows = Count(header, "nrows");
        double west = Centre(header, "xll", dx), south = Centre(header, "yll", dy);
        float[] heights = Heights(ref words, content.Length, columns, rows, header.TryGetValue("nodata_value", out double nodata) ? (float)nodata : null, out long notANumber);
        return new RawGrid(null, west, south, dx, dy, columns, rows, heights) { LastHeightOpen = words.Open, NotANumber = notANumber };
    }

    // Leaves the first height as the current word.
    private static Dictionary<string, double> Header(ref Words words)
    {
        var header = new Dictionary<string, double>();
        while (words.Next() && char.IsAsciiLetter((char)words.Word[0]) && !IsNan(words.Word))
        {
            string key = Key(words.Word);
            if (Array.IndexOf(Keys, key) < 0)
                throw new TerrainRefusedException("esri-header", words.Line, $"The heading has the word {Shown(words.Word)}.", Example);
            if (!words.Next() || !Number(words.Word, out double value) || !(double.IsFinite(value) || key == "nodata_value"))
                throw new TerrainRefusedException("esri-header", words.Line, $"After {key} stands no number.", "Give a number with a decimal point after each word of the heading.");
            if (!header.TryAdd(key, value))
                throw new TerrainRefusedException("esri-header", words.Line, $"{key} stands in the heading twice.", "Keep one of them.");
        }

        return header;
    }

    private static float[] Heights(ref Words words, int bytes, int columns, int rows, float? nodata, out long notANumber)
    {
        long expected = (long)columns * rows, found = 0;
        if (2 * expected - 1 > bytes) throw Missing(expected, null);
        float[] heights = new float[expected];
        notANumber = 0;
        for (bool more = !words.Ended; more; more = words.Next())
        {
            if (found == expected)
                throw new TerrainRefusedException("esri-count", words.Line, string.Create(CultureInfo.InvariantCulture, $"More heights than ncols x nrows = {expected}."), "Correct ncols and nrows, or export again.");
            if (!Number(words.Word, out double value))
                throw new TerrainRefusedException("esri-number", words.Line, $"{Shown(words.Word)} is no height.", "Heights are numbers in metres with a decimal point, separated by blanks.");
            if (double.IsNaN(value)) notANumber++;
            heights[found++] = (float)value == nodata ? float.NaN : (float)value;
        }

        return found == expected ? heights : throw Missing(expected, found);
    }

    private static TerrainRefusedException Missing(long expected, long? found) => new("esri-count", null,
        string.Create(CultureInfo.InvariantCulture, $"ncols x nrows = {expected} heights are announced, {(found is null ? "more than the file can hold" : $"{found} are there")}."), "The file is cut or its heading is wrong; copy or export it again.");

    private static double Centre(Dictionary<string, double> header, string axis, double cell)
    {
        bool corner = header.TryGetValue(axis + "corner", out double edge), centre = header.TryGetValue(axis + "center", out double middle);
        if (corner == centre)
            throw new TerrainRefusedException("esri-header", null, $"The heading has {(corner ? "both" : "neither")} {axis}corner {(corner ? "and" : "nor")} {axis}center.", Example);
        return corner ? edge + cell / 2 : middle;
    }

    private static int Count(Dictionary<string, double> header, string key)
    {
        double value = Value(header, key);
        if (!(value is >= 2 and <= TerrainReader.LargestBytes && value == Math.Floor(value)))
            throw new TerrainRefusedException("esri-header", null, string.Create(CultureInfo.InvariantCulture, $"{key} is {value}."), "It is a whole number of 2 or more.");
        return (int)value;
    }

    private static double Value(Dictionary<string, double> header, string key) =>
        header.TryGetValue(key, out double value) ? value : throw new TerrainRefusedException("esri-header", null, $"The heading has no {(key is "dx" or "dy" ? "cellsize" : key)}.", Example);

    private static bool Number(ReadOnlySpan<byte> word, out double value)
    {
        if (!IsNan(word)) return double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out value);
        value = double.NaN;
        return true;
    }

    private static bool IsNan(ReadOnlySpan<byte> word) => Ascii.EqualsIgnoreCase(word, "nan"u8) || Ascii.EqualsIgnoreCase(word, "-nan"u8);

    private static string Key(ReadOnlySpan<byte> word) => word.Length > 20 ? "" : Encoding.Latin1.GetString(word).ToLowerInvariant();

    private static string Shown(ReadOnlySpan<byte> word)
    {
        char[] text = Encoding.Latin1.GetString(word[..Math.Min(word.Length, 20)]).ToCharArray();
        return "'" + new string(Array.ConvertAll(text, c => char.IsControl(c) ? '?' : c)) + "'";
    }

    /// <summary>Words of a text between blanks, with the line they stand on.</summary>
    private ref struct Words(ReadOnlySpan<byte> text)
    {
        private readonly ReadOnlySpan<byte> _text = text;
        private int _next = text.StartsWith("\uFEFF"u8) ? 3 : 0;

        public ReadOnlySpan<byte> Word { get; private set; }

        public long Line { get; private set; } = 1;

        /// <summary>The text is used up.</summary>
        public bool Ended { get; private set; }

        /// <summary>The last word ends with the text.</summary>
        public bool Open { get; private set; }

        public bool Next()
        {
            for (; _next < _text.Length && _text[_next] is (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n'; _next++)
                if (_text[_next] == '\n') Line++;
            int start = _next;
            while (_next < _text.Length && _text[_next] is not ((byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n')) _next++;
            Word = _text[start.._next];
            Ended = Word.IsEmpty;
            if (!Ended) Open = _next == _text.Length;
            return !Ended;
        }
    }
}
