using System.Text;

namespace Stillhook.Files.Records.Csv;

/// <summary>Rows of a table as cells of bytes: quotes as in RFC 4180, line breaks inside quotes joined.</summary>
internal sealed class CsvRows(ByteLines? lines)
{
    private const int LongestJoined = 1 << 16;

    private byte[] _joined = new byte[1024];
    private (int Start, int Length)[] _cells = new (int, int)[32];
    private byte[] _row = [];
    private int _length;

    public byte Delimiter { get; set; } = (byte)',';

    public long Line { get; private set; }

    public int Count { get; private set; }

    /// <summary>True when a quoted field was never closed.</summary>
    public bool QuoteUnclosed { get; private set; }

    public ReadOnlySpan<byte> Cell(int index) => index < Count ? _row.AsSpan(_cells[index].Start, _cells[index].Length) : default;

    public ReadOnlySpan<byte> Text => _row.AsSpan(0, _length);

    /// <summary>The next row that is not blank and no comment; false at the end.</summary>
    public bool Next()
    {
        while (lines!.Next(out ReadOnlySpan<byte> line))
        {
            if (IsBlankOrComment(line)) continue;
            Line = lines.Number;
            Copy(line);
            return true;
        }

        return false;
    }

    /// <summary>True when a line holds no cells: it is blank, or a comment that begins with '#'.</summary>
    public static bool IsBlankOrComment(ReadOnlySpan<byte> line) => line.IndexOfAnyExcept(" \t"u8) < 0 || line[0] == '#';

    /// <summary>Takes one line that came by itself; a quote must close in it.</summary>
    public void Take(ReadOnlySpan<byte> line, long number)
    {
        Line = number;
        Copy(line);
    }

    /// <summary>The delimiter is what the present row has most of.</summary>
    public void FindDelimiter()
    {
        int most = -1;
        foreach (byte candidate in ";\t|,"u8)
        {
            int count = Text.Count(candidate);
            if (count <= most) continue;
            most = count;
            Delimiter = candidate;
        }
    }

    /// <summary>Splits the present row again, such as after the delimiter was found.</summary>
    public void Split()
    {
        Count = 0;
        int at = 0;
        while (true)
        {
            int start = at, length;
            if (at < _length && _row[at] == '"')
            {
                (start, length, at) = Quoted(at + 1);
            }
            else
            {
                int end = _row.AsSpan(at, _length - at).IndexOf(Delimiter);
                length = end < 0 ? _length - at : end;
                at += length;
            }

            if (Count == _cells.Length) Array.Resize(ref _cells, _cells.Length * 2);
            _cells[Count++] = (start, length);
            if (at >= _length) return;
            at++;
        }
    }

    // Cell after its opening quote: doubled quotes are folded in place; the rest up to the delimiter is dropped.
    private (int Start, int Length, int At) Quoted(int start)
    {
        int write = start, at = start;
        while (at < _length)
        {
            if (_row[at] == '"')
            {
                if (at + 1 >= _length || _row[at + 1] != '"') break;
                at++;
            }

            _row[write++] = _row[at++];
        }

        int next = at >= _length ? -1 : _row.AsSpan(at, _length - at).IndexOf(Delimiter);
        return (start, write - start, next < 0 ? _length : at + next);
    }

    private void Copy(ReadOnlySpan<byte> line)
    {
        QuoteUnclosed = false;
        _length = 0;
        Append(line);
        if (!line.Contains((byte)'"')) return;
        while (_row.AsSpan(0, _length).Count((byte)'"') % 2 == 1)
        {
            if (_length > LongestJoined || lines is null || !lines.Next(out line))
            {
                QuoteUnclosed = true;
                return;
            }

            Append("\n"u8);
            Append(line);
        }
    }

    private void Append(ReadOnlySpan<byte> text)
    {
        if (_row.Length == 0) _row = _joined;
        if (_length + text.Length > _row.Length) Array.Resize(ref _row, Math.Max(_row.Length * 2, _length + text.Length));
        text.CopyTo(_row.AsSpan(_length));
        _length += text.Length;
        _joined = _row;
    }
}
