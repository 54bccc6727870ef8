using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>Signs that the approach pictures share.</summary>
internal static class Signs
{
    private const double LinePx = 18;

    /// <summary>A mark: power in is a filled triangle, reject an open circle with a cross, so that both show in one place; all others an upright diamond.</summary>
    public static void Mark(SvgWriter svg, double x, double y, string name)
    {
        if (name == ApproachGates.PowerInName)
            svg.Path([(x, y - 8), (x + 8, y + 6), (x - 8, y + 6)], "power-in", closed: true);
        else if (name == ApproachGates.RejectName)
            svg.Circle(x, y, 9, "reject").Line(x - 5, y - 5, x + 5, y + 5, "reject").Line(x - 5, y + 5, x + 5, y - 5, "reject");
        else
            svg.Path([(x, y - 8), (x + 5, y), (x, y + 8), (x - 5, y)], "mark", closed: true);
    }

    /// <summary>The spot seen from above.</summary>
    public static void Spot(SvgWriter svg, double x, double y) => svg.Line(x - 9, y, x + 9, y, "spot").Line(x, y - 9, x, y + 9, "spot");

    /// <summary>An obstacle seen from above.</summary>
    public static void Obstacle(SvgWriter svg, double x, double y) => svg.Path([(x - 6, y + 5), (x, y - 7), (x + 6, y + 5)], "obstacle", closed: true);

    /// <summary>An aircraft from the side, nose to the right, its cargo hook at the point.</summary>
    public static void Aircraft(SvgWriter svg, double x, double y, double rotorRadiusPx)
    {
        double r = rotorRadiusPx;
        svg.Line(x - r, y - 0.52 * r, x + r, y - 0.52 * r, "rotor").Line(x, y - 0.52 * r, x, y - 0.36 * r, "rotor");
        svg.Path([(x - 1.16 * r, y - 0.42 * r), (x - 1.08 * r, y - 0.2 * r), (x - 0.34 * r, y - 0.12 * r), (x - 0.26 * r, y), (x + 0.4 * r, y), (x + 0.6 * r, y - 0.12 * r), (x + 0.42 * r, y - 0.34 * r), (x - 0.3 * r, y - 0.36 * r), (x - 0.4 * r, y - 0.26 * r), (x - 1.04 * r, y - 0.28 * r)], "aircraft", closed: true);
    }

    /// <summary>What the picture is of, what its numbers stand and fall with, and the caution that goes with it; three lines.</summary>
    public static void Caution(SvgWriter svg, double x, double y, ApproachSituation s, DisplayUnits units, bool altimeter)
    {
        string setting = s.QnhPa is { } qnh ? units.Pressure(qnh) : "the setting of the day (none was given)";
        string wind = s.Wind is { } w ? string.Create(CultureInfo.InvariantCulture, $"wind {w.FromDeg:000}° {units.SpeedText(w.Speed.MetersPerSecond)}") : "no wind given";
        string of = $"{s.LoadName} to {s.Site.Name}" + (s.Request.Job is { Length: > 0 } job ? "; " + job : "");
        svg.Text(x, y, Shortened(char.ToUpperInvariant(of[0]) + of[1..], 116), "small")
            .Text(x, y + LinePx, altimeter ? $"Altimeter readings for {setting}, {wind}. Reset or draw again if either moves." : $"For {wind}. Draw again if it moves.", "small")
            .Text(x, y + 2 * LinePx, Cautions.Plan, "small");
    }

    /// <summary>A text of at most so many letters, the last of them dots where it was longer.</summary>
    public static string Shortened(string text, int most) => text.Length <= most ? text : text[..(most - 1)].TrimEnd() + "…";

    /// <summary>A picture that says why no approach is drawn.</summary>
    public static string NoApproach(string cssClass, string title, ApproachPlan plan)
    {
        const double left = 16, top = 52;
        string[] lines = [.. Lines(WhyNot(plan), 120)];
        SvgWriter svg = new(960, top + LinePx * lines.Length, cssClass, title);
        svg.Text(left, 24, title, "caption");
        Words(svg, left, top, lines);
        return svg.Close();
    }

    /// <summary>Lines under each other; the place of the next one.</summary>
    public static double Words(SvgWriter svg, double x, double y, IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            svg.Text(x, y, line, "small");
            y += LinePx;
        }
        return y;
    }

    /// <summary>A text broken between words into lines of at most so many letters.</summary>
    public static IEnumerable<string> Lines(string text, int columns)
    {
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > columns)
            {
                yield return line;
                line = "";
            }
            line += (line.Length > 0 ? " " : "") + word;
        }
        yield return line;
    }

    /// <summary>What to say where no path can be drawn.</summary>
    public static string WhyNot(ApproachPlan plan) =>
        "No approach is offered. " + (plan.Refused ?? plan.Findings.FirstOrDefault(f => f.Severity == Severity.Error)?.What ?? "Nothing could be planned from the job.")
        + (plan.Remedies.Count > 0 ? " Would work: " + string.Join("; ", plan.Remedies) + "." : "");
}
