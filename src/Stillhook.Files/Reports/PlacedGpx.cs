using System.Globalization;
using System.Xml;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>Placed loads and sites as GPX 1.1 way points, for hand-held receivers and maps. Loads without a position are left out.</summary>
public static class PlacedGpx
{
    private const string Namespace = "http://www.topografix.com/GPX/1/1";

    /// <summary>Writes the way points; the document bears the date of the report.</summary>
    public static void Write(Stream stream, CustomerReport report)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(report);
        using XmlWriter xml = XmlWriter.Create(stream, new() { Indent = true, NewLineChars = "\n", Encoding = new System.Text.UTF8Encoding(false) });
        xml.WriteStartElement("gpx", Namespace);
        xml.WriteAttributeString("version", "1.1");
        xml.WriteAttributeString("creator", "Stillhook");
        xml.WriteStartElement("metadata", Namespace);
        Element(xml, "name", report.Job ?? "Placed loads");
        Element(xml, "time", Utc(report.UpTo));
        xml.WriteEndElement();
        foreach (PlacedLoad load in report.Placed)
            if (load.Position is { } at)
                WayPoint(xml, at, load.At, load.Number ?? "load", Description(load, report), "placed load");
        foreach (ReportSite site in report.Sites)
            WayPoint(xml, site.At, null, site.Name, null, site.Use switch { Debriefing.SiteUse.PickUp => "pick-up site", Debriefing.SiteUse.Delivery => "delivery site", _ => "base" });
        xml.WriteEndElement();
    }

    // The schema has the elements in this order: time, name, desc, type.
    private static void WayPoint(XmlWriter xml, Place at, DateTimeOffset? time, string name, string? description, string type)
    {
        xml.WriteStartElement("wpt", Namespace);
        xml.WriteAttributeString("lat", ReportWords.Number(at.LatitudeDeg, 6));
        xml.WriteAttributeString("lon", ReportWords.Number(Longitude(at.LongitudeDeg), 6));
        if (time is { } t)
            Element(xml, "time", Utc(t));
        Element(xml, "name", name);
        if (description is not null)
            Element(xml, "desc", description);
        Element(xml, "type", type);
        xml.WriteEndElement();
    }

    // The schema's longitudes reach from -180 up to and without 180.
    private static double Longitude(double degrees) => Math.Round(degrees, 6) >= 180 ? degrees - 360 : degrees;

    private static string Description(PlacedLoad load, CustomerReport report)
    {
        string mass = load.MassKg is null ? "mass not known" : $"{ReportWords.Mass(load.MassKg, report.Units)} {ReportWords.MassUnit(report.Units)} ({ReportWords.Of(load.MassBy)})";
        return string.Join(", ", new[] { load.Name, mass, load.Site }.OfType<string>());
    }

    private static void Element(XmlWriter xml, string name, string text) => xml.WriteElementString(name, Namespace, XmlText.Clean(text));

    private static string Utc(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
