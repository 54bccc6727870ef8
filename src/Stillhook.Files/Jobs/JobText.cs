using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Stillhook.Files.Jobs;

/// <summary>Reads the bytes of a job file into values that know their line: JSON with <c>//</c> comments and trailing commas.</summary>
internal ref struct JobText
{
    /// <summary>Largest file read, bytes. A job of 500 loads with charts is below 0.3 MB.</summary>
    public const int LargestBytes = 4_000_000;

    /// <summary>Groups and lists inside one another; the job file itself needs 6.</summary>
    public const int Deepest = 32;

    private readonly ReadOnlySpan<byte> bytes;
    private readonly JobFindings findings;
    private Utf8JsonReader reader;
    private int countedTo;
    private long line;
    private bool tooDeep;

    private JobText(ReadOnlySpan<byte> bytes, JobFindings findings)
    {
        this.bytes = bytes;
        this.findings = findings;
        reader = new(bytes, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = 2 * Deepest });
        line = 1;
    }

    /// <summary>The file's value, or null when it isn't JSON; what is wrong is reported.</summary>
    public static JobValue? Read(Stream stream, JobFindings findings)
    {
        using MemoryStream bytes = new();
        if (!TryCopy(stream, bytes))
        {
            findings.Error("job-too-large", null, "The file is larger than 4 MB.", "A job file is some hundred lines; check that it is the right file.");
            return null;
        }
        ReadOnlySpan<byte> text = bytes.GetBuffer().AsSpan(0, (int)bytes.Length);
        if (text.StartsWith("\uFEFF"u8))
            text = text["\uFEFF"u8.Length..];
        return IsUtf8(text, findings) ? new JobText(text, findings).Document() : null;
    }

    private static bool TryCopy(Stream stream, MemoryStream bytes)
    {
        byte[] piece = new byte[16_384];
        for (int read; (read = stream.Read(piece)) > 0;)
        {
            bytes.Write(piece, 0, read);
            if (bytes.Length > LargestBytes)
                return false;
        }
        return true;
    }

    private static bool IsUtf8(ReadOnlySpan<byte> text, JobFindings findings)
    {
        if (System.Text.Unicode.Utf8.IsValid(text))
            return true;
        int at = 0;
        while (Rune.DecodeFromUtf8(text[at..], out _, out int used) == System.Buffers.OperationStatus.Done)
            at += used;
        findings.Error("job-not-utf8", 1 + text[..at].Count((byte)'\n'), "The file is not UTF-8 text here.", "Save it as UTF-8 in the editor.");
        return false;
    }

    private JobValue? Document()
    {
        try
        {
            reader.Read();
            JobValue value = Value();
            reader.Read(); // Refuses anything after the end.
            return value;
        }
        catch (JsonException e)
        {
            long at = (e.LineNumber ?? Line() - 1) + 1;
            if (tooDeep)
                findings.Error("job-too-deep", at, string.Create(CultureInfo.InvariantCulture, $"More than {Deepest} groups or lists stand inside one another."), "Look for an opening bracket too many.");
            else
                findings.Error("job-not-json", at, $"The file is not JSON here: {Reason(e)}", "Look at this line and the one before it for a missing comma, quote or bracket.");
            return null;
        }
    }

    private JobValue Value()
    {
        long start = Line();
        if (reader.CurrentDepth >= Deepest)
        {
            tooDeep = true;
            throw new JsonException();
        }
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject: return new(JobValueKind.Group, start) { Entries = Entries() };
            case JsonTokenType.StartArray: return new(JobValueKind.List, start) { Items = Items() };
            case JsonTokenType.String: return TryText(out string text) ? new(JobValueKind.Text, start, text) : new(JobValueKind.Spoilt, start);
            case JsonTokenType.Number: return new(JobValueKind.Number, start, Encoding.ASCII.GetString(reader.ValueSpan));
            case JsonTokenType.True: return new(JobValueKind.Flag, start, "true");
            case JsonTokenType.False: return new(JobValueKind.Flag, start, "false");
            default: return new(JobValueKind.Null, start);
        }
    }

    private List<JobValue> Items()
    {
        List<JobValue> items = [];
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            items.Add(Value());
        return items;
    }

    private List<JobEntry> Entries()
    {
        List<JobEntry> entries = [];
        Dictionary<string, long> seen = new(StringComparer.Ordinal);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            long keyLine = Line();
            bool readable = TryText(out string key);
            reader.Read();
            JobValue value = Value();
            // A key that starts with // is a comment for programs that drop real ones.
            if (!readable || key.StartsWith("//", StringComparison.Ordinal))
                continue;
            if (seen.TryAdd(key, keyLine))
                entries.Add(new(key, keyLine, value));
            else
                findings.Error("job-duplicate-key", keyLine, string.Create(CultureInfo.InvariantCulture, $"The key '{JobValue.Shown(key)}' stands on line {seen[key]} and again here."),
                    "Leave one of the two; nobody can tell which is meant.");
        }
        return entries;
    }

    private bool TryText(out string text)
    {
        try
        {
            text = reader.GetString()!;
            return true;
        }
        catch (InvalidOperationException)
        {
            // The parser accepts half of a \u pair and refuses it only when the text is taken out (found by a changed byte, 2026-11-25).
            findings.Error("job-bad-escape", Line(), "A \\u escape is half of a pair.", "Write the letter itself.");
            text = "";
            return false;
        }
    }

    private long Line()
    {
        int to = (int)reader.TokenStartIndex;
        line += bytes[countedTo..to].Count((byte)'\n');
        countedTo = to;
        return line;
    }

    /// <summary>The parser's reason without its own counting of lines.</summary>
    private static string Reason(JsonException e)
    {
        int end = e.Message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        return string.Concat((end < 0 ? e.Message : e.Message[..end]).Take(200).Select(c => char.IsControl(c) ? ' ' : c));
    }
}
