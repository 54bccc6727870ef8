using System.Buffers.Binary;
using System.Text;

namespace Stillhook.Tests.Files.Terrain;

/// <summary>Writes small GeoTIFF files for tests, apart from the reader: image data first, then the directory, in either byte order.</summary>
internal sealed class TiffWriter(bool big)
{
    private readonly SortedDictionary<int, (int Type, int Count, byte[] Value)> _tags = [];

    /// <summary>A grid of 3 columns and 2 rows, a strip a row, corner at (1000, 2000), cells of 10 by 20 m, heights 1 to 6 m.</summary>
    public static TiffWriter Plain(bool big, int bits, int format)
    {
        var file = new TiffWriter(big) { Samples = [1, 2, 3, 4, 5, 6], Bits = bits, Format = format };
        return file.Short(256, 3).Short(257, 2).Short(258, bits).Short(259, 1).Short(277, 1).Short(278, 1).Short(339, format)
            .Double(33550, 10, 20, 0).Double(33922, 0, 0, 0, 1000, 2000, 0).Short(34735, 1, 1, 0, 2, 1024, 0, 1, 1, 1025, 0, 1, 1).Ascii(42113, "-32768");
    }

    public double[] Samples { get; init; } = [];

    public int Bits { get; init; }

    public int Format { get; init; }

    public TiffWriter Short(int tag, params int[] values) => Tag(tag, 3, values.Length, [.. values.SelectMany(v => U16(v))]);

    public TiffWriter Double(int tag, params double[] values) => Tag(tag, 12, values.Length, [.. values.SelectMany(v => Order(BitConverter.GetBytes(v)))]);

    public TiffWriter Ascii(int tag, string text) => Tag(tag, 2, text.Length + 1, Encoding.ASCII.GetBytes(text + "\0"));

    public TiffWriter Without(int tag)
    {
        _tags.Remove(tag);
        return this;
    }

    public byte[] Bytes()
    {
        byte[] image = [.. Samples.SelectMany(Sample)];
        int row = image.Length / 2;
        if (!_tags.ContainsKey(273)) Tag(273, 4, 2, [.. U32(8), .. U32(8 + row)]);
        if (!_tags.ContainsKey(279)) Tag(279, 4, 2, [.. U32(row), .. U32(row)]);
        int directory = 8 + image.Length, free = directory + 2 + 12 * _tags.Count + 4;
        List<byte> entries = [.. U16(_tags.Count)], values = [];
        foreach ((int tag, (int type, int count, byte[] value)) in _tags)
        {
            entries.AddRange([.. U16(tag), .. U16(type), .. U32(count)]);
            if (value.Length <= 4) entries.AddRange([.. value, .. new byte[4 - value.Length]]);
            else
            {
                entries.AddRange(U32(free + values.Count));
                values.AddRange(value);
            }
        }

        return [.. big ? "MM"u8 : "II"u8, .. U16(42), .. U32(directory), .. image, .. entries, .. U32(0), .. values];
    }

    private TiffWriter Tag(int tag, int type, int count, byte[] value)
    {
        _tags[tag] = (type, count, value);
        return this;
    }

    private byte[] Sample(double height) => (Bits, Format) switch
    {
        (16, _) => U16((int)height & 0xffff),
        (32, 3) => Order(BitConverter.GetBytes((float)height)),
        _ => U32((int)height),
    };

    private byte[] U16(int value)
    {
        byte[] bytes = new byte[2];
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)value);
        return Order(bytes);
    }

    private byte[] U32(int value)
    {
        byte[] bytes = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, value);
        return Order(bytes);
    }

    private byte[] Order(byte[] little)
    {
        if (big) Array.Reverse(little);
        return little;
    }
}
