namespace Stillhook.Files.Records.Igc;

/// <summary>Extensions that are used; codes that start with X are ours, the others are of the format.</summary>
internal enum IgcCode
{
    /// <summary>Further decimals of the latitude's minutes.</summary>
    Lad,

    /// <summary>Further decimals of the longitude's minutes.</summary>
    Lod,

    /// <summary>Decimals of the second.</summary>
    Tds,

    /// <summary>Ground speed, km/h: three digits, further ones are decimals.</summary>
    Gsp,

    /// <summary>True track, degrees: three digits, further ones are decimals.</summary>
    Trt,

    /// <summary>True heading, degrees: three digits, further ones are decimals.</summary>
    Hdt,

    /// <summary>Ours: load on the hook, tenths of a kilogram.</summary>
    Xld,

    /// <summary>Ours: torque, tenths of a percent.</summary>
    Xtq,

    /// <summary>Ours: power, tenths of a kilowatt.</summary>
    Xpw,

    /// <summary>Ours: roll, hundredths of a degree.</summary>
    Xrl,

    /// <summary>Ours: pitch, hundredths of a degree.</summary>
    Xpt,

    /// <summary>Ours: hook open, 1 or 0.</summary>
    Xhk,

    /// <summary>Ours: vertical speed, hundredths of a metre a second, up positive.</summary>
    Xvs,
}

/// <summary>Where in a B or K record the extensions stand, as an I or J record lists them.</summary>
internal sealed class IgcExtensions
{
    private static readonly string[] s_codes = [.. Enum.GetNames<IgcCode>().Select(n => n.ToUpperInvariant())];
    private readonly int[] _start = new int[s_codes.Length], _length = new int[s_codes.Length];

    /// <summary>True when a used extension is listed.</summary>
    public bool Any { get; private set; }

    /// <summary>Last byte that a listed extension takes, counted from 1; 35 without any.</summary>
    public int End { get; private set; } = 35;

    /// <summary>Takes <c>Inn</c> and then start byte, end byte and code of each (bytes counted from 1); false when part of it can't be read.</summary>
    public bool Parse(ReadOnlySpan<byte> line)
    {
        Array.Clear(_length);
        Any = false;
        End = 35;
        int count = line.Length >= 3 ? ByteNumbers.ToDigits(line.Slice(1, 2)) : -1;
        if (count < 0) return false;
        for (int i = 0; i < count; i++)
        {
            if (line.Length < 3 + (i + 1) * 7) return false;
            ReadOnlySpan<byte> entry = line.Slice(3 + i * 7, 7);
            int start = ByteNumbers.ToDigits(entry[..2]), end = ByteNumbers.ToDigits(entry.Slice(2, 2));
            if (start < 1 || end < start) return false;
            End = Math.Max(End, end);
            Note(entry[4..], start, end);
        }

        return true;
    }

    /// <summary>Further decimals of a minute: digits after the three of the format; 0 when not listed.</summary>
    public double MinuteDecimals(ReadOnlySpan<byte> line, IgcCode code) => Fraction(line, code) / 1000;

    /// <summary>Digits as a fraction below 1; 0 when not listed or unreadable.</summary>
    public double Fraction(ReadOnlySpan<byte> line, IgcCode code)
    {
        int digits = ByteNumbers.ToDigits(Field(line, code));
        return digits < 0 ? 0 : digits / Power(_length[(int)code]);
    }

    /// <summary>Three digits, further ones are decimals; NaN when not listed or unreadable.</summary>
    public double Decimal(ReadOnlySpan<byte> line, IgcCode code)
    {
        ReadOnlySpan<byte> field = Field(line, code);
        int digits = ByteNumbers.ToDigits(field);
        return digits < 0 ? double.NaN : digits / Power(Math.Max(0, field.Length - 3));
    }

    /// <summary>A whole number, maybe negative, divided by ten; NaN when not listed or unreadable.</summary>
    public double Tenths(ReadOnlySpan<byte> line, IgcCode code) => ByteNumbers.ToSigned(Field(line, code), out int value) ? value / 10.0 : double.NaN;

    private ReadOnlySpan<byte> Field(ReadOnlySpan<byte> line, IgcCode code)
    {
        int start = _start[(int)code] - 1, length = _length[(int)code];
        return length == 0 || start + length > line.Length ? default : line.Slice(start, length);
    }

    private static double Power(int digits) => digits switch { 0 => 1, 1 => 10, 2 => 100, 3 => 1000, _ => Math.Pow(10, digits) };

    private void Note(ReadOnlySpan<byte> code, int start, int end)
    {
        for (int i = 0; i < s_codes.Length; i++)
        {
            if (!System.Text.Ascii.Equals(code, s_codes[i])) continue;
            _start[i] = start;
            _length[i] = end - start + 1;
            Any = true;
        }
    }
}
