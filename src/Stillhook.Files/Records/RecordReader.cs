using System.Buffers;
using System.IO.Compression;
using System.Text;
using Stillhook.Files.Records.Csv;
using Stillhook.Files.Records.Gpx;
using Stillhook.Files.Records.Igc;
using Stillhook.Files.Records.Nmea;
using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Reads a flight record of any known format, plain or packed, in one pass.</summary>
/// <remarks>
/// The format is found by content. Bad content never throws: an input that can't be used gives a record without fixes and one error among its findings.
/// </remarks>
public static class RecordReader
{
    /// <summary>Reads a record file.</summary>
    /// <param name="path">The file; a folder or a file that can't be opened gives an error finding.</param>
    /// <param name="options">What is said about the record beforehand.</param>
    /// <param name="progress">Told the number of bytes read so far (of the expanded record when packed).</param>
    public static FlightRecord ReadFile(string path, RecordReadOptions? options = null, IProgress<long>? progress = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string name = Path.GetFileName(path.TrimEnd(Path.DirectorySeparatorChar, '/'));
        if (Directory.Exists(path))
            return Refuse(name, "folder", "The path is a folder, not a file.", "Give the record file itself.");
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0, FileOptions.SequentialScan);
            return Read(file, name, options, progress);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return Refuse(name, "file-not-found", "There is no such file.", "Check the path and the spelling.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            return Refuse(name, "file-unreadable", "The file can't be opened or read.", "Check its permissions and that the card or disk is sound, or copy it first.");
        }
    }

    /// <summary>Reads a record from a stream, which is left open.</summary>
    /// <param name="stream">Read forward only, from where it stands.</param>
    /// <param name="name">Name for people; its extension is compared with the content.</param>
    /// <param name="options">What is said about the record beforehand.</param>
    /// <param name="progress">Told the number of bytes read so far (of the expanded record when packed).</param>
    public static FlightRecord Read(Stream stream, string name, RecordReadOptions? options = null, IProgress<long>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(name);
        options ??= new RecordReadOptions();
        var findings = new FindingLog();
        try
        {
            return RecordUnpacker.Open(stream, name, options, findings, (content, innerName) => ReadContent(content, name, innerName, options, findings, progress));
        }
        catch (ExpansionLimitException e)
        {
            return Refuse(name, "expands-too-far", e.Message, "Nothing was read; unpack it yourself if you trust it, and give the plain file.", findings);
        }
        catch (InvalidDataException)
        {
            return Refuse(name, "packed-file-broken", "The packed file is damaged or cut.", "Copy or pack it again, or give the plain file.", findings);
        }
    }

    /// <summary>For comparison in tests: GPX by the platform's XML reader whatever the encoding.</summary>
    internal static FlightRecord ReadGpxAsXml(Stream stream, string name) => GpxReader.Read(stream, name, new FindingLog(), null, plainUtf8: false);

    private static FlightRecord ReadContent(HeadStream content, string name, string innerName, RecordReadOptions options, FindingLog findings, IProgress<long>? progress)
    {
        ContentKind kind = ContentDetector.Detect(content.Head);
        if (kind == ContentKind.Empty) return Refuse(name, "empty", "The file is empty.", "Export or copy the record again.", findings);
        if (kind == ContentKind.ULog)
            return Refuse(name, "ulog-not-read", "This is a ULog file of an autopilot, which is not read.", "Export position and time from it as CSV or GPX.", findings);
        if (kind == ContentKind.Unknown)
            return Refuse(name, "format-unknown", "The content is no known record format.", "Expected GPX, IGC, NMEA 0183, or CSV with headings; export it as one of these.", findings);
        NoteExtension(innerName, kind, findings);
        Stream text = content;
        if (kind is not (ContentKind.GpxOther or ContentKind.Gpx)) text = Utf8(content);
        else if (kind == ContentKind.Gpx) content.SkipUtf8Mark();
        return kind switch
        {
            ContentKind.Gpx => GpxReader.Read(text, name, findings, progress, plainUtf8: true),
            ContentKind.GpxOther => GpxReader.Read(text, name, findings, progress, plainUtf8: false),
            ContentKind.Igc => IgcReader.Read(text, name, findings, progress),
            ContentKind.Nmea => NmeaReader.Read(text, name, findings, progress),
            _ => CsvReader.Read(text, name, options, findings, progress),
        };
    }

    private static Stream Utf8(HeadStream content)
    {
        Encoding? wide = ContentDetector.WideEncoding(content.Head);
        if (wide is not null) return Encoding.CreateTranscodingStream(content, wide, Encoding.UTF8, leaveOpen: true);
        content.SkipUtf8Mark();
        return content;
    }

    private static void NoteExtension(string name, ContentKind kind, FindingLog findings)
    {
        string extension = Path.GetExtension(name).ToLowerInvariant();
        if (extension is ".gz") extension = Path.GetExtension(Path.GetFileNameWithoutExtension(name)).ToLowerInvariant();
        (string expected, string called) = kind switch
        {
            ContentKind.Gpx or ContentKind.GpxOther => (".gpx .xml", "GPX"),
            ContentKind.Igc => (".igc", "IGC"),
            ContentKind.Nmea => (".nmea .log .nma .gps", "NMEA 0183"),
            _ => (".csv .tsv .tab", "CSV"),
        };
        if (extension is "" or ".txt" or ".dat" or ".zip" || expected.Split(' ').Contains(extension)) return;
        findings.Note("wrong-extension", null, $"The name ends in {FindingLog.Shown(extension)}, the content is {called}.", $"Read as {called}.");
    }

    private static FlightRecord Refuse(string name, string code, string what, string mend, FindingLog? findings = null)
    {
        findings ??= new FindingLog();
        findings.Error(code, null, what, mend);
        return new RecordBuilder(findings, () => null).Build(name, "unknown");
    }
}
