using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>A file that another program writes. Started anew (made shorter, or replaced) it is read from its start again.</summary>
/// <param name="setting">The source.</param>
/// <param name="backOff">Waits while there is no file.</param>
/// <param name="clock">For waiting.</param>
/// <param name="readBefore">How much of the file a run before took in and how that ended; empty when none.</param>
internal sealed class GrowingFileSource(LiveSourceSetting setting, BackOff backOff, TimeProvider clock, (long Length, byte[] End) readBefore) : LinkSource(setting, backOff, clock)
{
    private const int EndLength = 64; // bytes that tell one file from another, about a sentence; common practice, no source
    private static readonly TimeSpan s_look = TimeSpan.FromMilliseconds(50), s_lookForAnother = TimeSpan.FromSeconds(1);

    private readonly byte[] _buffer = new byte[65_536];
    private byte[] _end = readBefore.End;
    private long _at = readBefore.Length;
    private bool _opened;

    protected override async Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        FileStream file = Open();
        try
        {
            if (!GoesOn(file)) StartAnew(receiver, file);
            if (!_opened && Setting.FromEnd && _at == 0) _at = file.Length;
            _opened = true;
            receiver.Up($"{Setting.Path} open");
            long looked = Clock.GetTimestamp();
            while (true)
            {
                if (ReadOn(file, receiver)) continue;
                await Task.Delay(s_look, Clock, cancellation);
                if (Clock.GetElapsedTime(looked) < s_lookForAnother) continue;
                looked = Clock.GetTimestamp();
                if (!File.Exists(Setting.Path)) continue; // moved away, the next one not there yet
                FileStream again = Open();
                if (ReadOn(file, receiver) || GoesOn(again))
                {
                    again.Dispose();
                    continue;
                }

                file.Dispose();
                file = again;
                StartAnew(receiver, file);
                receiver.Up($"{Setting.Path} open");
            }
        }
        finally
        {
            file.Dispose();
        }
    }

    private FileStream Open() => new(Setting.Path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);

    private bool ReadOn(FileStream file, ILiveReceiver receiver)
    {
        int count = RandomAccess.Read(file.SafeFileHandle, _buffer, _at);
        if (count == 0) return false;
        _at += count;
        ReadOnlySpan<byte> got = _buffer.AsSpan(0, count);
        _end = count >= EndLength ? got[^EndLength..].ToArray() : [.. _end.AsSpan(Math.Max(0, _end.Length + count - EndLength)), .. got];
        Got(receiver, got);
        return true;
    }

    // True when the file holds what was read up to here.
    private bool GoesOn(FileStream file)
    {
        if (file.Length < _at) return false;
        Span<byte> end = stackalloc byte[EndLength];
        end = end[.._end.Length];
        return RandomAccess.Read(file.SafeFileHandle, end, _at - _end.Length) == end.Length && end.SequenceEqual(_end);
    }

    private void StartAnew(ILiveReceiver receiver, FileStream file)
    {
        if (_opened)
        {
            receiver.Down("the file was started anew");
            receiver.Say(new Finding(Severity.Note, "file-started-anew", null, 1, $"{Setting.Text}: the file was made shorter or replaced ({file.Length} bytes now, {_at} were read).", "Read from its start."));
        }

        (_at, _end) = (0, []);
    }

    protected override Finding Explain(Exception failure) => failure is FileNotFoundException or DirectoryNotFoundException
        ? Failed("file-missing", $"{Setting.Text}: there is no such file yet.", "Start the recorder, or check the path.")
        : Failed("file-unreadable", $"{Setting.Text}: the file can't be read: {failure.Message.TrimEnd('.')}.", "Check its permissions, and that it is a file and no folder.");
}
