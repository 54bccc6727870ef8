using System.Reflection;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace Stillhook.Pdf;

/// <summary>The two faces of the reports, carried in this assembly: the same letters on every machine, and none to be found on it.</summary>
internal sealed class PdfFonts : IFontResolver
{
    private const string Family = "DejaVu Sans Condensed", Plain = "DejaVuSansCondensed", Heavy = "DejaVuSansCondensed-Bold";

    private static readonly Lock Setting = new();

    private static readonly XPdfFontOptions Unicode = new(PdfFontEncoding.Unicode);

    /// <summary>A face of a size in points.</summary>
    public static XFont Of(double size, bool bold = false)
    {
        lock (Setting)
            GlobalFontSettings.FontResolver ??= new PdfFonts();
        return new(Family, size, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular, Unicode);
    }

    /// <inheritdoc/>
    public FontResolverInfo ResolveTypeface(string familyName, bool bold, bool italic) => new(bold ? Heavy : Plain);

    /// <inheritdoc/>
    public byte[] GetFont(string faceName)
    {
        using Stream font = Assembly.GetExecutingAssembly().GetManifestResourceStream(faceName) ?? throw new InvalidOperationException($"The font '{faceName}' is not in the assembly.");
        byte[] bytes = new byte[font.Length];
        font.ReadExactly(bytes);
        return bytes;
    }
}
