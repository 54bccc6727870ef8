using System.Buffers.Binary;
using System.Numerics;
using System.Text.Json;

namespace Stillhook.Files.Live;

/// <summary>What an entry of a journal's index tells.</summary>
internal enum JournalMark
{
    /// <summary>Bytes arrived.</summary>
    Bytes = 0,

    /// <summary>The link was lost.</summary>
    Lost = 1,

    /// <summary>The link is back.</summary>
    Back = 2,

    /// <summary>Bytes that arrived before could not be kept.</summary>
    Gap = 3,
}

/// <summary>One entry: which bytes of the raw file arrived when. The sequence orders the entries of all sources of a flight.</summary>
internal readonly record struct JournalEntry(long Sequence, long Offset, double ArrivedS, int Length, JournalMark Mark);

/// <summary>The index beside a raw file: one line of text that names the source, then entries of 36 bytes, each with its own checksum (CRC-32C).</summary>
internal static class JournalIndex
{
    public const int EntryLength = 36;
    private const int LongestHead = 4096;
    private static readonly byte[] s_magic = "stillhook live journal 1 "u8.ToArray();

    public static byte[] Head(string name, string text) =>
        [.. s_magic, .. JsonSerializer.SerializeToUtf8Bytes(new[] { name, text }), (byte)'\n'];

    /// <summary>Name and text of the source and the length of the head; null when the head is torn.</summary>
    public static (string Name, string Text, int Length)? ReadHead(ReadOnlySpan<byte> file)
    {
        int end = file[..Math.Min(file.Length, LongestHead)].IndexOf((byte)'\n');
        if (end < 0 || !file.StartsWith(s_magic)) return null;
        try
        {
            return JsonSerializer.Deserialize<string[]>(file[s_magic.Length..end]) is [string name, string text] ? (name, text, end + 1) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public static void Write(in JournalEntry entry, Span<byte> to)
    {
        BinaryPrimitives.WriteInt64LittleEndian(to, entry.Sequence);
        BinaryPrimitives.WriteInt64LittleEndian(to[8..], entry.Offset);
        BinaryPrimitives.WriteDoubleLittleEndian(to[16..], entry.ArrivedS);
        BinaryPrimitives.WriteInt32LittleEndian(to[24..], entry.Length);
        BinaryPrimitives.WriteInt32LittleEndian(to[28..], (int)entry.Mark);
        BinaryPrimitives.WriteUInt32LittleEndian(to[32..], Sum(to));
    }

    /// <summary>The whole entries of an index; where one does not fit its checksum, it is left out.</summary>
    /// <param name="entries">The index behind its head.</param>
    /// <param name="goodLength">Length up to the end of the last whole entry.</param>
    public static List<JournalEntry> Read(ReadOnlySpan<byte> entries, out long goodLength)
    {
        var all = new List<JournalEntry>(entries.Length / EntryLength);
        goodLength = 0;
        for (int at = 0; at + EntryLength <= entries.Length; at += EntryLength)
        {
            ReadOnlySpan<byte> bytes = entries.Slice(at, EntryLength);
            if (BinaryPrimitives.ReadUInt32LittleEndian(bytes[32..]) != Sum(bytes)) continue;
            all.Add(new JournalEntry(BinaryPrimitives.ReadInt64LittleEndian(bytes), BinaryPrimitives.ReadInt64LittleEndian(bytes[8..]),
                BinaryPrimitives.ReadDoubleLittleEndian(bytes[16..]), BinaryPrimitives.ReadInt32LittleEndian(bytes[24..]), (JournalMark)BinaryPrimitives.ReadInt32LittleEndian(bytes[28..])));
            goodLength = at + EntryLength;
        }

        return all;
    }

    // All bytes zero must not pass: a disk that lost power may hold such.
    private static uint Sum(ReadOnlySpan<byte> entry)
    {
        uint sum = uint.MaxValue;
        for (int i = 0; i < 32; i += 8) sum = BitOperations.Crc32C(sum, BinaryPrimitives.ReadUInt64LittleEndian(entry[i..]));
        return ~sum;
    }
}
