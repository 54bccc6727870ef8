using System.Globalization;
using System.Xml;

namespace Stillhook.Bench.Baselines;

/// <summary>The obvious way to read GPX: the library's XML reader, double.Parse for place and height, DateTimeOffset.Parse for the time; kept in lists.</summary>
public static class XmlDouble
{
    public static int Points(string path)
    {
        List<double> latitude = [], longitude = [], height = [], time = [];
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        using var xml = XmlReader.Create(file, new() { DtdProcessing = DtdProcessing.Prohibit, IgnoreWhitespace = true });
        while (xml.Read())
        {
            if (xml.NodeType != XmlNodeType.Element)
                continue;
            switch (xml.LocalName)
            {
                case "trkpt":
                    latitude.Add(double.Parse(xml.GetAttribute("lat")!, CultureInfo.InvariantCulture));
                    longitude.Add(double.Parse(xml.GetAttribute("lon")!, CultureInfo.InvariantCulture));
                    break;
                case "ele" when xml.Read():
                    height.Add(double.Parse(xml.Value, CultureInfo.InvariantCulture));
                    break;
                case "time" when xml.Read():
                    time.Add(DateTimeOffset.Parse(xml.Value, CultureInfo.InvariantCulture).ToUnixTimeMilliseconds() / 1000.0);
                    break;
            }
        }
        return Math.Min(Math.Min(latitude.Count, longitude.Count), Math.Min(height.Count, time.Count));
    }
}
