using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Stillhook.Pdf;

/// <summary>Takes what is random out of a PDF: its two identifiers, those of its metadata and the tags of its font parts. All are replaced by as many bytes, so that no offset moves.</summary>
internal static partial class PdfStamp
{
    /// <summary>The same content gives the same bytes; the identifiers are taken from a digest of the content.</summary>
    public static byte[] Steady(byte[] pdf)
    {
        // One byte, one character, both ways.
        string text = Encoding.Latin1.GetString(pdf);
        Dictionary<string, string> tags = [];
        text = FontTag().Replace(text, m => m.Groups[1].Value + Tag(tags, m.Groups[2].Value));
        text = Identifier().Replace(text, m => m.Groups[1].Value + new string('0', 32) + m.Groups[2].Value + new string('0', 32));
        text = Metadata().Replace(text, m => m.Groups[1].Value + new string('0', 36));
        string digest = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(text)))[..32];
        text = Identifier().Replace(text, m => m.Groups[1].Value + digest + m.Groups[2].Value + digest);
        text = Metadata().Replace(text, m => m.Groups[1].Value + new Guid(Convert.FromHexString(digest)).ToString("D"));
        return Encoding.Latin1.GetBytes(text);
    }

    private static string Tag(Dictionary<string, string> tags, string random)
    {
        if (!tags.TryGetValue(random, out string? tag))
            tags.Add(random, tag = "AAAAA" + (char)('A' + tags.Count % 26));
        return tag;
    }

    [GeneratedRegex("(/(?:FontName|BaseFont)/)([A-Z]{6})(?=\\+)", RegexOptions.CultureInvariant)]
    private static partial Regex FontTag();

    [GeneratedRegex("(/ID\\s*\\[\\s*<)[0-9A-F]{32}(>\\s*<)[0-9A-F]{32}(?=>)", RegexOptions.CultureInvariant)]
    private static partial Regex Identifier();

    [GeneratedRegex("(<xmpMM:(?:DocumentID|InstanceID)>uuid:)[0-9a-f-]{36}", RegexOptions.CultureInvariant)]
    private static partial Regex Metadata();
}
