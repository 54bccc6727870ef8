using System.Buffers;
using System.Runtime.CompilerServices;

namespace Stillhook.Files.Records.Gpx;

/// <summary>A forward scanner of plain UTF-8 XML that hands elements to <see cref="GpxPoints"/> as bytes.</summary>
/// <remarks>
/// It checks what a broken or hostile record shows: nesting of elements, quotes, entities, a document type. It does not check
/// names against the XML character tables, repeated attributes or control characters in text, none of which can move a point.
/// </remarks>
internal sealed class XmlScanner(Stream stream, IProgress<long>? progress)
{
    private const int LongestPiece = 16 << 20, LongestPlainName = 64;
    private static readonly SearchValues<byte> s_space = SearchValues.Create(" \t\r\n"u8);
    private static readonly SearchValues<byte> s_nameEnd = SearchValues.Create(" \t\r\n/="u8);

    private byte[] _buffer = new byte[1 << 17];
    private int _position, _end, _counted;
    private long _linesCounted, _read;
    private bool _ended;
    private byte[] _names = new byte[512];
    private int[] _nameStarts = new int[32], _localOffsets = new int[32];
    private int _depth;
    private byte[] _decoded = new byte[256];
    private GpxPoints _points = null!;
    private XmlFault? _fault;

    /// <summary>Present line, from 1.</summary>
    public long Line
    {
        get
        {
            CountLines(_position);
            return _linesCounted + 1;
        }
    }

    /// <summary>Reads to the end or to the first fault, which is returned.</summary>
    public XmlFault? Read(GpxPoints points)
    {
        _points = points;
        while (_fault is null)
        {
            if (!ReadText()) break;
            ReadMarkup();
        }

        if (_fault is null && _depth > 0) Fail(XmlFaultKind.Cut, "");
        return _fault;
    }

