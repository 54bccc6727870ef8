using System.Diagnostics;
using Stillhook.Fuzz.Targets;

namespace Stillhook.Fuzz.Driving;

/// <summary>What came of one input.</summary>
/// <param name="Fault">Null when all rules held.</param>
/// <param name="Seconds">Time taken.</param>
/// <param name="AllocatedBytes">Memory asked for, whether or not it was given back.</param>
public sealed record Outcome(string? Fault, double Seconds, long AllocatedBytes)
{
    /// <summary>Where it happened, so that the same fault is told once.</summary>
    public string Place { get; init; } = "";
}

/// <summary>Runs a target on one input and judges it.</summary>
public static class Trial
{
    /// <summary>Longer is a fault, s; the inputs are a few kilobytes.</summary>
    public const double LongestS = 5;

    /// <summary>More is a fault, bytes.</summary>
    public const long MostBytes = 500_000_000;

    public static Outcome Run(FuzzTarget target, byte[] input)
    {
        ArgumentNullException.ThrowIfNull(target);
        long before = GC.GetAllocatedBytesForCurrentThread(), began = Stopwatch.GetTimestamp();
        string? fault = null;
        string place = "";
        try
        {
            target.Run(input);
        }
#pragma warning disable CA1031 // Whatever comes out is what is looked for.
        catch (Exception e)
#pragma warning restore CA1031
        {
            fault = e.ToString();
            place = $"{e.GetType().Name} {string.Join(' ', (e.StackTrace ?? "").Split('\n').Where(l => !l.Contains("System.", StringComparison.Ordinal) && !l.Contains("Rules.", StringComparison.Ordinal)).Take(2).Select(l => l.Trim()))}";
        }

        double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        if (fault is null && seconds > LongestS) (fault, place) = ($"took {seconds:0.0} s", "slow");
        if (fault is null && allocated > MostBytes) (fault, place) = ($"asked for {allocated / 1e6:0} MB", "memory");
        return new(fault, seconds, allocated) { Place = place };
    }
}
