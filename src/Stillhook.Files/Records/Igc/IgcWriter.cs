using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Igc;

/// <summary>Writes IGC with further decimals of position (LAD, LOD) and time (TDS); a new segment repeats the date header.</summary>
internal static class IgcWriter
{
    private const int FirstExtensionByte = 36;

    private static readonly (string Code, int Length)[] s_extensions =
    [
        ("LAD", 3), ("LOD", 3), ("TDS", 3), ("GSP", 5), ("TRT", 5), ("HDT", 5), ("XLD", 6), ("XTQ", 5), ("XPW", 5), ("XRL", 6), ("XPT", 6), ("XHK", 1), ("XVS", 5),
    ];

    public static void Write(FlightRecord record, InvariantWriter text, FindingLog findings)
    {
        var channels = new ChannelsAtFixes(record);
        text.WriteLine("AXXXSTH");
        bool begun = false;
        long day = 0, lastClock = 0;
        int segment = 0;
        for (int i = 0; i < record.Count; i++)
        {
            bool starts = segment < record.SegmentStarts.Length && record.SegmentStarts[segment] <= i;
            if (starts) segment++;
            if (InvariantWriter.Milliseconds(record.TimeS[i]) is not { } time)
            {
                if (!findings.CountedAgain("fix-without-time"))
                    findings.Warn("fix-without-time", i + 1, "Fixes without a time, which this format can't hold.", "They were left out; write GPX or CSV to keep them.");
                continue;
            }

            long timeDay = Math.DivRem(time, 86_400_000L, out long clock);
            if (clock < 0) (timeDay, clock) = (timeDay - 1, clock + 86_400_000);
            long implied = clock < lastClock - 43_200_000 ? day + 1 : day;
            if (!begun || starts || implied != timeDay)
            {
                text.WriteLine("HFDTEDATE:" + DateTime.UnixEpoch.AddDays(timeDay).ToString("ddMMyy", CultureInfo.InvariantCulture));
                if (!begun) WriteExtensionList(text);
                begun = true;
            }

            (day, lastClock) = (timeDay, clock);
            WriteFix(record, i, clock, channels, text);
        }

        channels.WordThinned(findings);
        if (record.Count > 0) findings.Note("whole-metres", null, "The format holds altitudes in whole metres.", "Altitudes were rounded.", record.Count);
    }

    private static void WriteExtensionList(InvariantWriter text)
    {
        text.Put($"I{s_extensions.Length:00}");
        int start = FirstExtensionByte;
        foreach ((string code, int length) in s_extensions)
        {
            text.Put($"{start:00}{start + length - 1:00}{code}");
            start += length;
        }

        text.WriteLine();
    }

    private static void WriteFix(FlightRecord record, int i, long clock, ChannelsAtFixes channels, InvariantWriter text)
    {
        double time = record.TimeS[i];
        (int latitude, int latitudeMinutes, int latitudeMore) = Split(record.LatitudeDeg[i]);
        (int longitude, int longitudeMinutes, int longitudeMore) = Split(record.LongitudeDeg[i]);
        text.Put($"B{clock / 3_600_000:00}{clock / 60_000 % 60:00}{clock / 1000 % 60:00}");
        text.Put($"{latitude:00}{latitudeMinutes:00000}{(record.LatitudeDeg[i] < 0 ? 'S' : 'N')}{longitude:000}{longitudeMinutes:00000}{(record.LongitudeDeg[i] < 0 ? 'W' : 'E')}A");
        text.Write(Field(i < record.PressureAltitudeM.Length ? record.PressureAltitudeM[i] : 0, 5, '0'));
        text.Write(Field(record.AltitudeM[i], 5, '0'));
        text.Put($"{latitudeMore:000}{longitudeMore:000}{clock % 1000:000}");
        text.Write(Field(Value(record.GroundSpeedMs, i) * 360, 5, '-'));
        text.Write(Field(Value(record.CourseDeg, i) * 100 % 36_000, 5, '-'));
        text.Write(Field(channels.At(ChannelKind.HeadingDeg, time) * 100 % 36_000, 5, '-'));
        text.Write(Field(channels.At(ChannelKind.LoadKg, time) * 10, 6, '-'));
        text.Write(Field(channels.At(ChannelKind.TorquePercent, time) * 10, 5, '-'));
        text.Write(Field(channels.At(ChannelKind.PowerKw, time) * 10, 5, '-'));
        text.Write(Field(channels.At(ChannelKind.RollDeg, time) * 100, 6, '-'));
        text.Write(Field(channels.At(ChannelKind.PitchDeg, time) * 100, 6, '-'));
        text.Write(Field(channels.At(ChannelKind.HookOpen, time), 1, '-'));
        text.WriteLine(Field(Value(record.ClimbMs, i) * 100, 5, '-'));
    }

    // Whole degrees, thousandths of a minute, and the millionths of a minute below them.
    private static (int Degrees, int Minutes, int More) Split(double degrees)
    {
        long units = (long)Math.Round(Math.Abs(degrees) * 60_000_000);
        return ((int)(units / 60_000_000), (int)(units % 60_000_000 / 1000), (int)(units % 1000));
    }

    // A whole number in a field of fixed length; what is missing or too large for it is written as blanks of the field.
    private static string Field(double value, int length, char missing)
    {
        double rounded = Math.Round(value);
        if (!double.IsFinite(rounded) || Math.Abs(rounded) >= Math.Pow(10, rounded < 0 ? length - 1 : length)) return new string(missing, length);
        string digits = Math.Abs(rounded).ToString("0", CultureInfo.InvariantCulture);
        return rounded < 0 ? "-" + digits.PadLeft(length - 1, '0') : digits.PadLeft(length, '0');
    }

    private static double Value(double[] column, int i) => i < column.Length ? column[i] : double.NaN;
}
