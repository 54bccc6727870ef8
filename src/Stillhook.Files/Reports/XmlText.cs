using System.Net;
using System.Xml;

namespace Stillhook.Files.Reports;

/// <summary>Words that people typed, for XML and HTML.</summary>
internal static class XmlText
{
    /// <summary>Escaped for text and for attributes in double quotes.</summary>
    public static string Escape(string text) => WebUtility.HtmlEncode(Clean(text));

    /// <summary>Without what no XML document may hold; line ends and tabs become spaces.</summary>
    public static string Clean(string text)
    {
        if (text.All(c => XmlConvert.IsXmlChar(c) && !char.IsControl(c)))
            return text;
        char[] kept = text.ToCharArray();
        for (int i = 0; i < kept.Length; i++)
        {
            if (i + 1 < kept.Length && char.IsSurrogatePair(kept[i], kept[i + 1]))
                i++;
            else if (char.IsControl(kept[i]))
                kept[i] = ' ';
            else if (!XmlConvert.IsXmlChar(kept[i]))
                kept[i] = '\uFFFD';
        }
        return new(kept);
    }
}
