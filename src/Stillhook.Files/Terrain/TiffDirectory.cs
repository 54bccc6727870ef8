using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace Stillhook.Files.Terrain;

/// <summary>The first image directory of a TIFF file [TIFF-6]: tags and their values, in either byte order, every offset checked.</summary>
internal sealed class TiffDirectory
{
    private const string Again = "The file is cut or damaged; copy or export it again.";
    private const int MostValues = 10_000_000;
    private readonly byte[] _content;
    private readonly bool _big;
    private readonly Dictionary<int, (int Type, int Count, int At)> _entries = [];

    public TiffDirectory(byte[] content)
    {
        _content = content;
        if (!IsTiff(content))
            throw new TerrainRefusedException("tiff-header", null, "The name says TIFF, the content does not begin as one.", Again);
        _big = content[0] == 'M';
        if (U16(2) == 43)
            throw new TerrainRefusedException("tiff-big", null, "This is a BigTIFF, which is not read.", "Export it as an ordinary, uncompressed GeoTIFF.");
        Read(U32(4));
    }

    public bool BigEndian => _big;

    public static bool IsTiff(ReadOnlySpan<byte> content) =>
        content.StartsWith("II\x2a\0"u8) || content.StartsWith("MM\0\x2a"u8) || content.StartsWith("II\x2b\0"u8) || content.StartsWith("MM\0\x2b"u8);

    public bool Has(int tag) => _entries.ContainsKey(tag);

    /// <summary>Values of a numeric tag; empty when it is missing.</summary>
    public double[] Numbers(int tag)
    {
        if (!_entries.TryGetValue(tag, out (int Type, int Count, int At) entry)) return [];
        if (entry.Count > MostValues || entry.Type is 2 or 5 or 6 or 10) throw Unexpected(tag);
        double[] values = new double[entry.Count];
        for (int i = 0; i < values.Length; i++) values[i] = Number(entry.Type, entry.At + i * SizeOf(entry.Type));
        return values;
    }

    /// <summary>Values of a tag of whole numbers, 0 or more; empty when it is missing.</summary>
    public long[] Wholes(int tag) => Array.ConvertAll(Numbers(tag), value => value is >= 0 and <= uint.MaxValue && value == Math.Floor(value) ? (long)value : throw Unexpected(tag));

    /// <summary>Single whole number of a tag, or its default when it is missing.</summary>
    public long Whole(int tag, long missing) => Wholes(tag) is [long first, ..] ? first : missing;

    /// <summary>Text of a tag up to its closing zero; null when it is missing.</summary>
    public string? Text(int tag) =>
        _entries.TryGetValue(tag, out (int Type, int Count, int At) entry) ? Encoding.Latin1.GetString(_content, entry.At, entry.Count * SizeOf(entry.Type)).TrimEnd('\0').Trim() : null;

    private void Read(long at)
    {
        int count = U16(at);
        for (int i = 0; i < count; i++)
        {
            long entry = at + 2 + 12L * i;
            int tag = U16(entry), type = U16(entry + 2);
            long size = SizeOf(type) * (long)U32(entry + 4);
            if (size == 0) continue; // a type of later editions: readers skip it
            long valueAt = size <= 4 ? entry + 8 : U32(entry + 8);
            RefuseBeyond(valueAt, size);
            _entries[tag] = (type, (int)U32(entry + 4), (int)valueAt);
        }
    }

    private static TerrainRefusedException Unexpected(int tag) =>
        new("tiff-tag", null, string.Create(CultureInfo.InvariantCulture, $"Tag {tag} does not hold what TIFF has there."), Again);

    private double Number(int type, int at) => type switch
    {
        1 or 7 => _content[at],
        3 => U16(at),
        4 => U32(at),
        8 => unchecked((short)U16(at)),
        9 => unchecked((int)U32(at)),
        11 => _big ? BinaryPrimitives.ReadSingleBigEndian(_content.AsSpan(at)) : BinaryPrimitives.ReadSingleLittleEndian(_content.AsSpan(at)),
        12 => _big ? BinaryPrimitives.ReadDoubleBigEndian(_content.AsSpan(at)) : BinaryPrimitives.ReadDoubleLittleEndian(_content.AsSpan(at)),
        _ => double.NaN,
    };

    private static int SizeOf(int type) => type switch { 1 or 2 or 6 or 7 => 1, 3 or 8 => 2, 4 or 9 or 11 => 4, 5 or 10 or 12 => 8, _ => 0 };

    private ushort U16(long at)
    {
        RefuseBeyond(at, 2);
        return _big ? BinaryPrimitives.ReadUInt16BigEndian(_content.AsSpan((int)at)) : BinaryPrimitives.ReadUInt16LittleEndian(_content.AsSpan((int)at));
    }

    private uint U32(long at)
    {
        RefuseBeyond(at, 4);
        return _big ? BinaryPrimitives.ReadUInt32BigEndian(_content.AsSpan((int)at)) : BinaryPrimitives.ReadUInt32LittleEndian(_content.AsSpan((int)at));
    }

    /// <summary>Refuses the file when a part of it would lie beyond its end.</summary>
    public void RefuseBeyond(long at, long size)
    {
        if (at < 0 || size < 0 || at + size > _content.Length)
            throw new TerrainRefusedException("tiff-cut", null,
                string.Create(CultureInfo.InvariantCulture, $"The file has {_content.Length} bytes and refers to bytes {at} to {at + size}."), Again);
    }
}
