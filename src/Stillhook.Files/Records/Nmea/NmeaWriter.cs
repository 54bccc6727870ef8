using System.Globalization;
using System.Text;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Nmea;

/// <summary>Writes RMC, GGA, HDT and XDR sentences: six decimals of a minute (2 mm), the load as a force in newtons.</summary>
internal static class NmeaWriter
{
    private const double KnotMs = 1852.0 / 3600, StandardGravity = 9.80665;

    public static void Write(FlightRecord record, InvariantWriter text, FindingLog findings)
    {
        var channels = new ChannelsAtFixes(record);
        long? last = null;
        for (int i = 0; i < record.Count; i++)
        {
            if (InvariantWriter.Milliseconds(record.TimeS[i]) is not { } time)
            {
                if (!findings.CountedAgain("fix-without-time"))
                    findings.Warn("fix-without-time", i + 1, "Fixes without a time, which this format can't hold.", "They were left out; write GPX or CSV to keep them.");
                continue;
            }

            if (time == last)
            {
                if (!findings.CountedAgain("fix-repeats-time"))
                    findings.Warn("fix-repeats-time", i + 1, "Fixes that repeat the time before; this format has one fix for an instant.", "They were left out; write GPX or CSV to keep them.");
                continue;
            }

            last = time;
            WriteFix(record, i, time, channels, text);
        }

        channels.WordThinned(findings);
        if (record.SegmentStarts.Length > 1)
            findings.Note("segments-not-kept", null, "The format has no segments.", "The record is one piece.", record.SegmentStarts.Length);
    }

    /// <summary>Writes the sentences of one fix; fixes are asked in their order.</summary>
    public static void WriteFix(FlightRecord record, int i, long time, ChannelsAtFixes channels, InvariantWriter text)
    {
        DateTime utc = DateTimeOffset.FromUnixTimeMilliseconds(time).UtcDateTime;
        string clock = utc.ToString("HHmmss.fff", CultureInfo.InvariantCulture);
        string place = $"{Angle(record.LatitudeDeg[i], 2, 'N', 'S')},{Angle(record.LongitudeDeg[i], 3, 'E', 'W')}";
        string speed = Text(Value(record.GroundSpeedMs, i) / KnotMs, "0.000"), course = Text(Value(record.CourseDeg, i), "0.00");
        Sentence(text, $"GPRMC,{clock},A,{place},{speed},{course},{utc.ToString("ddMMyy", CultureInfo.InvariantCulture)},,,A");
        if (double.IsFinite(record.AltitudeM[i])) Sentence(text, $"GPGGA,{clock},{place},1,10,0.9,{Text(record.AltitudeM[i], "0.000")},M,,M,,");
        double heading = channels.At(ChannelKind.HeadingDeg, record.TimeS[i]);
        if (double.IsFinite(heading)) Sentence(text, $"HCHDT,{Text(heading, "0.00")},T");
        WriteTransducers(record, i, channels, text);
    }

    private static void WriteTransducers(FlightRecord record, int i, ChannelsAtFixes channels, InvariantWriter text)
    {
        var groups = new StringBuilder("IIXDR");
        double time = record.TimeS[i];
        Group("N", channels.At(ChannelKind.LoadKg, time) * StandardGravity, "N", "LOAD", "0.00");
        Group("G", channels.At(ChannelKind.TorquePercent, time), "", "TORQUE", "0.00");
        Group("G", channels.At(ChannelKind.PowerKw, time), "", "POWERKW", "0.00");
        Group("A", channels.At(ChannelKind.RollDeg, time), "D", "ROLL", "0.00");
        Group("A", channels.At(ChannelKind.PitchDeg, time), "D", "PITCH", "0.00");
        Group("S", channels.At(ChannelKind.HookOpen, time), "", "HOOK", "0");
        Group("G", Value(record.ClimbMs, i), "", "CLIMB", "0.000");
        Group("G", Value(record.PressureAltitudeM, i), "", "BAROALT", "0.00");
        if (groups.Length > 5) Sentence(text, groups.ToString());

        void Group(string type, double value, string unit, string name, string format)
        {
            if (double.IsFinite(value)) groups.Append(CultureInfo.InvariantCulture, $",{type},{Text(value, format)},{unit},{name}");
        }
    }

    private static string Angle(double degrees, int digits, char positive, char negative)
    {
        long units = (long)Math.Round(Math.Abs(degrees) * 60_000_000);
        string whole = (units / 60_000_000).ToString(digits == 2 ? "00" : "000", CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"{whole}{units % 60_000_000 / 1_000_000:00}.{units % 1_000_000:000000},{(degrees < 0 ? negative : positive)}");
    }

    private static string Text(double value, string format) => double.IsFinite(value) ? value.ToString(format, CultureInfo.InvariantCulture) : "";

    private static void Sentence(InvariantWriter text, string content)
    {
        int sum = 0;
        foreach (char c in content) sum ^= c;
        text.PutLine($"${content}*{sum:X2}");
    }

    private static double Value(double[] column, int i) => i < column.Length ? column[i] : double.NaN;
}
