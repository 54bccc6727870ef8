using System.IO.Ports;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>A serial line: 8 data bits, no parity, 1 stop bit, as NMEA 0183 has them.</summary>
internal sealed class SerialSource(LiveSourceSetting setting, BackOff backOff, TimeProvider clock) : LinkSource(setting, backOff, clock)
{
    protected override async Task ReceiveAsync(ILiveReceiver receiver, CancellationToken cancellation)
    {
        if (!OperatingSystem.IsWindows() && !File.Exists(Setting.Path)) throw new FileNotFoundException(Setting.Path);
        using var port = new SerialPort(Setting.Path, Setting.Baud) { ReadBufferSize = 65_536 };
        port.Open();
        receiver.Up($"{Setting.Path} open at {Setting.Baud} baud");
        using CancellationTokenRegistration closing = cancellation.Register(() => Close(port));
        byte[] buffer = new byte[4096];
        Stream line = port.BaseStream;
        while (await line.ReadAsync(buffer, cancellation) is > 0 and var count) Got(receiver, buffer.AsSpan(0, count));
        throw new IOException("the device is gone");
    }

    private static void Close(SerialPort port)
    {
        try
        {
            port.Close();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidOperationException)
        {
            // the adapter had been pulled out before
        }
    }

    protected override Finding Explain(Exception failure) => failure switch
    {
        FileNotFoundException or DirectoryNotFoundException => Failed("device-missing", $"{Setting.Text}: there is no device {Setting.Path}. {Known()}", "Plug it in, or name the device it has here."),
        UnauthorizedAccessException => Failed("device-refused", $"{Setting.Text}: {Setting.Path} is used by another program, or this user may not read it.",
            "End the other program; on Linux the user must be in the group of the device, usually dialout."),
        ArgumentException => Failed("device-no-serial", $"{Setting.Text}: {Setting.Path} is no serial line, or can't have {Setting.Baud} baud.", "Name a serial device and a speed it has."),
        _ => Failed("device-lost", $"{Setting.Text}: the serial line ended: {failure.Message.TrimEnd('.')}.", "Check plug and cable."),
    };

    private static string Known()
    {
        string[] names;
        try
        {
            names = SerialPort.GetPortNames();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or PlatformNotSupportedException)
        {
            names = [];
        }

        return names.Length == 0 ? "This machine has no serial device." : $"This machine has {string.Join(", ", names.Order(StringComparer.Ordinal).Take(8))}.";
    }
}
