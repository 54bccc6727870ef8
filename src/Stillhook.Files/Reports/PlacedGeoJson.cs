using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using Stillhook.Reporting;

namespace Stillhook.Files.Reports;

/// <summary>Placed loads and sites as GeoJSON [RFC-7946]: points in WGS 84, longitude first; a load without a position has no geometry.</summary>
public static class PlacedGeoJson
{
    /// <summary>Writes the features.</summary>
    public static void Write(Stream stream, CustomerReport report)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(report);
        using Utf8JsonWriter json = new(stream, new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        json.WriteString("type", "FeatureCollection");
        json.WriteStartArray("features");
        foreach (PlacedLoad load in report.Placed)
            Feature(json, load.Position, () => Load(json, load));
        foreach (ReportSite site in report.Sites)
            Feature(json, site.At, () => Site(json, site));
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Feature(Utf8JsonWriter json, Place? at, Action properties)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        if (at is { } place)
        {
            json.WriteStartObject("geometry");
            json.WriteString("type", "Point");
            json.WriteStartArray("coordinates");
            json.WriteNumberValue(Math.Round(place.LongitudeDeg, 6) + 0.0);
            json.WriteNumberValue(Math.Round(place.LatitudeDeg, 6) + 0.0);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        else
            json.WriteNull("geometry");
        json.WriteStartObject("properties");
        properties();
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void Load(Utf8JsonWriter json, PlacedLoad load)
    {
        json.WriteString("kind", "load");
        json.WriteString("load", load.Number);
        json.WriteString("name", load.Name);
        if (load.MassKg is { } kg)
            json.WriteNumber("massKg", Math.Round(kg, 1));
        else
            json.WriteNull("massKg");
        json.WriteString("massKnownBy", PlanJson.Camel(load.MassBy));
        json.WriteString("placedAt", load.At?.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture));
        json.WriteString("site", load.Site);
        json.WriteBoolean("onLoadList", load.OnList);
    }

    private static void Site(Utf8JsonWriter json, ReportSite site)
    {
        json.WriteString("kind", "site");
        json.WriteString("name", site.Name);
        json.WriteString("use", PlanJson.Camel(site.Use));
        json.WriteNumber("loadsPlaced", site.Placed);
    }
}
