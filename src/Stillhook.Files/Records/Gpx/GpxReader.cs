using System.Text;
using System.Xml;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Gpx;

/// <summary>Reads GPX 1.0 and 1.1: plain UTF-8 by the byte scanner, every other encoding by the XML reader of the platform.</summary>
internal static class GpxReader
{
    /// <summary>Reads a document; where its head doesn't show UTF-8 the XML reader finds the encoding out.</summary>
    public static FlightRecord Read(Stream stream, string name, FindingLog findings, IProgress<long>? progress, bool plainUtf8)
    {
        RecordBuilder record;
        GpxPoints points;
        if (plainUtf8)
        {
            var scanner = new XmlScanner(stream, progress);
            record = new RecordBuilder(findings, () => scanner.Line);
            points = new GpxPoints(record);
            XmlFault? fault = scanner.Read(points);
            if (fault is not null) WordFault(fault, findings);
        }
        else
        {
            (record, points) = ReadXml(stream, findings, progress);
        }

        WordDocument(points, findings);
        return record.Build(name, "GPX");
    }

    private static (RecordBuilder Record, GpxPoints Points) ReadXml(Stream stream, FindingLog findings, IProgress<long>? progress)
    {
        // Namespaces are off because recorders use prefixes that they never declare; points are known by their local names.
        XmlTextReader xml;
        try
        {
            // The first characters are decoded here already.
            xml = new XmlTextReader(new CountedStream(stream, progress)) { Namespaces = false, DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, WhitespaceHandling = WhitespaceHandling.Significant };
        }
        catch (XmlException)
        {
            WordFault(new XmlFault(XmlFaultKind.Malformed, 1, "bytes that don't fit the encoding"), findings);
            var none = new RecordBuilder(findings, () => null);
            return (none, new GpxPoints(none));
        }

        using (xml) return ReadXml(xml, findings);
    }

    private static (RecordBuilder Record, GpxPoints Points) ReadXml(XmlTextReader xml, FindingLog findings)
    {
        var record = new RecordBuilder(findings, () => Math.Max(1, xml.LineNumber));
        var points = new GpxPoints(record);
        try
        {
            var bytes = new byte[256];
            while (xml.Read()) Hand(xml, points, ref bytes);
        }
        catch (XmlException e)
        {
            bool dtd = xml.NodeType == XmlNodeType.DocumentType || e.Message.Contains("DTD", StringComparison.Ordinal);
            if (e.Message.Contains("Root element is missing", StringComparison.Ordinal)) return (record, points);
            XmlFaultKind kind = dtd ? XmlFaultKind.Dtd
                : e.Message.Contains("nexpected end of file", StringComparison.Ordinal) || e.Message.Contains("unclosed", StringComparison.Ordinal) ? XmlFaultKind.Cut
                : points.RootSeen && e.Message.Contains("multiple root elements", StringComparison.Ordinal) ? XmlFaultKind.Trailing
                : XmlFaultKind.Malformed;
            WordFault(new XmlFault(kind, Math.Max(1, e.LineNumber), "the text is not well-formed"), findings);
        }
        catch (DecoderFallbackException)
        {
            WordFault(new XmlFault(XmlFaultKind.Malformed, Math.Max(1, xml.LineNumber), "bytes that don't fit the encoding"), findings);
        }

        return (record, points);
    }

    private static void Hand(XmlTextReader xml, GpxPoints points, ref byte[] bytes)
    {
        switch (xml.NodeType)
        {
            case XmlNodeType.Element:
                bool empty = xml.IsEmptyElement;
                byte[] latitude = Bytes(xml.GetAttribute("lat")), longitude = Bytes(xml.GetAttribute("lon"));
                ReadOnlySpan<byte> name = LocalName(xml.Name, ref bytes);
                points.Start(name, latitude, longitude);
                if (empty) points.End(name);
                break;
            case XmlNodeType.EndElement:
                points.End(LocalName(xml.Name, ref bytes));
                break;
            case XmlNodeType.CDATA or XmlNodeType.Comment:
                points.Hide(Bytes(xml.Value));
                if (xml.NodeType == XmlNodeType.CDATA && points.WantsText) points.Text(Bytes(xml.Value));
                break;
            case XmlNodeType.Text or XmlNodeType.SignificantWhitespace when points.WantsText:
                points.Text(Bytes(xml.Value));
                break;
        }
    }

    private static byte[] Bytes(string? text) => text is null ? [] : Encoding.UTF8.GetBytes(text);

    private static ReadOnlySpan<byte> LocalName(string name, ref byte[] bytes)
    {
        if (bytes.Length < name.Length * 3) bytes = new byte[name.Length * 3];
        ReadOnlySpan<byte> full = bytes.AsSpan(0, Encoding.UTF8.GetBytes(name, bytes));
        return full[(full.LastIndexOf((byte)':') + 1)..];
    }

    private static void WordFault(XmlFault fault, FindingLog findings)
    {
        switch (fault.Kind)
        {
            case XmlFaultKind.Cut:
                findings.Warn("file-cut", fault.Line, "The file ends in the middle: it was cut.", "Complete points were kept; copy the record again to get the rest.");
                break;
            case XmlFaultKind.Dtd:
                findings.Error("dtd-refused", fault.Line, "The file declares a document type (DTD), which a flight record never needs and which can be an attack.",
                    "Reading stopped there; remove the DOCTYPE part or export the record again.");
                break;
            case XmlFaultKind.Trailing:
                findings.Warn("two-formats-in-one", fault.Line, "There is more text after the end of the GPX document.",
                    "Only the GPX document was read; put the rest in a file of its own.");
                break;
            default:
                findings.Warn("xml-malformed", fault.Line, $"The XML is broken here: {fault.What}.", "Complete points before it were kept, nothing after it was read; mend the file there or export it again.");
                break;
        }
    }

    private static void WordDocument(GpxPoints points, FindingLog findings)
    {
        if (points.RootSeen && !points.RootIsGpx)
            findings.Error("not-gpx", null, "The file is XML but its root element is not 'gpx'.", "Expected a GPX file; export the track as GPX.");
        if (points.RoutePoints > 0)
            findings.Note("route-points", null, "The file holds route points, which are a plan and not a flight.", "Not used.", points.RoutePoints);
    }
}
