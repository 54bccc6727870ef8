using System.Globalization;
using System.Text;

namespace Stillhook.Files.Records;

/// <summary>UTF-8 text without a byte order mark, formatted without a culture.</summary>
internal sealed class InvariantWriter : StreamWriter
{
    public InvariantWriter(Stream stream, string newLine) : base(stream, new UTF8Encoding(false), 1 << 16, leaveOpen: true) => NewLine = newLine;

    public override IFormatProvider FormatProvider => CultureInfo.InvariantCulture;

    public void Put(FormattableString text) => Write(text.ToString(CultureInfo.InvariantCulture));

    public void PutLine(FormattableString text) => WriteLine(text.ToString(CultureInfo.InvariantCulture));

    /// <summary>Milliseconds since 1970, the resolution of written times; null for a time that is none or beyond the calendar.</summary>
    public static long? Milliseconds(double timeS) =>
        double.IsFinite(timeS) && timeS is > -62_135_596_800 and < 253_402_300_799 ? (long)Math.Round(timeS * 1000) : null;

    /// <summary>2024-06-01T09:00:00.500Z.</summary>
    public static string Iso(long milliseconds) =>
        DateTimeOffset.FromUnixTimeMilliseconds(milliseconds).UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
