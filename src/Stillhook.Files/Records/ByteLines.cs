using System.Runtime.CompilerServices;

namespace Stillhook.Files.Records;

/// <summary>Lines of a stream as bytes without their ends (LF, CRLF or CR), in one pass over one buffer.</summary>
internal sealed class ByteLines(Stream stream, IProgress<long>? progress)
{
    private const int LongestLine = 1 << 20;

    private byte[] _buffer = new byte[1 << 16];
    private int _start, _end;
    private long _read;
    private bool _ended, _afterReturn;

    /// <summary>Number of the line last given, from 1.</summary>
    public long Number { get; private set; }

    /// <summary>True when the line last given was ended by a line end, not by the end of the stream.</summary>
    public bool Complete { get; private set; }

    /// <summary>The bytes in which the line last given stands until the next call, and where it starts there.</summary>
    public byte[] Buffer => _buffer;

    public int Start { get; private set; }

    /// <summary>The next line; false at the end. It stays valid until the next call.</summary>
    public bool Next(out ReadOnlySpan<byte> line)
    {
        int searched = 0;
        while (true)
        {
            if (_afterReturn && _start < _end)
            {
                if (_buffer[_start] == '\n') _start++;
                _afterReturn = false;
            }

            int found = _buffer.AsSpan(_start + searched, _end - _start - searched).IndexOfAny((byte)'\n', (byte)'\r');
            if (found >= 0) return Give(searched + found, ended: true, out line);
            searched = _end - _start;
            if (searched >= LongestLine) return Give(searched, ended: false, out line);
            if (Fill()) continue;
            if (_end > _start) return Give(_end - _start, ended: false, out line);
            line = default;
            return false;
        }
    }

    private bool Give(int length, bool ended, out ReadOnlySpan<byte> line)
    {
        line = _buffer.AsSpan(_start, length);
        Start = _start;
        _afterReturn = ended && _buffer[_start + length] == '\r';
        _start += length + (ended ? 1 : 0);
        Complete = ended;
        Number++;
        return true;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private bool Fill()
    {
        if (_ended) return false;
        if (_start > 0)
        {
            _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
            _end -= _start;
            _start = 0;
        }

        if (_end == _buffer.Length) Array.Resize(ref _buffer, _buffer.Length * 2);
        int count = stream.Read(_buffer, _end, _buffer.Length - _end);
        _ended = count == 0;
        _end += count;
        _read += count;
        progress?.Report(_read);
        return count > 0;
    }
}
