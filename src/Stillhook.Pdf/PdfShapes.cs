using PdfSharp.Drawing;
using Stillhook.Reporting.Printing;

namespace Stillhook.Pdf;

/// <summary>Draws a picture's shapes as vectors.</summary>
internal static class PdfShapes
{
    private static readonly XBrush Faint = new XSolidBrush(XColor.FromArgb(0xdd, 0xdd, 0xdd));

    private static readonly XBrush Middle = new XSolidBrush(XColor.FromArgb(0x88, 0x88, 0x88));

    private static readonly XPen Light = new(XColor.FromArgb(0xdd, 0xdd, 0xdd), 0.7), Black = new(XColors.Black, 1), Edge = new(XColors.Black, 0.7), Dim = new(XColor.FromArgb(0x88, 0x88, 0x88), 0.7);

    public static void Draw(XGraphics page, PrintedPicture picture, double left, double top, double scale)
    {
        XGraphicsState before = page.Save();
        page.TranslateTransform(left, top);
        page.ScaleTransform(scale);
        foreach (Shape shape in picture.Shapes)
            Draw(page, shape);
        page.Restore(before);
    }

    private static void Draw(XGraphics page, Shape shape)
    {
        (XPen? pen, XBrush? brush) = Look(shape.Style);
        switch (shape)
        {
            case LineShape l:
                page.DrawLine(pen ?? Black, l.X1, l.Y1, l.X2, l.Y2);
                break;
            case CircleShape c:
                page.DrawEllipse(pen, brush, c.X - c.Radius, c.Y - c.Radius, 2 * c.Radius, 2 * c.Radius);
                break;
            case PolygonShape p:
                page.DrawPolygon(pen, brush, [.. p.Points.Select(q => new XPoint(q.X, q.Y))], XFillMode.Winding);
                break;
            case WordShape w:
                XFont font = PdfFonts.Of(w.Size);
                double width = w.Anchor == WordAnchor.Start ? 0 : page.MeasureString(w.Text, font).Width;
                page.DrawString(w.Text, font, XBrushes.Black, w.X - (w.Anchor == WordAnchor.Middle ? width / 2 : width), w.Y);
                break;
            default:
                throw new NotSupportedException($"A PDF has no way to draw a {shape.GetType().Name}.");
        }
    }

    private static (XPen? Pen, XBrush? Brush) Look(ShapeStyle style) => style switch
    {
        ShapeStyle.Grid => (Light, null),
        ShapeStyle.Line => (Black, null),
        ShapeStyle.Solid => (null, XBrushes.Black),
        ShapeStyle.Hollow => (Black, XBrushes.White),
        ShapeStyle.Pale => (Edge, Faint),
        ShapeStyle.Ring => (Dim, null),
        _ => (Edge, Middle),
    };
}
