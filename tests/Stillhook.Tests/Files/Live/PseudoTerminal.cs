using System.Runtime.InteropServices;

namespace Stillhook.Tests.Files.Live;

/// <summary>A pseudo terminal of Linux: what is written to it comes out of a device that looks like a serial line.</summary>
internal sealed class PseudoTerminal : IDisposable
{
    private const int ReadWrite = 2, NoControllingTerminal = 0x100;

    private int _handle;

    public PseudoTerminal()
    {
        _handle = posix_openpt(ReadWrite | NoControllingTerminal);
        if (_handle < 0 || grantpt(_handle) != 0 || unlockpt(_handle) != 0) throw new IOException("no pseudo terminal");
        Name = Marshal.PtrToStringUTF8(ptsname(_handle))!;
    }

    public string Name { get; }

    public void Write(byte[] bytes)
    {
        if (write(_handle, bytes, bytes.Length) != bytes.Length) throw new IOException("the terminal took less");
    }

    public void Dispose()
    {
        if (_handle >= 0) _ = close(_handle);
        _handle = -1;
    }

    [DllImport("libc")] private static extern int posix_openpt(int flags);

    [DllImport("libc")] private static extern int grantpt(int handle);

    [DllImport("libc")] private static extern int unlockpt(int handle);

    [DllImport("libc")] private static extern IntPtr ptsname(int handle);

    [DllImport("libc")] private static extern nint write(int handle, byte[] bytes, nint count);

    [DllImport("libc")] private static extern int close(int handle);
}
