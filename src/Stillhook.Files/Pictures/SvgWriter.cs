using System.Globalization;
using System.Net;
using System.Text;

namespace Stillhook.Files.Pictures;

/// <summary>Writes SVG with invariant numbers. Looks come from class names, so that one picture fits page, night and paper; there are no inline styles.</summary>
internal sealed class SvgWriter
{
    private readonly StringBuilder text = new();

    /// <summary>Opens a picture of a size in its own units; the title says what it shows, for those who don't see it.</summary>
    public SvgWriter(double width, double height, string cssClass, string title, string attributes = "")
    {
        text.Append(CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{cssClass}\" viewBox=\"0 0 {width:0.#} {height:0.#}\" role=\"img\" aria-label=\"{Escape(title)}\"{attributes}><title>{Escape(title)}</title>");
    }

    public SvgWriter Line(double x1, double y1, double x2, double y2, string cssClass)
    {
        text.Append(CultureInfo.InvariantCulture, $"<line x1=\"{x1:0.#}\" y1=\"{y1:0.#}\" x2=\"{x2:0.#}\" y2=\"{y2:0.#}\" class=\"{cssClass}\"/>");
        return this;
    }

    public SvgWriter Circle(double x, double y, double radius, string cssClass)
    {
        text.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"{radius:0.#}\" class=\"{cssClass}\"/>");
        return this;
    }

    public SvgWriter Rectangle(double x, double y, double width, double height, string cssClass)
    {
        text.Append(CultureInfo.InvariantCulture, $"<rect x=\"{x:0.#}\" y=\"{y:0.#}\" width=\"{width:0.#}\" height=\"{height:0.#}\" class=\"{cssClass}\"/>");
        return this;
    }

    public SvgWriter Text(double x, double y, string value, string cssClass, string anchor = "start")
    {
        text.Append(CultureInfo.InvariantCulture, $"<text x=\"{x:0.#}\" y=\"{y:0.#}\" class=\"{cssClass}\" text-anchor=\"{anchor}\">{Escape(value)}</text>");
        return this;
    }

    /// <summary>Begins a group that stays hidden until the page shows and moves it.</summary>
    public SvgWriter BeginHidden(string cssClass)
    {
        text.Append(CultureInfo.InvariantCulture, $"<g class=\"{cssClass}\" visibility=\"hidden\">");
        return this;
    }

    /// <summary>An ellipse round the origin, for a group that is moved.</summary>
    public SvgWriter Ellipse(double radiusX, double radiusY, string cssClass)
    {
        text.Append(CultureInfo.InvariantCulture, $"<ellipse rx=\"{radiusX:0.#}\" ry=\"{radiusY:0.#}\" class=\"{cssClass}\"/>");
        return this;
    }

    public SvgWriter End()
    {
        text.Append("</g>");
        return this;
    }

    /// <summary>A line through points; a point that is not finite breaks it.</summary>
    public SvgWriter Path(IEnumerable<(double X, double Y)> points, string cssClass, bool closed = false)
    {
        text.Append("<path d=\"");
        bool pen = false;
        foreach ((double x, double y) in points)
        {
            if (!double.IsFinite(x) || !double.IsFinite(y))
            {
                pen = false;
                continue;
            }
            text.Append(CultureInfo.InvariantCulture, $"{(pen ? 'L' : 'M')}{x:0.#} {y:0.#}");
            pen = true;
        }
        text.Append(closed ? "Z\" class=\"" : "\" class=\"").Append(cssClass).Append("\"/>");
        return this;
    }

    public string Close() => text.Append("</svg>").ToString();

    private static string Escape(string value) => WebUtility.HtmlEncode(value);
}
