using System.Text.Json;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Recording;

namespace Stillhook.App.Serving;

/// <summary>The plots' numbers as columns, in the units they are read in, thinned to what a screen can show.</summary>
internal static class SeriesJson
{
    private const int Columns = 700;
    private const double Ninety = 1.645; // 90 % of a normal distribution lies within ±1.645 standard errors.

    public static void Write(Stream stream, OpenFlight flight, IReadOnlyList<DeliveryPath> paths, DisplayUnits units)
    {
        using Utf8JsonWriter json = new(stream);
        Channel? power = flight.Channels.FirstOrDefault(c => c.Kind == ChannelKind.TorquePercent) ?? flight.Channels.FirstOrDefault(c => c.Kind == ChannelKind.PowerKw);
        json.WriteStartObject();
        json.WriteString("speedUnit", units.SpeedUnit);
        json.WriteString("sinkUnit", units.SinkUnit);
        json.WriteString("powerUnit", power is null ? "" : power.Kind == ChannelKind.TorquePercent ? "% torque" : "kW");
        json.WriteStartArray("deliveries");
        foreach (DeliveryPath path in paths)
        {
            json.WriteStartObject();
            json.WriteNumber("number", path.Rotation.Number);
            WritePath(json, path);
            WriteToGo(json, path, power, units);
            WriteSwing(json, path, flight.Debrief.Swings.GetValueOrDefault(path.Rotation.Number));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WritePath(Utf8JsonWriter json, DeliveryPath path)
    {
        int[] kept = Thinning.MinMax(path.TimeS, Columns, path.East, path.North, path.HeightM);
        json.WriteStartObject("path");
        Column(json, "t", kept.Select(i => path.TimeS[i] - path.ContactTimeS));
        Column(json, "east", kept.Select(i => path.East[i]));
        Column(json, "north", kept.Select(i => path.North[i]));
        Column(json, "along", kept.Select(i => path.AlongM[i]));
        Column(json, "height", kept.Select(i => path.HeightM[i]));
        Column(json, "loadAlong", kept.Select(i => path.LoadAlongM[i]));
        Column(json, "loadHeight", kept.Select(i => path.LoadHeightM[i]));
        json.WriteEndObject();
    }

    private static void WriteToGo(Utf8JsonWriter json, DeliveryPath path, Channel? power, DisplayUnits units)
    {
        int[] passages = path.LastPassages();
        double[] d = Pick(path.ToGoM, passages), speed = Pick(path.SpeedMs, passages), sink = Pick(path.SinkMs, passages);
        int[] kept = Thinning.MinMax(d, Columns, speed, sink);
        json.WriteStartObject("toGo");
        // Ascending distance, as the plot wants it.
        Array.Reverse(kept);
        Column(json, "d", kept.Select(i => d[i]));
        Column(json, "t", kept.Select(i => path.TimeS[passages[i]] - path.ContactTimeS));
        Column(json, "speed", kept.Select(i => speed[i] * units.SpeedPerMetreSecond));
        Column(json, "sink", kept.Select(i => sink[i] * units.SinkPerMetreSecond));
        if (power is not null)
        {
            (double[] times, double[] values) = Sorted(power, path.TimeS[0], path.TimeS[^1]);
            Column(json, "power", kept.Select(i => At(times, values, path.TimeS[passages[i]])));
        }
        json.WriteEndObject();
    }

    // Fore and aft, left and right apart: each is an even-sided error, so value ± 1.645 standard errors is the 90 % band.
    private static void WriteSwing(Utf8JsonWriter json, DeliveryPath path, SwingTrace? swing)
    {
        if (swing is null)
            return;
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(path.CourseDeg));
        int first = Math.Max(0, (int)Math.Ceiling((path.TimeS[0] - swing.StartTimeS) / swing.StepS));
        int end = Math.Min(swing.ShownEastM.Length, (int)Math.Floor((path.ContactTimeS - swing.StartTimeS) / swing.StepS) + 1);
        if (end <= first)
            return;
        int[] samples = [.. Enumerable.Range(first, end - first)];
        double[] t = [.. samples.Select(i => swing.StartTimeS + i * swing.StepS - path.ContactTimeS)];
        double[] fore = [.. samples.Select(i => swing.ShownEastM[i] * sin + swing.ShownNorthM[i] * cos)];
        double[] right = [.. samples.Select(i => swing.ShownEastM[i] * cos - swing.ShownNorthM[i] * sin)];
        double[] foreError = [.. samples.Select(i => Ninety * Math.Sqrt(Square(swing.EastErrorM[i] * sin) + Square(swing.NorthErrorM[i] * cos)))];
        double[] rightError = [.. samples.Select(i => Ninety * Math.Sqrt(Square(swing.EastErrorM[i] * cos) + Square(swing.NorthErrorM[i] * sin)))];
        int[] kept = Thinning.MinMax(t, Columns, fore, right);
        json.WriteStartObject("swing");
        Column(json, "t", kept.Select(i => t[i]));
        Column(json, "fore", kept.Select(i => fore[i]));
        Column(json, "foreLow", kept.Select(i => fore[i] - foreError[i]));
        Column(json, "foreHigh", kept.Select(i => fore[i] + foreError[i]));
        Column(json, "right", kept.Select(i => right[i]));
        Column(json, "rightLow", kept.Select(i => right[i] - rightError[i]));
        Column(json, "rightHigh", kept.Select(i => right[i] + rightError[i]));
        json.WriteEndObject();
    }

    private static double Square(double v) => v * v;

    private static double[] Pick(double[] from, int[] indices) => [.. indices.Select(i => from[i])];

    private static (double[] Times, double[] Values) Sorted(Channel channel, double from, double to)
    {
        var samples = channel.TimeS.Zip(channel.Value).Where(s => s.First >= from - 3 && s.First <= to + 3 && double.IsFinite(s.Second)).OrderBy(s => s.First).ToArray();
        return ([.. samples.Select(s => s.First)], [.. samples.Select(s => s.Second)]);
    }

    // Between two samples a straight line; further than 3 s from any sample nothing is claimed.
    private static double At(double[] times, double[] values, double t)
    {
        int hi = Array.BinarySearch(times, t);
        if (hi >= 0)
            return values[hi];
        hi = ~hi;
        if (hi == 0 || hi == times.Length || times[hi] - times[hi - 1] > 3)
            return double.NaN;
        double part = (t - times[hi - 1]) / (times[hi] - times[hi - 1]);
        return values[hi - 1] + part * (values[hi] - values[hi - 1]);
    }

    private static void Column(Utf8JsonWriter json, string name, IEnumerable<double> values)
    {
        json.WriteStartArray(name);
        foreach (double value in values)
            if (double.IsFinite(value))
                json.WriteNumberValue(Math.Round(value, 2));
            else
                json.WriteNullValue();
        json.WriteEndArray();
    }
}
