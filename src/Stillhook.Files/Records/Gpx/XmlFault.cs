namespace Stillhook.Files.Records.Gpx;

internal enum XmlFaultKind
{
    Malformed, Cut, Dtd, Trailing,
}

/// <summary>Where and why the reading of an XML text ended early.</summary>
internal sealed record XmlFault(XmlFaultKind Kind, long Line, string What);
