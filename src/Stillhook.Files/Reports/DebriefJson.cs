using System.Globalization;
using System.Text.Json;
using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Files.Reports;

/// <summary>The debrief for machines. Keys carry their unit; null means not assessable; times are ISO 8601 UTC. See docs/debrief-json.md.</summary>
public static class DebriefJson
{
    /// <summary>Version of the shape; it rises when a key changes its meaning or goes away.</summary>
    public const int Version = 1;

    /// <summary>Writes the debrief and the advice for the next approach.</summary>
    public static void Write(Stream stream, Debrief debrief, NextApproach next)
    {
        using Utf8JsonWriter json = new(stream, new() { Indented = true });
        json.WriteStartObject();
        json.WriteString("schema", "stillhook-debrief");
        json.WriteNumber("version", Version);
        json.WriteString("record", debrief.RecordName);
        json.WriteString("caution", Cautions.Debrief);
        WriteQuality(json, debrief.Quality);
        WriteSetup(json, debrief.Setup);
        WriteRotations(json, debrief);
        json.WriteString("noRotationsBecause", debrief.NoRotationsBecause);
        WriteNext(json, next);
        WriteFindings(json, debrief.Findings);
        json.WriteEndObject();
    }

    private static void WriteQuality(Utf8JsonWriter json, QualityVerdict quality)
    {
        json.WriteStartObject("quality");
        Number(json, "medianStepS", quality.MedianStepS, 3);
        Number(json, "durationS", quality.DurationS, 3);
        json.WriteNumber("gaps", quality.GapCount);
        Number(json, "positionNoiseM", quality.PositionNoiseM, 3);
        Number(json, "altitudeNoiseM", quality.AltitudeNoiseM, 3);
        Number(json, "altitudeStepM", quality.AltitudeStepM, 3);
        json.WriteBoolean("hasSpeed", quality.HasSpeed);
        json.WriteBoolean("hasLoadCell", quality.HasLoadCell);
        Texts(json, "canJudge", quality.CanJudge);
        Texts(json, "cannotJudge", quality.CannotJudge);
        json.WriteEndObject();
    }

    private static void WriteSetup(Utf8JsonWriter json, LiftSetup setup)
    {
        json.WriteStartObject("setup");
        Given("lineM", setup.Line.Value.Meters, setup.Line.From);
        Given("riggingM", setup.Rigging.Value.Meters, setup.Rigging.From);
        Given("loadHeightM", setup.LoadHeight.Value.Meters, setup.LoadHeight.From);
        Given("loadKg", setup.Load.Value.Kilograms, setup.Load.From);
        Given("dragAreaM2", setup.DragArea.Value.SquareMeters, setup.DragArea.From);
        Given("aircraftKg", setup.Aircraft.Value.Kilograms, setup.Aircraft.From);
        Given("antennaAboveHookM", setup.AntennaAboveHook.Value.Meters, setup.AntennaAboveHook.From);
        if (setup.Wind is { } wind)
        {
            Given("windFromDeg", wind.Value.FromDeg, wind.From);
            Given("windMs", wind.Value.Speed.MetersPerSecond, wind.From);
        }
        json.WriteEndObject();

        void Given(string key, double value, Origin from)
        {
            json.WriteStartObject(key);
            Number(json, "value", value, 4);
            json.WriteString("from", Camel(from.ToString()));
            json.WriteEndObject();
        }
    }

    private static void WriteRotations(Utf8JsonWriter json, Debrief debrief)
    {
        json.WriteStartArray("rotations");
        foreach (Rotation rotation in debrief.Rotations)
            WriteRotation(json, rotation, debrief.Track);
        json.WriteEndArray();
    }

