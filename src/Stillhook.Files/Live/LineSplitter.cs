namespace Stillhook.Files.Live;

/// <summary>Cuts what arrives in pieces into lines (LF, CRLF or CR); a line may come in any number of pieces.</summary>
internal sealed class LineSplitter
{
    /// <summary>A line that grows beyond this is dropped, bytes (common practice, no source; a sentence has at most 82, from memory).</summary>
    public const int LongestLine = 1 << 20;

    private byte[] _buffer = new byte[4096];
    private int _start, _end, _searched;
    private bool _afterReturn, _dropping;

    /// <summary>Number of the line last given, from 1.</summary>
    public long Number { get; private set; }

    /// <summary>How many lines were dropped for their length.</summary>
    public long Dropped { get; private set; }

    /// <summary>The line that has begun and not ended.</summary>
    public ReadOnlySpan<byte> Rest => _buffer.AsSpan(_start, _end - _start);

    /// <summary>Adds what arrived; the lines are then had by <see cref="Next"/>.</summary>
    public void Add(ReadOnlySpan<byte> bytes)
    {
        if (_start > 0)
        {
            Rest.CopyTo(_buffer);
            (_end, _searched, _start) = (_end - _start, _searched - _start, 0);
        }

        if (_end + bytes.Length > _buffer.Length) Array.Resize(ref _buffer, Math.Max(_buffer.Length * 2, _end + bytes.Length));
        bytes.CopyTo(_buffer.AsSpan(_end));
        _end += bytes.Length;
    }

    /// <summary>The next whole line without its end; it stays valid until the next call.</summary>
    public bool Next(out ReadOnlySpan<byte> line)
    {
        line = default;
        while (true)
        {
            if (_afterReturn && _start < _end)
            {
                if (_buffer[_start] == '\n') _start++;
                _afterReturn = false;
            }

            _searched = Math.Max(_searched, _start);
            int found = _buffer.AsSpan(_searched, _end - _searched).IndexOfAny((byte)'\n', (byte)'\r');
            if (found < 0)
            {
                _searched = _end;
                DropIfLong();
                return false;
            }

            int end = _searched + found;
            _afterReturn = _buffer[end] == '\r';
            line = _buffer.AsSpan(_start, end - _start);
            _start = _searched = end + 1;
            Number++;
            if (!_dropping && line.Length < LongestLine) return true;
            if (!_dropping) Dropped++;
            _dropping = false;
        }
    }

    /// <summary>The line that has begun, ended here.</summary>
    public ReadOnlySpan<byte> TakeRest()
    {
        ReadOnlySpan<byte> rest = Rest;
        _start = _searched = _end;
        if (_dropping) rest = default;
        if (rest.Length > 0) Number++;
        return rest;
    }

    /// <summary>Forgets the line that has begun: what comes next belongs to another link.</summary>
    public void Forget()
    {
        _start = _end = _searched = 0;
        _afterReturn = _dropping = false;
    }

    private void DropIfLong()
    {
        if (!_dropping && _end - _start < LongestLine) return;
        if (!_dropping) Dropped++;
        _dropping = true;
        _start = _end = _searched = 0;
    }
}