    // Text up to the next '<'. False at the end of the stream.
    private bool ReadText()
    {
        if (_position < _end && _buffer[_position] == '<') return true; // one tag right after another
        int searched = 0;
        while (true)
        {
            int found = _buffer.AsSpan(_position + searched, _end - _position - searched).IndexOf((byte)'<');
            if (found >= 0)
            {
                int length = searched + found;
                if (length > 0) TakeText(_buffer.AsSpan(_position, length));
                _position += length;
                return _fault is null;
            }

            searched = _end - _position;
            if (Fill()) continue;
            if (_fault is null) TakeText(_buffer.AsSpan(_position, searched));
            _position = _end;
            return false;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void TakeText(ReadOnlySpan<byte> text)
    {
        if (text.Length == 0) return;
        if (_depth == 0)
        {
            TakeOutsideText(text);
            return;
        }

        if (text.Contains((byte)'&') && !Decode(text, out text)) return;
        if (_points.WantsText) _points.Text(text);
    }

    private void TakeOutsideText(ReadOnlySpan<byte> text)
    {
        if (text.IndexOfAnyExcept(s_space) < 0) return;
        Fail(_points.RootSeen ? XmlFaultKind.Trailing : XmlFaultKind.Malformed, "text outside the root element");
    }

    private void ReadMarkup()
    {
        if (!Have(2))
        {
            Fail(XmlFaultKind.Cut, "");
            return;
        }

        switch (_buffer[_position + 1])
        {
            case (byte)'/': ReadEndTag(); break;
            case (byte)'!': ReadDeclaration(); break;
            case (byte)'?': Skip("?>"u8, 2); break;
            default: ReadStartTag(); break;
        }
    }

    private void ReadEndTag()
    {
        if (_depth > 0 && EndsTop()) return;
        int length = Find((byte)'>', 2);
        if (length < 0) return;
        ReadOnlySpan<byte> name = _buffer.AsSpan(_position + 2, length - 2);
        if (name.Length > 0 && name[^1] <= ' ') name = name.TrimEnd(" \t\r\n"u8);
        if (_depth == 0 || !name.SequenceEqual(TopName()))
        {
            Fail(XmlFaultKind.Malformed, "an end tag that does not fit its start");
            return;
        }

        _points.End(Local(name));
        _depth--;
        _position += length + 1;
    }

    // The usual end tag: the open element's name right before '>'.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // called for every value from the first point on
    private bool EndsTop()
    {
        ReadOnlySpan<byte> name = TopName();
        ReadOnlySpan<byte> tag = _buffer.AsSpan(_position + 2, _end - _position - 2);
        if (tag.Length <= name.Length || tag[name.Length] != '>' || !tag[..name.Length].SequenceEqual(name)) return false;
        _points.End(name[_localOffsets[_depth]..]);
        _depth--;
        _position += name.Length + 3;
        return true;
    }

    // The usual start tag: a name of ASCII letters, perhaps with a prefix, right before '>'.
    private bool StartsPlain()
    {
        if (_depth == 0) return false;
        ReadOnlySpan<byte> tag = _buffer.AsSpan(_position + 1, Math.Min(_end - _position - 1, LongestPlainName));
        int length = 0, local = 0;
        while (length < tag.Length && tag[length] is var b && (b | 0x20) is >= 'a' and <= 'z' or ':')
        {
            length++;
            if (tag[length - 1] == ':') local = length;
        }

        if (length == 0 || length == tag.Length || tag[length] != '>' || tag[0] == ':') return false;
        ReadOnlySpan<byte> name = tag[..length];
        _points.Start(name[local..], default, default);
        Push(name, local);
        _position += length + 2;
        return true;
    }

    private void ReadStartTag()
    {
        if (StartsPlain()) return;
        int length = FindTagEnd();
        if (length < 0) return;
        if (_depth == 0 && _points.RootSeen)
        {
            Fail(XmlFaultKind.Trailing, "");
            return;
        }

        ReadOnlySpan<byte> tag = _buffer.AsSpan(_position + 1, length - 1);
        bool empty = tag.Length > 0 && tag[^1] == '/';
        if (empty) tag = tag[..^1];
        int nameLength = tag.IndexOfAny(s_nameEnd);
        ReadOnlySpan<byte> name = nameLength < 0 ? tag : tag[..nameLength];
        if (!IsNameStart(name))
        {
            Fail(XmlFaultKind.Malformed, "a '<' that starts no element");
            return;
        }

        ReadOnlySpan<byte> latitude = default, longitude = default;
        if (nameLength >= 0 && !ReadAttributes(tag[nameLength..], ref latitude, ref longitude)) return;
        ReadOnlySpan<byte> local = Local(name);
        _points.Start(local, latitude, longitude);
        if (empty) _points.End(local);
        else Push(name, name.Length - local.Length);
        _position += length + 1;
    }

    private static bool IsNameStart(ReadOnlySpan<byte> name) => name.Length > 0 && (char.IsAsciiLetter((char)name[0]) || name[0] is (byte)'_' or (byte)':' or >= 0x80) && !name.Contains((byte)'<');

    private bool ReadAttributes(ReadOnlySpan<byte> rest, ref ReadOnlySpan<byte> latitude, ref ReadOnlySpan<byte> longitude)
    {
        while (true)
        {
            int start = rest.IndexOfAnyExcept(s_space);
            if (start < 0) return true;
            if (start == 0) return Broken();
            rest = rest[start..];
            int nameLength = rest.IndexOfAny(s_nameEnd);
            if (nameLength <= 0) return Broken();
            ReadOnlySpan<byte> name = rest[..nameLength];
            rest = rest[nameLength..].TrimStart(" \t\r\n"u8);
            if (rest.Length < 3 || rest[0] != '=') return Broken();
            rest = rest[1..].TrimStart(" \t\r\n"u8);
            if (rest.Length < 2 || rest[0] is not ((byte)'"' or (byte)'\'')) return Broken();
            int close = rest[1..].IndexOf(rest[0]);
            if (close < 0) return Broken();
            ReadOnlySpan<byte> value = rest.Slice(1, close);
            if (value.Contains((byte)'<')) return Broken();
            if (value.Contains((byte)'&') && !Decode(value, out value)) return false;
            if (name.SequenceEqual("lat"u8)) latitude = value;
            else if (name.SequenceEqual("lon"u8)) longitude = value;
            rest = rest[(close + 2)..];
        }
    }

    private bool Broken()
    {
        Fail(XmlFaultKind.Malformed, "an attribute that is not name=\"value\"");
        return false;
    }

    private void ReadDeclaration()
    {
        if (Starts("<!--"u8)) ReadComment();
        else if (Starts("<![CDATA["u8)) ReadCharacterData();
        else if (Starts("<!DOCTYPE"u8)) Fail(XmlFaultKind.Dtd, "a document type");
        else if (_ended && _end - _position < 9) Fail(XmlFaultKind.Cut, "");
        else Fail(XmlFaultKind.Malformed, "a '<!' that starts nothing known");
    }

    private void ReadComment()
    {
        int length = Find("-->"u8, 4);
        if (length < 0) return;
        _points.Hide(_buffer.AsSpan(_position, length));
        _position += length + 3;
    }

    private void ReadCharacterData()
    {
        int length = Find("]]>"u8, 9);
        if (length < 0) return;
        _points.Hide(_buffer.AsSpan(_position, length));
        if (_depth == 0) Fail(XmlFaultKind.Malformed, "text outside the root element");
        else if (_points.WantsText) _points.Text(_buffer.AsSpan(_position + 9, length - 9));
        _position += length + 3;
    }

    private void Skip(ReadOnlySpan<byte> until, int from)
    {
        int length = Find(until, from);
        if (length >= 0) _position += length + until.Length;
    }

    // Distance from the position to the '>' that ends a start tag, quotes respected.
    private int FindTagEnd()
    {
        int length = Find((byte)'>', 1);
        while (length >= 0 && InsideQuotes(_buffer.AsSpan(_position, length))) length = Find((byte)'>', length + 1);
        return length;
    }

    private static bool InsideQuotes(ReadOnlySpan<byte> tag)
    {
        int at = 0;
        while (true)
        {
            int open = tag[at..].IndexOfAny((byte)'"', (byte)'\'');
            if (open < 0) return false;
            at += open;
            int close = tag[(at + 1)..].IndexOf(tag[at]);
            if (close < 0) return !tag.Slice(at + 1).Contains((byte)'<'); // a '<' can't stand in a value: the quote itself is broken
            at += close + 2;
        }
    }

    private int Find(byte mark, int from)
    {
        int found = from <= _end - _position ? _buffer.AsSpan(_position + from, _end - _position - from).IndexOf(mark) : -1;
        return found >= 0 ? from + found : Find([mark], from);
    }

    private int Find(ReadOnlySpan<byte> mark, int from)
    {
        while (true)
        {
            int found = from <= _end - _position ? _buffer.AsSpan(_position + from, _end - _position - from).IndexOf(mark) : -1;
            if (found >= 0) return from + found;
            from = Math.Max(from, _end - _position - mark.Length + 1);
            if (Fill()) continue;
            if (_fault is null) Fail(XmlFaultKind.Cut, "");
            return -1;
        }
    }

    private bool Starts(ReadOnlySpan<byte> text) => Have(text.Length) && _buffer.AsSpan(_position, text.Length).SequenceEqual(text);

    private bool Have(int length)
    {
        while (_end - _position < length)
            if (!Fill()) return false;
        return true;
    }

    private bool Decode(ReadOnlySpan<byte> text, out ReadOnlySpan<byte> decoded)
    {
        if (_decoded.Length < text.Length) _decoded = new byte[text.Length];
        int length = 0;
        decoded = default;
        while (text.Length > 0)
        {
            int mark = text.IndexOf((byte)'&');
            int plain = mark < 0 ? text.Length : mark;
            text[..plain].CopyTo(_decoded.AsSpan(length));
            length += plain;
            text = text[plain..];
            if (mark < 0) break;
            int semicolon = text.IndexOf((byte)';');
            int character = semicolon < 0 ? -1 : Entity(text[1..semicolon]);
            if (character < 0)
            {
                Fail(XmlFaultKind.Malformed, "an entity that is not declared");
                return false;
            }

            length += new System.Text.Rune(character).EncodeToUtf8(_decoded.AsSpan(length));
            text = text[(semicolon + 1)..];
        }

        decoded = _decoded.AsSpan(0, length);
        return true;
    }

    private static int Entity(ReadOnlySpan<byte> name)
    {
        if (name.SequenceEqual("amp"u8)) return '&';
        if (name.SequenceEqual("lt"u8)) return '<';
        if (name.SequenceEqual("gt"u8)) return '>';
        if (name.SequenceEqual("quot"u8)) return '"';
        if (name.SequenceEqual("apos"u8)) return '\'';
        if (name.Length < 2 || name[0] != '#') return -1;
        bool hex = name[1] == 'x';
        bool fits = hex
            ? int.TryParse(name[2..], System.Globalization.NumberStyles.AllowHexSpecifier, System.Globalization.CultureInfo.InvariantCulture, out int character)
            : int.TryParse(name[1..], System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out character);
        return fits && System.Text.Rune.IsValid(character) ? character : -1;
    }

    private static ReadOnlySpan<byte> Local(ReadOnlySpan<byte> name)
    {
        int colon = name.LastIndexOf((byte)':');
        return colon < 0 ? name : name[(colon + 1)..];
    }

    private ReadOnlySpan<byte> TopName()
    {
        int start = _nameStarts[_depth - 1];
        return _names.AsSpan(start, _nameStarts[_depth] - start);
    }

    private void Push(ReadOnlySpan<byte> name, int localOffset)
    {
        int start = _nameStarts[_depth];
        if (_depth + 2 > _nameStarts.Length)
        {
            Array.Resize(ref _nameStarts, _nameStarts.Length * 2);
            Array.Resize(ref _localOffsets, _nameStarts.Length);
        }

        _localOffsets[_depth + 1] = localOffset;
        if (start + name.Length > _names.Length) Array.Resize(ref _names, Math.Max(_names.Length * 2, start + name.Length));
        name.CopyTo(_names.AsSpan(start));
        _nameStarts[++_depth] = start + name.Length;
    }

    private void Fail(XmlFaultKind kind, string what) => _fault ??= new XmlFault(kind, Line, what);

    private void CountLines(int upTo)
    {
        if (upTo <= _counted) return;
        _linesCounted += _buffer.AsSpan(_counted, upTo - _counted).Count((byte)'\n');
        _counted = upTo;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private bool Fill()
    {
        if (_ended) return false;
        CountLines(_position);
        if (_position > 0)
        {
            _buffer.AsSpan(_position, _end - _position).CopyTo(_buffer);
            _end -= _position;
            _counted -= _position;
            _position = 0;
        }

        if (_end == _buffer.Length)
        {
            if (_end >= LongestPiece)
            {
                Fail(XmlFaultKind.Malformed, "a piece of text or a tag longer than 16 MB");
                return false;
            }

            Array.Resize(ref _buffer, _buffer.Length * 2);
        }

        int count = stream.Read(_buffer, _end, _buffer.Length - _end);
        _ended = count == 0;
        _end += count;
        _read += count;
        progress?.Report(_read);
        return count > 0;
    }
}
