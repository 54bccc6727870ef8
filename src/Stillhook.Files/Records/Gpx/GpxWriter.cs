using System.Security;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Gpx;

/// <summary>Writes GPX 1.1; what GPX has no element for goes into extensions of our own namespace.</summary>
internal static class GpxWriter
{
    public static void Write(FlightRecord record, InvariantWriter text, FindingLog findings)
    {
        var channels = new ChannelsAtFixes(record);
        text.WriteLine("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
        text.WriteLine("<gpx version=\"1.1\" creator=\"Stillhook\" xmlns=\"http://www.topografix.com/GPX/1/1\" xmlns:s=\"urn:stillhook:record:1\">");
        text.PutLine($"<trk><name>{SecurityElement.Escape(record.Name)}</name>");
        int segment = 0;
        for (int i = 0; i < record.Count; i++)
        {
            if (segment < record.SegmentStarts.Length ? record.SegmentStarts[segment] == i : i == 0)
            {
                text.WriteLine(i == 0 ? "<trkseg>" : "</trkseg><trkseg>");
                segment++;
            }

            WritePoint(record, i, channels, text);
        }

        text.WriteLine(record.Count > 0 ? "</trkseg></trk></gpx>" : "</trk></gpx>");
        channels.WordThinned(findings);
    }

    private static void WritePoint(FlightRecord record, int i, ChannelsAtFixes channels, InvariantWriter text)
    {
        text.Put($"<trkpt lat=\"{record.LatitudeDeg[i]:0.0########}\" lon=\"{record.LongitudeDeg[i]:0.0########}\">");
        if (double.IsFinite(record.AltitudeM[i])) text.Put($"<ele>{record.AltitudeM[i]:0.0##}</ele>");
        if (InvariantWriter.Milliseconds(record.TimeS[i]) is { } time) text.Put($"<time>{InvariantWriter.Iso(time)}</time>");
        bool open = false;
        Put("speed", Value(record.GroundSpeedMs, i));
        Put("course", Value(record.CourseDeg, i));
        Put("climbMs", Value(record.ClimbMs, i));
        Put("pressureAltitudeM", Value(record.PressureAltitudeM, i));
        Put("loadKg", channels.At(ChannelKind.LoadKg, record.TimeS[i]));
        Put("torquePercent", channels.At(ChannelKind.TorquePercent, record.TimeS[i]));
        Put("powerKw", channels.At(ChannelKind.PowerKw, record.TimeS[i]));
        Put("rollDeg", channels.At(ChannelKind.RollDeg, record.TimeS[i]));
        Put("pitchDeg", channels.At(ChannelKind.PitchDeg, record.TimeS[i]));
        Put("headingDeg", channels.At(ChannelKind.HeadingDeg, record.TimeS[i]));
        Put("hookOpen", channels.At(ChannelKind.HookOpen, record.TimeS[i]));
        text.WriteLine(open ? "</extensions></trkpt>" : "</trkpt>");

        void Put(string name, double value)
        {
            if (!double.IsFinite(value)) return;
            if (!open) text.Write("<extensions>");
            open = true;
            text.Put($"<s:{name}>{value:0.###}</s:{name}>");
        }
    }

    private static double Value(double[] column, int i) => i < column.Length ? column[i] : double.NaN;
}
