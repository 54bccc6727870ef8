using System.Buffers.Text;
using System.Runtime.CompilerServices;

namespace Stillhook.Files.Records;

/// <summary>Numbers from bytes, always with a decimal point and never with a culture.</summary>
internal static class ByteNumbers
{
    private static readonly double[] s_powers = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22];

    /// <summary>A decimal number, correctly rounded; NaN when the bytes are anything else. Spaces round it are allowed.</summary>
    public static double ToDouble(ReadOnlySpan<byte> text)
    {
        int i = 0;
        bool negative = false;
        if (text.Length > 0 && (text[0] == '-' || text[0] == '+'))
        {
            negative = text[0] == '-';
            i = 1;
        }

        ulong mantissa = 0;
        int first = i, point = -1;
        unchecked // lengths and digits are small; 20 digits and more take the other way below
        {
            for (uint digit; i < text.Length && (digit = (uint)(text[i] - '0')) <= 9; i++) mantissa = mantissa * 10 + digit;
            if (i < text.Length && text[i] == '.')
            {
                point = i++;
                for (uint digit; i < text.Length && (digit = (uint)(text[i] - '0')) <= 9; i++) mantissa = mantissa * 10 + digit;
            }
        }

        if (i < text.Length) return Other(text);
        int digits = point < 0 ? i - first : i - first - 1, scale = point < 0 ? 0 : i - point - 1;
        if (digits == 0) return double.NaN;
        // Exact by Clinger's fast path: both numbers are exact doubles, so one division rounds once.
        if (digits > 19 || mantissa > 1UL << 53 || scale > 22) return Other(text);
        double value = mantissa / s_powers[scale];
        return negative ? -value : value;
    }

    /// <summary>Without blanks and line ends on both sides.</summary>
    public static ReadOnlySpan<byte> Trim(ReadOnlySpan<byte> text)
    {
        while (text.Length > 0 && text[0] <= ' ') text = text[1..];
        while (text.Length > 0 && text[^1] <= ' ') text = text[..^1];
        return text;
    }

    private static double Other(ReadOnlySpan<byte> text)
    {
        text = Trim(text);
        if (text.Length > 1 && text[0] == '+') text = text[1..];
        return text.Length > 0 && (text[0] is (byte)'-' or (byte)'.' || char.IsAsciiDigit((char)text[0]))
            && Utf8Parser.TryParse(text, out double value, out int used) && used == text.Length && double.IsFinite(value)
            ? value : double.NaN;
    }

    /// <summary>An unsigned whole number of digits only; −1 for anything else (also for an empty field).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int ToDigits(ReadOnlySpan<byte> text)
    {
        if (text.Length is 0 or > 9) return -1;
        int value = 0;
        foreach (byte b in text)
        {
            uint digit = unchecked((uint)(b - '0'));
            if (digit > 9) return -1;
            value = unchecked(value * 10 + (int)digit);
        }

        return value;
    }

    /// <summary>A whole number with an optional minus; false for anything else.</summary>
    public static bool ToSigned(ReadOnlySpan<byte> text, out int value)
    {
        bool negative = text.Length > 1 && text[0] == '-';
        value = ToDigits(negative ? text[1..] : text);
        if (value < 0) return false;
        if (negative) value = -value;
        return true;
    }
}
