using System.Numerics;
using System.Runtime.Intrinsics;

namespace Stillhook.Files.Records;

/// <summary>Where a text is parted: all places of one byte, sixteen bytes looked at together.</summary>
internal static class ByteMarks
{
    /// <summary>Writes the places of a byte in their order and gives their number; what is handed in is made larger where it could be too small.</summary>
    public static int Find(ReadOnlySpan<byte> text, byte mark, ref int[] places)
    {
        if (places.Length < text.Length) places = new int[text.Length * 2];
        int[] found = places;
        int count = 0, at = 0;
        for (; at <= text.Length - Vector128<byte>.Count; at += Vector128<byte>.Count)
            for (uint marks = Vector128.Equals(Vector128.Create(text[at..]), Vector128.Create(mark)).ExtractMostSignificantBits(); marks != 0; marks &= marks - 1)
                found[count++] = at + BitOperations.TrailingZeroCount(marks);
        for (; at < text.Length; at++)
            if (text[at] == mark) found[count++] = at;
        return count;
    }
}
