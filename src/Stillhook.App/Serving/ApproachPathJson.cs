using System.Text.Json;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.App.Serving;

/// <summary>The planned path as columns, for the cursor that runs through all pictures and for the view in space.</summary>
/// <remarks>Distances and heights in m, along the course, right of it, up from the spot's ground; speeds m/s; altimeter ft, rounded up to 20 ft as the marks are.</remarks>
internal static class ApproachPathJson
{
    private const double StepS = 0.25;

    /// <summary>Text of the path; null when no approach is offered.</summary>
    public static string? Of(ApproachPlan plan, Surroundings surroundings, DisplayUnits units)
    {
        if (plan is not { IsOffered: true, Way: { } way, Situation: { } s })
            return null;
        MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
            Write(json, plan, way, s, surroundings, units);
        return System.Text.Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length);
    }

    private static void Write(Utf8JsonWriter json, ApproachPlan plan, WayIn way, ApproachSituation s, Surroundings surroundings, DisplayUnits units)
    {
        LoadPath path = way.Path;
        int[] kept = Kept(path);
        json.WriteStartObject();
        json.WriteNumber("courseDeg", way.CourseDeg);
        json.WriteNumber("loadHeightM", path.Hanging.LoadHeightM);
        json.WriteNumber("rotorRadiusM", surroundings.RotorRadiusM);
        json.WriteNumber("startM", path.Shape.StartM);
        json.WriteNumber("stopS", Math.Round(path.Shape.StopS, 2));
        WriteUnits(json, units, plan.Power);
        Column(json, "timeS", 2, kept.Select(path.TimeS));
        Column(json, "hookAlongM", 2, kept.Select(i => path.Hook[i].East));
        Column(json, "hookRightM", 2, kept.Select(i => path.Hook[i].North));
        Column(json, "hookUpM", 2, kept.Select(i => path.Hook[i].Up));
        Column(json, "loadAlongM", 2, kept.Select(i => path.Load[i].East));
        Column(json, "loadRightM", 2, kept.Select(i => path.Load[i].North));
        Column(json, "loadUpM", 2, kept.Select(i => path.LoadHeightM[i]));
        Column(json, "groundMs", 2, kept.Select(i => path.SpeedMs[i]));
        Column(json, "airMs", 2, kept.Select(i => path.Hanging.AirspeedMs(path.SpeedMs[i])));
        Column(json, "sinkMs", 3, kept.Select(path.SinkMs));
        Column(json, "altimeterFt", 0, Readings(s, [.. kept.Select(i => path.Hook[i].Up)]));
        if (plan.Power is { } power)
            Column(json, "power", 1, kept.Select(i => power.TorquePercent is { } torque ? torque[i] : 100 * power.RequiredShare[i]));
        WriteMarks(json, plan);
        WriteSurroundings(json, s, surroundings);
        json.WriteEndObject();
    }

    private static int[] Kept(LoadPath path)
    {
        int every = Math.Max(1, (int)Math.Round(StepS / path.StepS));
        double far = 1.12 * path.Shape.StartM;
        List<int> kept = [.. Enumerable.Range(0, path.Count).Where(i => i % every == 0 && -path.Hook[i].East <= far)];
        if (kept[^1] != path.Count - 1)
            kept.Add(path.Count - 1);
        return [.. kept];
    }

    private static void WriteUnits(Utf8JsonWriter json, DisplayUnits units, ApproachPower? power)
    {
        json.WriteStartObject("units");
        json.WriteString("height", units.HeightUnit);
        json.WriteNumber("heightPerM", units.HeightPerMetre);
        json.WriteString("speed", units.SpeedUnit);
        json.WriteNumber("speedPerMs", units.SpeedPerMetreSecond);
        json.WriteString("sink", units.SinkUnit);
        json.WriteNumber("sinkPerMs", units.SinkPerMetreSecond);
        json.WriteNumber("sinkStep", units.SinkUnit == "m/s" ? 0.1 : 10);
        json.WriteString("power", power?.TorquePercent is null ? "% of what is available" : "% torque");
        json.WriteEndObject();
    }

    private static IEnumerable<double> Readings(ApproachSituation s, double[] hookM) =>
        GateReadings.At([.. hookM.Select(h => new GateGiven { Distance = Length.Zero, HeightAboveTarget = Length.FromMeters(h), GroundSpeed = Speed.Zero, Sink = Speed.Zero })],
            s.Site with { Elevation = Length.FromMeters(s.ElevationM) }, s.ContactLengthM, s.TemperatureC).Select(r => r.ReadingFt);

    private static void WriteMarks(Utf8JsonWriter json, ApproachPlan plan)
    {
        json.WriteStartArray("marks");
        foreach (ApproachGate gate in plan.Gates)
        {
            json.WriteStartObject();
            json.WriteString("name", gate.Name);
            json.WriteNumber("distanceM", gate.DistanceM);
            json.WriteNumber("hookUpM", Math.Round(gate.HookHeightM, 2));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteSurroundings(Utf8JsonWriter json, ApproachSituation s, Surroundings surroundings)
    {
        json.WriteStartArray("obstacles");
        foreach ((string name, Enu place, double height) in surroundings.Obstacles)
        {
            json.WriteStartObject();
            json.WriteString("name", name);
            Place(json, "at", place, surroundings.GroundM(place) ?? 0);
            json.WriteNumber("topM", height);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("wires");
        foreach ((string name, Enu from, Enu to, double? height, _) in surroundings.Wires)
        {
            json.WriteStartObject();
            json.WriteString("name", name);
            Place(json, "from", from, 0);
            Place(json, "to", to, 0);
            if (height is { } top)
                json.WriteNumber("topM", top);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("people");
        foreach ((string name, Enu place) in surroundings.People)
        {
            json.WriteStartObject();
            json.WriteString("name", name);
            Place(json, "at", place, surroundings.GroundM(place) ?? 0);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (s.Wind is { } wind)
            json.WriteNumber("windFromDeg", wind.FromDeg);
        if (surroundings.HasGround)
            WriteGround(json, surroundings);
    }

    /// <summary>Ground round the spot on an even grid, row by row from the south-west; a hole is null.</summary>
    private static void WriteGround(Utf8JsonWriter json, Surroundings surroundings)
    {
        const int half = 24;
        const double stepM = 25;
        json.WriteStartObject("ground");
        json.WriteNumber("stepM", stepM);
        json.WriteNumber("half", half);
        json.WriteStartArray("upM");
        for (int north = -half; north <= half; north++)
            for (int east = -half; east <= half; east++)
                if (surroundings.GroundM(new(east * stepM, north * stepM, 0)) is { } up)
                    json.WriteNumberValue(Math.Round(up, 1));
                else
                    json.WriteNullValue();
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Place(Utf8JsonWriter json, string name, Enu place, double groundM)
    {
        json.WriteStartArray(name);
        json.WriteNumberValue(Math.Round(place.East, 1));
        json.WriteNumberValue(Math.Round(place.North, 1));
        json.WriteNumberValue(Math.Round(groundM, 1));
        json.WriteEndArray();
    }

    private static void Column(Utf8JsonWriter json, string name, int decimals, IEnumerable<double> values)
    {
        json.WriteStartArray(name);
        foreach (double value in values)
            json.WriteNumberValue(Math.Round(value, decimals) + 0.0);
        json.WriteEndArray();
    }
}
