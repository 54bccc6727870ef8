using System.Globalization;
using Stillhook.Files.Pictures;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>A printed picture as SVG: the classes grid, line, solid, hollow, grey and words with w7 to w12 are the page's to dress.</summary>
internal static class PrintedPictureSvg
{
    /// <summary>The picture.</summary>
    public static string Of(PrintedPicture picture)
    {
        SvgWriter svg = new(picture.Width, picture.Height, "picture", XmlText.Clean(picture.Title));
        foreach (Shape shape in picture.Shapes)
            _ = shape switch
            {
                LineShape l => svg.Line(l.X1, l.Y1, l.X2, l.Y2, Class(l.Style)),
                CircleShape c => svg.Circle(c.X, c.Y, c.Radius, Class(c.Style)),
                PolygonShape p => svg.Path(p.Points, Class(p.Style), closed: true),
                WordShape w => svg.Text(w.X, w.Y, XmlText.Clean(w.Text), string.Create(CultureInfo.InvariantCulture, $"words w{(int)w.Size}"), w.Anchor switch { WordAnchor.Start => "start", WordAnchor.Middle => "middle", _ => "end" }),
                _ => throw new NotSupportedException($"A picture has no way to draw a {shape.GetType().Name}."),
            };
        return svg.Close();
    }

    private static string Class(ShapeStyle style) => style switch
    {
        ShapeStyle.Grid => "grid",
        ShapeStyle.Line => "line",
        ShapeStyle.Solid => "solid",
        ShapeStyle.Hollow => "hollow",
        ShapeStyle.Pale => "pale",
        ShapeStyle.Ring => "ring",
        _ => "grey",
    };
}
