namespace Stillhook.Files.Records;

/// <summary>Times from bytes to seconds since 1970-01-01T00:00:00 UTC.</summary>
internal static class ByteTimes
{
    /// <summary>Seconds of a day.</summary>
    public const double DayS = 86_400;

    /// <summary>1990-01-01, s since 1970 UTC: before there were satellite receivers, so an earlier time is no time of day but a clock that was not set.</summary>
    public const double Year1990S = 631_152_000;

    /// <summary>
    /// ISO 8601 date and time: <c>2024-06-01T09:00:00.5Z</c>, also with a space for T, slashes or no seconds, and with an offset (+02:00, +0200, +02).
    /// </summary>
    /// <returns>Seconds since 1970 UTC; NaN when the text is no such time. Without Z or an offset (<c>hasZone</c> false) it is taken as UTC.</returns>
    public static double FromIso(ReadOnlySpan<byte> text, out bool hasZone)
    {
        hasZone = false;
        text = ByteNumbers.Trim(text);
        if (text.Length >= 20 && text[10] == 'T' && text[^1] == 'Z' && text[4] == '-' && text[7] == '-' && text[13] == ':' && text[16] == ':')
        {
            hasZone = true;
            return FromUsualIso(text);
        }

        if (text.Length < 10 || text[4] != text[7] || text[4] is not ((byte)'-' or (byte)'/')) return double.NaN;
        double day = FromDate(ByteNumbers.ToDigits(text[..4]), ByteNumbers.ToDigits(text.Slice(5, 2)), ByteNumbers.ToDigits(text.Slice(8, 2)));
        if (text.Length == 10) return day;
        if (text[10] is not ((byte)'T' or (byte)'t' or (byte)' ')) return double.NaN;
        ReadOnlySpan<byte> clock = text[11..];
        double offset = 0;
        int zone = clock.IndexOfAny("Zz+-"u8);
        if (zone >= 0)
        {
            hasZone = true;
            offset = Offset(clock[zone..]);
            clock = clock[..zone];
        }

        return day + (FromClock(clock) - offset);
    }

    // The form that nearly every recorder writes, 2024-06-01T09:00:00Z with or without a fraction.
    private static double FromUsualIso(ReadOnlySpan<byte> text)
    {
        double day = FromDate(Two(text, 0) * 100 + Two(text, 2), Two(text, 5), Two(text, 8));
        int hour = Two(text, 11), minute = Two(text, 14), second = Two(text, 17);
        if (hour is < 0 or > 24 || minute is < 0 or > 59 || second is < 0 or > 60) return double.NaN;
        double fraction = 0;
        if (text.Length > 20)
        {
            if (text[19] != '.') return double.NaN;
            fraction = ByteNumbers.ToDouble(text[19..^1]);
        }

        return day + (hour * 3600 + minute * 60 + second + fraction);
    }

    // Two digits; far below zero when they are none.
    private static int Two(ReadOnlySpan<byte> text, int at)
    {
        uint tens = unchecked((uint)(text[at] - '0')), ones = unchecked((uint)(text[at + 1] - '0'));
        return tens <= 9 && ones <= 9 ? (int)(tens * 10 + ones) : -100_000;
    }

    /// <summary><c>hh:mm</c>, <c>hh:mm:ss</c> or <c>hh:mm:ss.fff</c> as seconds of the day; NaN for anything else.</summary>
    public static double FromClock(ReadOnlySpan<byte> text)
    {
        text = text.Trim(" \t"u8);
        if (text.Length >= 4 && text[1] == ':') return FromClockParts(text[..1], text[2..]);
        return text.Length >= 5 && text[2] == ':' ? FromClockParts(text[..2], text[3..]) : double.NaN;
    }

    private static double FromClockParts(ReadOnlySpan<byte> hourText, ReadOnlySpan<byte> rest)
    {
        int hour = ByteNumbers.ToDigits(hourText), minute = ByteNumbers.ToDigits(rest[..2]);
        double second = 0;
        if (rest.Length > 2)
        {
            if (rest[2] != ':' || rest.Length < 5) return double.NaN;
            second = ByteNumbers.ToDouble(rest[3..]);
        }

        return hour is >= 0 and <= 24 && minute is >= 0 and < 60 && second is >= 0 and < 61 ? hour * 3600 + minute * 60 + second : double.NaN;
    }

    /// <summary><c>hhmmss</c> or <c>hhmmss.fff</c> as seconds of the day; NaN for anything else.</summary>
    public static double FromCompactClock(ReadOnlySpan<byte> text)
    {
        if (text.Length < 6) return double.NaN;
        int clock = ByteNumbers.ToDigits(text[..6]);
        int hour = clock / 10_000, minute = clock / 100 % 100, second = clock % 100;
        if (clock < 0 || hour > 23 || minute > 59 || second > 60) return double.NaN;
        double fraction = text.Length > 6 ? ByteNumbers.ToDouble(text[6..]) : 0;
        return fraction is >= 0 and < 1 || text.Length == 7 && text[6] == '.' ? hour * 3600 + minute * 60 + (second + (double.IsNaN(fraction) ? 0 : fraction)) : double.NaN;
    }

    /// <summary><c>ddmmyy</c> as seconds since 1970 of that day's start; years 80..99 are of the last century; NaN for anything else.</summary>
    public static double FromCompactDate(ReadOnlySpan<byte> text)
    {
        int date = text.Length == 6 ? ByteNumbers.ToDigits(text) : -1;
        if (date < 0) return double.NaN;
        int year = date % 100;
        return FromDate(year + (year >= 80 ? 1900 : 2000), date / 100 % 100, date / 10_000);
    }

    /// <summary>Seconds since 1970 of a day's start in the Gregorian calendar; NaN when there is no such day.</summary>
    public static double FromDate(int year, int month, int day)
    {
        if (year is < 1 or > 9999 || month is < 1 or > 12 || day < 1 || day > 28 && day > DateTime.DaysInMonth(year, month)) return double.NaN;
        // Days since 1970 by the era method, from memory; checked against DateTime by test.
        int y = month <= 2 ? year - 1 : year;
        int era = y / 400, yearOfEra = y - era * 400;
        int dayOfYear = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
        int dayOfEra = yearOfEra * 365 + yearOfEra / 4 - yearOfEra / 100 + dayOfYear;
        return (era * 146_097L + dayOfEra - 719_468) * DayS;
    }

    private static double Offset(ReadOnlySpan<byte> zone)
    {
        if (zone[0] is (byte)'Z' or (byte)'z') return zone.Length == 1 ? 0 : double.NaN;
        int sign = zone[0] == '-' ? -1 : 1;
        zone = zone[1..];
        if (zone.Length < 2) return double.NaN;
        int hours = ByteNumbers.ToDigits(zone[..2]);
        ReadOnlySpan<byte> rest = zone[2..];
        if (rest.Length > 0 && rest[0] == ':') rest = rest[1..];
        int minutes = rest.Length == 0 ? 0 : ByteNumbers.ToDigits(rest);
        return hours is >= 0 and <= 15 && minutes is >= 0 and < 60 ? sign * (hours * 3600 + minutes * 60) : double.NaN;
    }
}