    private static void WriteRotation(Utf8JsonWriter json, Rotation rotation, Track? track)
    {
        Delivery? d = rotation.Delivery;
        json.WriteStartObject();
        json.WriteNumber("number", rotation.Number);
        json.WriteString("confidence", Camel(rotation.Confidence.ToString()));
        Time(json, "pickupTime", rotation.PickupTimeS);
        Time(json, "approachStartTime", rotation.ApproachStartTimeS);
        Time(json, "stopTime", rotation.StopTimeS);
        Time(json, "deliveryTime", rotation.DeliveryTimeS);
        Time(json, "releaseTime", rotation.ReleaseTimeS);
        Time(json, "clearTime", rotation.ClearTimeS);
        Number(json, "deliveryTimeErrorS", rotation.DeliveryTimeErrorS, 3);
        Place(json, "pickup", rotation.PickupEnu, track);
        Place(json, "delivery", rotation.DeliveryEnu, track);
        Number(json, "startHeightM", d?.StartHeightM, 3);
        Number(json, "startDistanceM", d?.StartDistanceM, 3);
        Number(json, "glideDeg", d?.GlideDeg, 4);
        Number(json, "entrySpeedMs", d?.EntrySpeedMs, 4);
        Number(json, "peakDecelMs2", d?.PeakDecelMs2, 4);
        Number(json, "peakDecelDistanceM", d?.PeakDecelDistanceM, 3);
        Number(json, "overshootM", d?.OvershootM, 3);
        Number(json, "stopShortM", d?.StopShortM, 3);
        Number(json, "lineUpErrorM", d?.LineUpErrorM, 3);
        Number(json, "lateralMissM", d?.LateralMissM, 3);
        Number(json, "approachCourseDeg", d?.ApproachCourseDeg, 2);
        Band(json, "swing50mM", d?.Swing50m);
        Band(json, "swingAfterStopM", d?.SwingAfterStopM);
        Band(json, "swingContactM", d?.SwingContactM);
        Band(json, "swingMaxM", d?.SwingMaxM);
        Band(json, "swingShownM", d?.SwingShownM);
        Number(json, "hoverTimeS", d?.HoverTimeS, 3);
        Number(json, "sinkLast15Ms", d?.SinkLast15Ms, 4);
        Number(json, "cycleTimeS", d?.CycleTimeS, 3);
        json.WriteNumber("goArounds", rotation.GoArounds);
        Number(json, "smoothness", d?.Smoothness, 4);
        Number(json, "corrections", d?.Corrections, 0);
        Number(json, "tries", d?.Tries, 0);
        Number(json, "secondsOverPeople", d?.SecondsOverPeople, 2);
        json.WriteString("mainFault", Camel((d?.MainFault ?? Fault.None).ToString()));
        Texts(json, "faults", (d?.Faults ?? []).Select(f => Camel(f.ToString())));
        WriteGates(json, d?.Gates ?? []);
        Texts(json, "notJudged", rotation.NotJudged);
        json.WriteEndObject();
    }

    private static void WriteGates(Utf8JsonWriter json, IReadOnlyList<GatePassage> gates)
    {
        json.WriteStartArray("gates");
        foreach (GatePassage gate in gates)
        {
            json.WriteStartObject();
            Number(json, "distanceM", gate.DistanceM, 1);
            Time(json, "time", gate.TimeS);
            Number(json, "heightAboveTargetM", gate.HeightAboveTargetM, 3);
            Number(json, "groundSpeedMs", gate.GroundSpeedMs, 4);
            Number(json, "sinkMs", gate.SinkMs, 4);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteNext(Utf8JsonWriter json, NextApproach next)
    {
        json.WriteStartObject("next");
        json.WriteString("line", next.Line);
        json.WriteBoolean("conditionsMoved", next.ConditionsMoved);
        json.WriteStartArray("changes");
        foreach (Adjustment change in next.Changes)
        {
            json.WriteStartObject();
            json.WriteString("knob", Camel(change.Knob.ToString()));
            Number(json, "change", change.Change, 4);
            json.WriteString("sentence", change.Sentence);
            json.WriteString("evidence", change.Evidence);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Texts(json, "stopped", next.Stopped);
        json.WriteString("evidence", next.Evidence);
        json.WriteEndObject();
    }

    private static void WriteFindings(Utf8JsonWriter json, IReadOnlyList<Finding> findings)
    {
        json.WriteStartArray("findings");
        foreach (Finding finding in findings)
        {
            json.WriteStartObject();
            json.WriteString("severity", Camel(finding.Severity.ToString()));
            json.WriteString("code", finding.Code);
            if (finding.Line is { } line)
                json.WriteNumber("line", line);
            else
                json.WriteNull("line");
            json.WriteNumber("count", finding.Count);
            json.WriteString("what", finding.What);
            json.WriteString("done", finding.Done);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string key, double? value, int decimals)
    {
        if (value is { } v && double.IsFinite(v))
            json.WriteNumber(key, Math.Round(v, decimals));
        else
            json.WriteNull(key);
    }

    private static void Band(Utf8JsonWriter json, string key, Banded? value)
    {
        Number(json, key, value?.Value, 3);
        Number(json, key + "Low", value?.Low, 3);
        Number(json, key + "High", value?.High, 3);
    }

    private static void Time(Utf8JsonWriter json, string key, double? timeS)
    {
        if (timeS is { } t && double.IsFinite(t))
            json.WriteString(key, UtcText.Iso(t));
        else
            json.WriteNull(key);
    }

    private static void Place(Utf8JsonWriter json, string key, Enu? place, Track? track)
    {
        if (place is not { } p || track is null)
        {
            json.WriteNull(key);
            return;
        }
        (double latitude, double longitude, _) = track.Frame.ToGeodetic(p);
        json.WriteStartObject(key);
        Number(json, "lat", latitude, 7);
        Number(json, "lon", longitude, 7);
        json.WriteEndObject();
    }

    private static void Texts(Utf8JsonWriter json, string key, IEnumerable<string> texts)
    {
        json.WriteStartArray(key);
        foreach (string text in texts)
            json.WriteStringValue(text);
        json.WriteEndArray();
    }

    private static string Camel(string name) => char.ToLowerInvariant(name[0]) + name[1..];
}
