using System.Text;

namespace Stillhook.Files.Records.Csv;

/// <summary>Rows of a table as cells of bytes: quotes as in RFC 4180, line breaks inside quotes joined.</summary>
internal sealed class CsvRows(ByteLines? lines)
{
    private const int LongestJoined = 1 << 16;

    private byte[] _joined = new byte[1024];
    private (int Start, int Length)[] _cells = new (int, int)[32];
    private int[] _delimiters = new int[256];
    private byte[] _row = [];
    private int _start, _length; // of the present row in _row
    private bool _quotes;

    public byte Delimiter { get; set; } = (byte)',';

    public long Line { get; private set; }

    public int Count { get; private set; }

    /// <summary>True when a quoted field was never closed.</summary>
    public bool QuoteUnclosed { get; private set; }

    public ReadOnlySpan<byte> Cell(int index) => index < Count ? _row.AsSpan(_start + _cells[index].Start, _cells[index].Length) : default;

    public ReadOnlySpan<byte> Text => _row.AsSpan(_start, _length);

    /// <summary>The next row that is not blank and no comment; false at the end.</summary>
    public bool Next()
    {
        while (lines!.Next(out ReadOnlySpan<byte> line))
        {
            if (IsBlankOrComment(line)) continue;
            Line = lines.Number;
            if (line.Contains((byte)'"')) Join(line);
            else (_row, _start, _length, _quotes, QuoteUnclosed) = (lines.Buffer, lines.Start, line.Length, false, false); // it stays where it was read
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
        Join(line);
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
        if (_quotes)
        {
            SplitQuoted();
            return;
        }

        int delimiters = ByteMarks.Find(Text, Delimiter, ref _delimiters), start = 0;
        for (int i = 0; i < delimiters; i++)
        {
            AddCell(start, _delimiters[i] - start);
            start = _delimiters[i] + 1;
        }

        AddCell(start, _length - start);
    }

    private void SplitQuoted()
    {
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

            AddCell(start, length);
            if (at >= _length) return;
            at++;
        }
    }

    private void AddCell(int start, int length)
    {
        if (Count == _cells.Length) Array.Resize(ref _cells, _cells.Length * 2);
        _cells[Count++] = (start, length);
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

    private void Join(ReadOnlySpan<byte> line)
    {
        (_start, _length, QuoteUnclosed) = (0, 0, false);
        Append(line);
        _quotes = line.Contains((byte)'"');
        while (_quotes && Text.Count((byte)'"') % 2 == 1)
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
        if (_length + text.Length > _joined.Length) Array.Resize(ref _joined, Math.Max(_joined.Length * 2, _length + text.Length));
        _row = _joined;
        text.CopyTo(_row.AsSpan(_length));
        _length += text.Length;
    }
}
