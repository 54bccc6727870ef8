using Stillhook.Debriefing;
using Stillhook.Recording;

namespace Stillhook.Files.Pictures;

/// <summary>What one delivery's plots against distance show: each distance to go as it was last passed, the farthest first.</summary>
/// <param name="ToGoM">Horizontal distance hook to contact point, m, falling.</param>
/// <param name="TimeS">When, s since 1970 UTC.</param>
/// <param name="SpeedMs">Ground speed, m/s.</param>
/// <param name="SinkMs">Sink, m/s, down positive.</param>
/// <param name="Power">Torque, %, or power, kW, as recorded; NaN where nothing was recorded within 3 s. Null without such a channel.</param>
public sealed record ToGoCurves(double[] ToGoM, double[] TimeS, double[] SpeedMs, double[] SinkMs, double[]? Power)
{
    private const double FarthestS = 3;

    /// <summary>The channel that shows power: torque where it was recorded, else power; null without either.</summary>
    public static Channel? PowerOf(IReadOnlyList<Channel> channels)
    {
        ArgumentNullException.ThrowIfNull(channels);
        return channels.FirstOrDefault(c => c.Kind == ChannelKind.TorquePercent) ?? channels.FirstOrDefault(c => c.Kind == ChannelKind.PowerKw);
    }

    /// <summary>The curves of a delivery.</summary>
    public static ToGoCurves Of(DeliveryPath path, Channel? power)
    {
        ArgumentNullException.ThrowIfNull(path);
        int[] passages = path.LastPassages();
        double[] times = Pick(path.TimeS, passages);
        return new(Pick(path.ToGoM, passages), times, Pick(path.SpeedMs, passages), Pick(path.SinkMs, passages), power is null ? null : At(power, times, path.TimeS[0], path.TimeS[^1]));
    }

    private static double[] Pick(double[] from, int[] indices) => [.. indices.Select(i => from[i])];

    private static double[] At(Channel channel, double[] times, double from, double to)
    {
        (double T, double Value)[] samples = [.. channel.TimeS.Zip(channel.Value).Where(s => s.First >= from - FarthestS && s.First <= to + FarthestS && double.IsFinite(s.Second)).OrderBy(s => s.First)];
        double[] t = [.. samples.Select(s => s.T)], value = [.. samples.Select(s => s.Value)];
        return [.. times.Select(at => At(t, value, at))];
    }

    // Between two samples a straight line; further than 3 s from any sample nothing is claimed.
    private static double At(double[] times, double[] values, double t)
    {
        int hi = Array.BinarySearch(times, t);
        if (hi >= 0)
            return values[hi];
        hi = ~hi;
        if (hi == 0 || hi == times.Length || times[hi] - times[hi - 1] > FarthestS)
            return double.NaN;
        double part = (t - times[hi - 1]) / (times[hi] - times[hi - 1]);
        return values[hi - 1] + part * (values[hi] - values[hi - 1]);
    }
}

/// <summary>Swing of one delivery along and across its course, trail and lean taken off, each with the half-width of its band.</summary>
/// <param name="TimeS">Times, s since 1970 UTC, up to contact.</param>
/// <param name="ForeM">Load ahead of where it would hang at rest, m; behind is negative.</param>
/// <param name="ForeBandM">Half-width of the band that holds it nine times in ten, m.</param>
/// <param name="RightM">Load right of where it would hang at rest, m.</param>
/// <param name="RightBandM">Half-width of its band, m.</param>
public sealed record SwingCurves(double[] TimeS, double[] ForeM, double[] ForeBandM, double[] RightM, double[] RightBandM)
{
    internal const double Ninety = 1.645; // 90 % of a normal distribution lies within ±1.645 standard errors.

    /// <summary>The curves; null where the swing is not known.</summary>
    /// <remarks>Fore and aft, left and right apart: each is an even-sided error, so value ± 1.645 standard errors is the 90 % band.</remarks>
    public static SwingCurves? Of(DeliveryPath path, SwingTrace? swing)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (swing is null || !path.HasSwing)
            return null;
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(path.CourseDeg));
        int first = Math.Max(0, (int)Math.Ceiling((path.TimeS[0] - swing.StartTimeS) / swing.StepS));
        int end = Math.Min(swing.ShownEastM.Length, (int)Math.Floor((path.ContactTimeS - swing.StartTimeS) / swing.StepS) + 1);
        if (end <= first)
            return null;
        int[] samples = [.. Enumerable.Range(first, end - first)];
        return new(
            [.. samples.Select(i => swing.StartTimeS + i * swing.StepS)],
            [.. samples.Select(i => swing.ShownEastM[i] * sin + swing.ShownNorthM[i] * cos)],
            [.. samples.Select(i => Ninety * double.Hypot(swing.EastErrorM[i] * sin, swing.NorthErrorM[i] * cos))],
            [.. samples.Select(i => swing.ShownEastM[i] * cos - swing.ShownNorthM[i] * sin)],
            [.. samples.Select(i => Ninety * double.Hypot(swing.EastErrorM[i] * cos, swing.NorthErrorM[i] * sin))]);
    }
}
