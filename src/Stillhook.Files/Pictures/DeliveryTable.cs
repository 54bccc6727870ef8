using System.Globalization;
using System.Text;
using Stillhook.Debriefing;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.Files.Pictures;

/// <summary>The numbers behind the pictures and plots as comma-separated values: a heading with units, a row a sample, UTC in ISO 8601, a point as decimal mark everywhere.</summary>
public static class DeliveryTable
{
    /// <summary>Hook and load from above, m from the target.</summary>
    public static string Plan(IReadOnlyList<DeliveryPath> paths) => Write(
        "hookEastM,hookNorthM,loadEastM,loadNorthM,loadEastBandM,loadNorthBandM", Each(paths, p => p.TimeS,
        (p, i) => [p.East[i], p.North[i], Known(p, i, p.LoadEast[i]), Known(p, i, p.LoadNorth[i]), p.LoadEastBandM[i], p.LoadNorthBandM[i]]));

    /// <summary>Hook and load from the side: distance to go along the course, height over the contact ground.</summary>
    public static string Side(IReadOnlyList<DeliveryPath> paths, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        string height = units.HeightUnit == "m" ? "M" : "Ft";
        return Write($"hookToGoM,hookHeight{height},loadToGoM,loadHeight{height},loadToGoBandM", Each(paths, p => p.TimeS,
            (p, i) => [p.AlongM[i], p.HeightM[i] * units.HeightPerMetre, Known(p, i, p.LoadAlongM[i]), Known(p, i, p.LoadHeightM[i] * units.HeightPerMetre), p.LoadAlongBandM[i]]));
    }

    /// <summary>Ground speed against distance to go.</summary>
    public static string Speed(IReadOnlyList<DeliveryPath> paths, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        return ToGo(paths, null, units.SpeedUnit == "kt" ? "groundSpeedKt" : "groundSpeedKmh", (c, i) => c.SpeedMs[i] * units.SpeedPerMetreSecond);
    }

    /// <summary>Sink against distance to go, down positive.</summary>
    public static string Sink(IReadOnlyList<DeliveryPath> paths, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        return ToGo(paths, null, units.SinkUnit == "m/s" ? "sinkMs" : "sinkFtMin", (c, i) => c.SinkMs[i] * units.SinkPerMetreSecond);
    }

    /// <summary>Torque or power against distance to go.</summary>
    public static string Power(IReadOnlyList<DeliveryPath> paths, Channel power)
    {
        ArgumentNullException.ThrowIfNull(power);
        return ToGo(paths, power, power.Kind == ChannelKind.TorquePercent ? "torquePercent" : "powerKw", (c, i) => c.Power![i]);
    }

    /// <summary>Swing against time, fore and aft (ahead positive) or sideways (right positive), with the half-width of its band.</summary>
    public static string Swing(IReadOnlyList<DeliveryPath> paths, IReadOnlyDictionary<int, SwingTrace> swings, bool sideways)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ArgumentNullException.ThrowIfNull(swings);
        return Write(sideways ? "swingRightM,bandM" : "swingAheadM,bandM", paths
            .Select(p => (Path: p, Curves: SwingCurves.Of(p, swings.GetValueOrDefault(p.Rotation.Number)))).Where(p => p.Curves is not null)
            .SelectMany(p => p.Curves!.TimeS.Select((t, i) => (p.Path, t, (double[])(sideways ? [p.Curves.RightM[i], p.Curves.RightBandM[i]] : [p.Curves.ForeM[i], p.Curves.ForeBandM[i]])))));
    }

    private static string ToGo(IReadOnlyList<DeliveryPath> paths, Channel? power, string heading, Func<ToGoCurves, int, double> value)
    {
        ArgumentNullException.ThrowIfNull(paths);
        return Write("toGoM," + heading, paths.Select(p => (Path: p, Curves: ToGoCurves.Of(p, power)))
            .SelectMany(p => p.Curves.TimeS.Select((t, i) => (p.Path, t, (double[])[p.Curves.ToGoM[i], value(p.Curves, i)]))));
    }

    // Where the swing isn't known the path runs straight below the hook for drawing; as a number that would be a claim.
    private static double Known(DeliveryPath path, int i, double value) => double.IsNaN(path.LoadAlongBandM[i]) ? double.NaN : value;

    private static IEnumerable<(DeliveryPath, double, double[])> Each(IReadOnlyList<DeliveryPath> paths, Func<DeliveryPath, double[]> times, Func<DeliveryPath, int, double[]> values) =>
        paths.SelectMany(p => times(p).Select((t, i) => (p, t, values(p, i))));

    private static string Write(string headings, IEnumerable<(DeliveryPath Path, double TimeS, double[] Values)> rows)
    {
        StringBuilder text = new("delivery,timeUtc,toContactS," + headings + "\r\n");
        foreach ((DeliveryPath path, double t, double[] values) in rows)
        {
            text.Append(CultureInfo.InvariantCulture, $"{path.Rotation.Number},{UtcText.Iso(t)},{path.ContactTimeS - t:0.00}");
            foreach (double value in values)
                text.Append(',').Append(double.IsFinite(value) ? value.ToString("0.00", CultureInfo.InvariantCulture) : "");
            text.Append("\r\n");
        }
        return text.ToString();
    }
}
