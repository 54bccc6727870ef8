using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>Signs that the approach pictures share.</summary>
internal static class Signs
{
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

    /// <summary>A person.</summary>
    public static void Person(SvgWriter svg, double x, double y) =>
        svg.Circle(x, y - 7, 3.5, "person").Line(x, y - 4, x, y + 4, "person").Line(x - 5, y - 1, x + 5, y - 1, "person").Line(x, y + 4, x - 4, y + 10, "person").Line(x, y + 4, x + 4, y + 10, "person");

    /// <summary>An obstacle seen from above.</summary>
    public static void Obstacle(SvgWriter svg, double x, double y) => svg.Path([(x - 6, y + 5), (x, y - 7), (x + 6, y + 5)], "obstacle", closed: true);

    /// <summary>North arrow.</summary>
    public static void North(SvgWriter svg, double x, double y) => svg.Path([(x, y), (x - 8, y + 26), (x, y + 20), (x + 8, y + 26)], "north", closed: true).Text(x, y + 43, "N", "north", "middle");

    /// <summary>Arrow that flies with the wind, and its words; says so when nobody gave the wind.</summary>
    public static void Wind(SvgWriter svg, double x, double y, Wind? wind, DisplayUnits units)
    {
        const double half = 20;
        if (wind is not { } given)
        {
            svg.Text(x - half, y + 5, "Wind not given", "small");
            return;
        }
        (double s, double c) = Math.SinCos(double.DegreesToRadians(given.FromDeg));
        (double tipX, double tipY) = (x - half * s, y + half * c);
        svg.Line(x + half * s, y - half * c, tipX, tipY, "wind").Path([(tipX + 9 * s - 5 * c, tipY - 9 * c - 5 * s), (tipX, tipY), (tipX + 9 * s + 5 * c, tipY - 9 * c + 5 * s)], "wind");
        svg.Text(x + 28, y + 5, string.Create(CultureInfo.InvariantCulture, $"Wind {given.FromDeg:000}° {units.SpeedText(given.Speed.MetersPerSecond)}"), "small");
    }

    /// <summary>A bar of a round length.</summary>
    public static void Scale(SvgWriter svg, double x, double y, double perMetre, double mostPx)
    {
        double bar = RoundStep.AtLeast(mostPx / perMetre / 2.5), length = bar * perMetre;
        svg.Line(x, y, x + length, y, "scale").Line(x, y - 5, x, y + 5, "scale").Line(x + length, y - 5, x + length, y + 5, "scale").Text(x + length + 8, y + 5, DisplayUnits.Text(bar, bar < 1 ? 1 : 0) + " m", "small");
    }

    /// <summary>What altimeter numbers in a picture stand and fall with, and the caution that goes with them; two lines.</summary>
    public static void Caution(SvgWriter svg, double x, double y, ApproachSituation s, DisplayUnits units)
    {
        string setting = s.QnhPa is { } qnh ? units.Pressure(qnh) : "the setting of the day (none was given)";
        string wind = s.Wind is { } w ? string.Create(CultureInfo.InvariantCulture, $"wind {w.FromDeg:000}° {units.SpeedText(w.Speed.MetersPerSecond)}") : "no wind given";
        svg.Text(x, y, $"Altimeter readings for {setting}, {wind}. Reset or draw again if either moves.", "small").Text(x, y + 18, Cautions.Plan, "small");
    }

    /// <summary>Why nothing, or less, is drawn: words broken into lines.</summary>
    public static void Words(SvgWriter svg, double x, double y, string text, int columns, string cssClass = "small")
    {
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > columns)
            {
                svg.Text(x, y, line, cssClass);
                (line, y) = ("", y + 18);
            }
            line += (line.Length > 0 ? " " : "") + word;
        }
        svg.Text(x, y, line, cssClass);
    }

    /// <summary>What to say where no path can be drawn.</summary>
    public static string WhyNot(ApproachPlan plan) =>
        "No approach is offered. " + (plan.Refused ?? plan.Findings.FirstOrDefault(f => f.Severity == Severity.Error)?.What ?? "Nothing could be planned from the job.")
        + (plan.Remedies.Count > 0 ? " Would work: " + string.Join("; ", plan.Remedies) + "." : "");
}
