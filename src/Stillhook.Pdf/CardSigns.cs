using PdfSharp.Drawing;
using Stillhook.Briefing.Printing;

namespace Stillhook.Pdf;

/// <summary>Draws the links of a chain, one under the other, so that they hang together.</summary>
internal static class CardSigns
{
    private const double SignHeight = 22;

    public static void Draw(XGraphics page, LinkSign sign, double x, double top, double height)
    {
        XPen pen = new(XColors.Black, 1);
        double bottom = top + height, used = Math.Min(SignHeight, height), y = top + used / 2;
        switch (sign)
        {
            case LinkSign.Hook:
                page.DrawLine(pen, x, top, x, y - 5);
                page.DrawArc(pen, x - 5, y - 5, 10, 10, 270, 250);
                page.DrawLine(pen, x, y + 5, x, bottom);
                break;
            case LinkSign.Ring:
                page.DrawLine(pen, x, top, x, y - 6);
                page.DrawEllipse(pen, x - 6, y - 6, 12, 12);
                page.DrawLine(pen, x, y + 6, x, bottom);
                break;
            case LinkSign.Line:
                page.DrawLine(new XPen(XColors.Black, 2), x, top, x, bottom);
                page.DrawLine(pen, x - 4, y + 1.5, x + 4, y - 1.5);
                page.DrawLine(pen, x - 4, y + 4.5, x + 4, y + 1.5);
                break;
            case LinkSign.Sling:
                page.DrawLine(pen, x, top, x - 8, bottom);
                page.DrawLine(pen, x, top, x + 8, bottom);
                break;
            default:
                page.DrawRectangle(pen, new XSolidBrush(XColor.FromArgb(0xbb, 0xbb, 0xbb)), x - 9, top, 18, Math.Min(16, height - 2));
                break;
        }
    }
}
