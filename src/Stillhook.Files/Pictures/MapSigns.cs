using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Recording;

namespace Stillhook.Files.Pictures;

/// <summary>Signs that every picture from above shares.</summary>
internal static class MapSigns
{
    /// <summary>A person.</summary>
    public static void Person(SvgWriter svg, double x, double y) =>
        svg.Circle(x, y - 7, 3.5, "person").Line(x, y - 4, x, y + 4, "person").Line(x - 5, y - 1, x + 5, y - 1, "person").Line(x, y + 4, x - 4, y + 10, "person").Line(x, y + 4, x + 4, y + 10, "person");

    /// <summary>Hook, line and load of one moment, hidden until the page moves them: the load with the ring that holds its true place nine times in ten.</summary>
    /// <param name="svg">Where to.</param>
    /// <param name="style">Line style of the delivery.</param>
    /// <param name="loadPx">Size of the load, pixels.</param>
    public static void Mover(SvgWriter svg, int style, double loadPx)
    {
        string r = "r" + style.ToString(CultureInfo.InvariantCulture);
        double side = Math.Max(loadPx, 9);
        svg.BeginHidden($"load-now {r}").Ellipse(1, 1, $"load-band {r}").Rectangle(-side / 2, -side / 2, side, side, $"load-place {r}").End();
        svg.BeginHidden($"line-now {r}").Line(0, 0, 0, 0, $"cursor-line {r}").End();
        svg.BeginHidden($"hook-now {r}").Circle(0, 0, 6, $"cursor {r}").End();
    }

    /// <summary>North arrow with its letter.</summary>
    public static void North(SvgWriter svg, double x, double y) => svg.Path([(x, y), (x - 8, y + 26), (x, y + 20), (x + 8, y + 26)], "north", closed: true).Text(x, y + 44, "N", "label", "middle");

    /// <summary>Arrow that flies with the wind, from the upwind side to the lee side, and its words; says so when nobody gave the wind.</summary>
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

    /// <summary>A bar of a round length, at least so many pixels long.</summary>
    public static void Scale(SvgWriter svg, double x, double y, double perMetre, double leastPx)
    {
        double bar = RoundStep.AtLeast(leastPx / perMetre), length = bar * perMetre;
        svg.Line(x, y, x + length, y, "scale").Line(x, y - 5, x, y + 5, "scale").Line(x + length, y - 5, x + length, y + 5, "scale").Text(x + length + 8, y + 5, DisplayUnits.Text(bar, bar < 1 ? 1 : 0) + " m", "small");
    }
}
