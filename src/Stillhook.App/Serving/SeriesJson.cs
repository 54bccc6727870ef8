using System.Text.Json;
using Stillhook.Files.Pictures;
using Stillhook.Recording;

namespace Stillhook.App.Serving;

/// <summary>The plots' numbers as columns, in the units they are read in, thinned to what a screen can show.</summary>
internal static class SeriesJson
{
    private const int Columns = 700;

    public static void Write(Stream stream, OpenFlight flight, IReadOnlyList<DeliveryPath> paths, DisplayUnits units)
    {
        using Utf8JsonWriter json = new(stream);
        Channel? power = ToGoCurves.PowerOf(flight.Channels);
        json.WriteStartObject();
        json.WriteString("speedUnit", units.SpeedUnit);
        json.WriteString("sinkUnit", units.SinkUnit);
        json.WriteString("heightUnit", units.HeightUnit);
        json.WriteNumber("heightPerMetre", units.HeightPerMetre);
        json.WriteString("powerUnit", power is null ? "" : power.Kind == ChannelKind.TorquePercent ? "% torque" : "kW");
        json.WriteStartArray("deliveries");
        foreach (DeliveryPath path in paths)
        {
            json.WriteStartObject();
            json.WriteNumber("number", path.Rotation.Number);
            WritePath(json, path);
            WriteToGo(json, ToGoCurves.Of(path, power), path.ContactTimeS, units);
            if (SwingCurves.Of(path, flight.Debrief.Swings.GetValueOrDefault(path.Rotation.Number)) is { } swing)
                WriteSwing(json, swing, path.ContactTimeS);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WritePath(Utf8JsonWriter json, DeliveryPath path)
    {
        int[] kept = Thinning.MinMax(path.TimeS, Columns, path.East, path.North, path.HeightM, path.LoadEast, path.LoadNorth);
        json.WriteStartObject("path");
        Column(json, "t", kept.Select(i => path.TimeS[i] - path.ContactTimeS));
        Column(json, "east", kept.Select(i => path.East[i]));
        Column(json, "north", kept.Select(i => path.North[i]));
        Column(json, "along", kept.Select(i => path.AlongM[i]));
        Column(json, "height", kept.Select(i => path.HeightM[i]));
        Column(json, "loadEast", kept.Select(i => path.LoadEast[i]));
        Column(json, "loadNorth", kept.Select(i => path.LoadNorth[i]));
        Column(json, "loadEastBand", kept.Select(i => path.LoadEastBandM[i]));
        Column(json, "loadNorthBand", kept.Select(i => path.LoadNorthBandM[i]));
        Column(json, "loadAlongBand", kept.Select(i => path.LoadAlongBandM[i]));
        Column(json, "loadAlong", kept.Select(i => path.LoadAlongM[i]));
        Column(json, "loadHeight", kept.Select(i => path.LoadHeightM[i]));
        json.WriteEndObject();
    }

    private static void WriteToGo(Utf8JsonWriter json, ToGoCurves curves, double contactS, DisplayUnits units)
    {
        int[] kept = Thinning.MinMax(curves.ToGoM, Columns, curves.SpeedMs, curves.SinkMs);
        json.WriteStartObject("toGo");
        // Ascending distance, as the plot wants it.
        Array.Reverse(kept);
        Column(json, "d", kept.Select(i => curves.ToGoM[i]));
        Column(json, "t", kept.Select(i => curves.TimeS[i] - contactS));
        Column(json, "speed", kept.Select(i => curves.SpeedMs[i] * units.SpeedPerMetreSecond));
        Column(json, "sink", kept.Select(i => curves.SinkMs[i] * units.SinkPerMetreSecond));
        if (curves.Power is { } power)
            Column(json, "power", kept.Select(i => power[i]));
        json.WriteEndObject();
    }

    private static void WriteSwing(Utf8JsonWriter json, SwingCurves swing, double contactS)
    {
        int[] kept = Thinning.MinMax(swing.TimeS, Columns, swing.ForeM, swing.RightM);
        json.WriteStartObject("swing");
        Column(json, "t", kept.Select(i => swing.TimeS[i] - contactS));
        Column(json, "fore", kept.Select(i => swing.ForeM[i]));
        Column(json, "foreLow", kept.Select(i => swing.ForeM[i] - swing.ForeBandM[i]));
        Column(json, "foreHigh", kept.Select(i => swing.ForeM[i] + swing.ForeBandM[i]));
        Column(json, "right", kept.Select(i => swing.RightM[i]));
        Column(json, "rightLow", kept.Select(i => swing.RightM[i] - swing.RightBandM[i]));
        Column(json, "rightHigh", kept.Select(i => swing.RightM[i] + swing.RightBandM[i]));
        json.WriteEndObject();
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
