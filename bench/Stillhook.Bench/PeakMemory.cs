using System.Diagnostics;
using System.Globalization;

namespace Stillhook.Bench;

/// <summary>Largest resident memory of another process, looked at every 10 ms: the system forgets it when the process ends.</summary>
internal sealed class PeakMemory
{
    private readonly Process process;
    private readonly Thread watch;
    private volatile bool ended;
    private double peakMb;

    public PeakMemory(Process process)
    {
        this.process = process;
        watch = new(Watch) { IsBackground = true };
        watch.Start();
    }

    /// <summary>Ends the watch and tells the peak, MB.</summary>
    public double Stop()
    {
        ended = true;
        watch.Join();
        return peakMb;
    }

    private void Watch()
    {
        while (!ended)
        {
            peakMb = Math.Max(peakMb, Now());
            Thread.Sleep(10);
        }
    }

    private double Now()
    {
        try
        {
            // Linux keeps the peak itself; elsewhere the runtime asks the system.
            string status = $"/proc/{process.Id.ToString(CultureInfo.InvariantCulture)}/status";
            if (!File.Exists(status))
                return process.PeakWorkingSet64 / 1e6;
            string line = File.ReadLines(status).First(l => l.StartsWith("VmHWM", StringComparison.Ordinal));
            return long.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) * 1024 / 1e6;
        }
        catch (Exception e) when (e is IOException or InvalidOperationException)
        {
            return 0; // it ended meanwhile
        }
    }
}
