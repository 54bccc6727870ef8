using System.Globalization;
using System.Text;

namespace Stillhook.Fuzz.Driving;

/// <summary>Changes inputs: bits, bytes, blocks, lines, numbers, words of the format, and pieces of other inputs.</summary>
public sealed class Mutator(Random random, IReadOnlyList<string> words, int longest)
{
    private static readonly string[] s_numbers = ["0", "-1", "1", "255", "256", "65536", "2147483647", "2147483648", "9223372036854775808", "99999999999999999999", "1e308", "-1e308", "1e-320", "NaN", "0.0000001", "-0"];
    private readonly byte[][] _words = [.. words.Select(Encoding.Latin1.GetBytes)];

    /// <summary>A changed copy.</summary>
    /// <param name="from">The input to change.</param>
    /// <param name="other">Another one to take pieces of.</param>
    public byte[] Changed(byte[] from, byte[] other)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(other);
        List<byte> bytes = [.. from];
        for (int times = 1 << random.Next(5); times > 0; times--) Once(bytes, other);
        if (bytes.Count > longest) bytes.RemoveRange(longest, bytes.Count - longest);
        return [.. bytes];
    }

    private void Once(List<byte> bytes, byte[] other)
    {
        if (bytes.Count == 0)
        {
            bytes.AddRange(Word());
            return;
        }

        int at = random.Next(bytes.Count), length = Math.Min(bytes.Count - at, 1 + random.Next(1 << random.Next(1, 9)));
        switch (random.Next(14))
        {
            case 0: bytes[at] ^= (byte)(1 << random.Next(8)); break;
            case 1: bytes[at] = (byte)random.Next(256); break;
            case 2: bytes[at] = unchecked((byte)(bytes[at] + random.Next(-3, 4))); break;
            case 3: bytes.RemoveRange(at, length); break;
            case 4: bytes.InsertRange(random.Next(bytes.Count), bytes.GetRange(at, length)); break;
            case 5: Overwrite(bytes, random.Next(bytes.Count), bytes.GetRange(at, length)); break;
            case 6: bytes.InsertRange(at, Word()); break;
            case 7: Overwrite(bytes, at, Word()); break;
            case 8: Number(bytes, at); break;
            case 9: Lines(bytes); break;
            case 10: Overwrite(bytes, at, [.. Enumerable.Repeat((byte)random.Next(256), length)]); break;
            case 11: bytes.RemoveRange(at, bytes.Count - at); break;
            case 12 when other.Length > 0: bytes.InsertRange(at, Piece(other)); break;
            case 13 when other.Length > 0: (int end, byte[] tail) = (at, other[random.Next(other.Length)..]); bytes.RemoveRange(end, bytes.Count - end); bytes.AddRange(tail); break;
        }
    }

    private byte[] Word() => _words.Length == 0 ? [(byte)random.Next(256)] : _words[random.Next(_words.Length)];

    private byte[] Piece(byte[] other)
    {
        int at = random.Next(other.Length);
        return other[at..Math.Min(other.Length, at + 1 + random.Next(64))];
    }

    private static void Overwrite(List<byte> bytes, int at, IReadOnlyList<byte> with)
    {
        for (int i = 0; i < with.Count && at + i < bytes.Count; i++) bytes[at + i] = with[i];
    }

    // A run of digits becomes another number.
    private void Number(List<byte> bytes, int from)
    {
        int at = bytes.FindIndex(from, b => char.IsAsciiDigit((char)b));
        if (at < 0) return;
        int end = at;
        while (end < bytes.Count && char.IsAsciiDigit((char)bytes[end])) end++;
        string number = random.Next(2) == 0 ? s_numbers[random.Next(s_numbers.Length)] : random.Next(100_000).ToString(CultureInfo.InvariantCulture);
        if (random.Next(2) == 0) number = number.PadLeft(end - at, '0')[..Math.Max(1, end - at)]; // of the same length
        bytes.RemoveRange(at, end - at);
        bytes.InsertRange(at, Encoding.ASCII.GetBytes(number));
    }

    // Two lines change places, or one goes.
    private void Lines(List<byte> bytes)
    {
        List<string> lines = [.. Encoding.Latin1.GetString([.. bytes]).Split('\n')];
        int a = random.Next(lines.Count), b = random.Next(lines.Count);
        if (random.Next(3) == 0) lines.RemoveAt(a);
        else (lines[a], lines[b]) = (lines[b], lines[a]);
        bytes.Clear();
        bytes.AddRange(Encoding.Latin1.GetBytes(string.Join('\n', lines)));
    }
}
