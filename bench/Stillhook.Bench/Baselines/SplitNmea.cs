using System.Globalization;

namespace Stillhook.Bench.Baselines;

/// <summary>The obvious way to read NMEA 0183: a string a line, Split, Parse. No checksum is looked at.</summary>
public static class SplitNmea
{
    public static double Sum(string path)
    {
        double sum = 0;
        foreach (string line in File.ReadLines(path))
        {
            string[] field = line.Split(',');
            if (field[0] == "$GPRMC")
                sum += Number(field[1]) + Number(field[3]) + Number(field[5]) + Number(field[7]) + Number(field[8]) + Number(field[9]);
            else if (field[0] == "$GPGGA")
                sum += Number(field[1]) + Number(field[2]) + Number(field[4]) + Number(field[6]) + Number(field[8]) + Number(field[9]);
        }
        return sum;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
