using System.Globalization;
using System.Text;

namespace Stillhook.Tests.Files.Live;

/// <summary>NMEA sentences made for tests.</summary>
internal static class Sentences
{
    /// <summary>2026-06-01T09:00:00Z, s since 1970.</summary>
    public const double Nine = 1_780_304_400;

    public static string Whole(string content)
    {
        int sum = 0;
        foreach (char c in content) sum ^= c;
        return string.Create(CultureInfo.InvariantCulture, $"${content}*{sum:X2}\r\n");
    }

    /// <summary>The n-th tenth of a second from nine o'clock, each a little further north.</summary>
    public static string Rmc(int n) => Whole($"GPRMC,{Clock(n)},A,{Place(n)},10.0,90.0,010626,,,A");

    public static string Gga(int n) => Whole($"GPGGA,{Clock(n)},{Place(n)},1,10,0.9,{500 + n},M,,M,,");

    public static string Load(int kg) => Whole(string.Create(CultureInfo.InvariantCulture, $"IIXDR,N,{kg * 9.80665:0.00},N,LOAD"));

    public static double TimeS(int n) => Nine + n / 10.0;

    public static byte[] Bytes(params IEnumerable<string> texts) => Encoding.ASCII.GetBytes(string.Concat(texts));

    private static string Clock(int n) => (new DateTime(2026, 6, 1, 9, 0, 0) + TimeSpan.FromMilliseconds(n * 100)).ToString("HHmmss.ff", CultureInfo.InvariantCulture);

    private static string Place(int n) => string.Create(CultureInfo.InvariantCulture, $"4630.{n % 10_000:0000},N,00800.0000,E");
}
