using System.Text;

namespace Stillhook.Files.Records;

internal enum ContentKind
{
    Empty, Unknown, ULog,

    /// <summary>XML in UTF-8.</summary>
    Gpx,

    /// <summary>XML in another encoding.</summary>
    GpxOther,
    Igc, Nmea, Csv,
}

/// <summary>Tells formats apart by the head of their content.</summary>
internal static class ContentDetector
{
    public static ContentKind Detect(ReadOnlySpan<byte> head)
    {
        if (head.Length == 0) return ContentKind.Empty;
        if (head.StartsWith("ULog"u8)) return ContentKind.ULog;
        Encoding? wide = WideEncoding(head);
        if (wide is not null)
        {
            byte[] text = Encoding.UTF8.GetBytes(wide.GetString(head[..(head.Length / 2 * 2)]).TrimStart('\ufeff'));
            ContentKind kind = DetectText(text);
            return kind == ContentKind.Gpx ? ContentKind.GpxOther : kind;
        }

        if (head.StartsWith(Encoding.UTF8.Preamble)) head = head[3..];
        return DetectText(head);
    }

    /// <summary>UTF-16 as its byte order mark, or a first character with a zero byte, shows; otherwise null.</summary>
    public static Encoding? WideEncoding(ReadOnlySpan<byte> head)
    {
        if (head.Length < 4) return null;
        if (head[0] == 0xFF && head[1] == 0xFE || head[0] is > 0 and < 0x80 && head[1] == 0 && head[2] is > 0 and < 0x80 && head[3] == 0) return Encoding.Unicode;
        if (head[0] == 0xFE && head[1] == 0xFF || head[0] == 0 && head[1] is > 0 and < 0x80 && head[2] == 0 && head[3] is > 0 and < 0x80) return Encoding.BigEndianUnicode;
        return null;
    }

    private static ContentKind DetectText(ReadOnlySpan<byte> head)
    {
        ReadOnlySpan<byte> text = head.TrimStart(" \t\r\n"u8);
        if (text.Length == 0) return ContentKind.Empty;
        if (text[0] == '<') return DeclaresOtherEncoding(text) ? ContentKind.GpxOther : ContentKind.Gpx;
        int sentences = 0, flightLines = 0, tableLines = 0, lines = 0;
        while (text.Length > 0)
        {
            int end = text.IndexOfAny((byte)'\n', (byte)'\r');
            ReadOnlySpan<byte> line = end < 0 ? text : text[..end];
            if (HasSentence(line)) sentences++;
            else if (IsFlightLine(line, lines == 0)) flightLines++;
            else if (line.Length > 0 && line[0] != '#' && line.IndexOfAny(",;\t|"u8) > 0 && !line.Contains((byte)0)) tableLines++;
            if (line.Length > 0) lines++;
            text = end < 0 ? default : text[(end + 1)..];
        }

        // A table can hold a stray sentence-like cell; a log of sentences can hold tables only as noise.
        if (sentences > 0 && sentences >= flightLines && sentences * 4 >= tableLines) return ContentKind.Nmea;
        if (flightLines > 0 && flightLines * 4 >= tableLines) return ContentKind.Igc;
        return tableLines > 0 && head[..Math.Min(head.Length, 512)].IndexOf((byte)0) < 0 ? ContentKind.Csv : ContentKind.Unknown;
    }

    private static bool DeclaresOtherEncoding(ReadOnlySpan<byte> text)
    {
        int end = text.StartsWith("<?xml"u8) ? text.IndexOf("?>"u8) : -1;
        if (end < 0) return false;
        int encoding = text[..end].IndexOf("encoding"u8);
        if (encoding < 0) return false;
        ReadOnlySpan<byte> rest = text[encoding..end];
        int open = rest.IndexOfAny((byte)'"', (byte)'\'');
        if (open < 0) return true;
        int close = rest[(open + 1)..].IndexOf(rest[open]);
        if (close < 0) return true;
        ReadOnlySpan<byte> name = rest.Slice(open + 1, close);
        return !Ascii.EqualsIgnoreCase(name, "UTF-8"u8) && !Ascii.EqualsIgnoreCase(name, "US-ASCII"u8) && !Ascii.EqualsIgnoreCase(name, "UTF8"u8);
    }

    private static bool HasSentence(ReadOnlySpan<byte> line)
    {
        int start = line.IndexOf((byte)'$');
        if (start < 0 || line.Length < start + 7) return false;
        ReadOnlySpan<byte> name = line.Slice(start + 1, 5);
        return line[start + 6] == ',' && name.IndexOfAnyExceptInRange((byte)'0', (byte)'Z') < 0;
    }

    private static bool IsFlightLine(ReadOnlySpan<byte> line, bool first)
    {
        if (line.Length < 5) return false;
        if (line[0] == 'B') return line.Length >= 24 && ByteNumbers.ToDigits(line.Slice(1, 6)) >= 0 && line[14] is (byte)'N' or (byte)'S';
        if (line[0] == 'H') return line.Slice(2, 3).SequenceEqual("DTE"u8) || line[1] is (byte)'F' or (byte)'O' or (byte)'P' && !line.Contains((byte)',') && line.Length > 6 && line.Slice(2, 3).IndexOfAnyExceptInRange((byte)'A', (byte)'Z') < 0;
        return first && line[0] == 'A' && line.IndexOfAny(",;\t"u8) < 0 && line.Slice(1, 3).IndexOfAnyExceptInRange((byte)'0', (byte)'Z') < 0;
    }
}
