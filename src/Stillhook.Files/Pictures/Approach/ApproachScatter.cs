using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>Where the load ends in the simulated flights, seen along the course: one dot a flight, rings that hold half and 95 in 100 of them, and people nearby.</summary>
public static class ApproachScatter
{
    private const double Width = 960, Height = 706, CentreX = 330, CentreY = 325, HalfPx = 270, WordsX = 640;

    /// <summary>Most dots drawn.</summary>
    public const int MostDots = 1000;

    /// <summary>Draws the simulated flights; in words why there are none when there are none.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="surroundings">People; null when none are known.</param>
    /// <param name="units">Unit of the wind's speed; distances along the ground are metres in every set.</param>
    public static string Draw(ApproachPlan plan, Surroundings? surroundings, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(units);
        if (plan.Way is not { } way || plan.Robustness is not { } flights)
            return Signs.NoApproach("picture approach scatter", "Simulated flights: no approach is offered", plan);
        CourseFrame course = new(way.CourseDeg);
        (string Name, Enu Place)[] people = surroundings is null ? [] : [.. surroundings.People.Select(p => (p.Name, course.FromEnu(p.Place)))];
        double halfM = HalfM(flights, people), perMetre = HalfPx / halfM;
        string title = "Where the load ends in simulated flights";
        SvgWriter svg = new(Width, Height, "picture approach scatter", title, string.Create(CultureInfo.InvariantCulture, $" data-x0=\"{CentreX:0.##}\" data-y0=\"{CentreY:0.##}\" data-per-metre=\"{perMetre:0.#####}\""));
        svg.Text(16, 22, title, "caption");
        DrawAxes(svg, halfM, perMetre);
        foreach ((double along, double right) in flights.Places.Take(MostDots).Where(p => Math.Abs(p.Along) <= halfM && Math.Abs(p.Right) <= halfM))
            svg.Circle(CentreX + right * perMetre, CentreY - along * perMetre, 2.2, "place");
        LabelPlacer labels = new(CentreX - HalfPx, CentreY - HalfPx, CentreX + HalfPx, CentreY + HalfPx);
        DrawRing(svg, flights.MissM.Half * perMetre, "half", labels);
        DrawRing(svg, flights.MissM.NinetyFive * perMetre, "ninety-five", labels);
        Signs.Spot(svg, CentreX, CentreY);
        foreach ((string name, Enu place) in people.Where(p => Math.Abs(p.Place.East) <= halfM && Math.Abs(p.Place.North) <= halfM))
        {
            (double x, double y) = (CentreX + place.North * perMetre, CentreY - place.East * perMetre);
            MapSigns.Person(svg, x, y);
            labels.Take(x, y, 7, 10);
            labels.Add(x, y, name);
        }
        labels.Write(svg);
        DrawWords(svg, way, flights, halfM);
        if (plan.Situation is { } s)
            Signs.Caution(svg, 16, CentreY + HalfPx + 66, s, units, altimeter: false);
        return svg.Close();
    }

    /// <summary>Half-width: the outer ring with room round it, and people up to three such rings away.</summary>
    private static double HalfM(Robustness flights, IEnumerable<(string Name, Enu Place)> people)
    {
        double ring = Math.Max(1, flights.MissM.NinetyFive);
        return people.Select(p => Math.Max(Math.Abs(p.Place.East), Math.Abs(p.Place.North))).Where(m => m <= 3 * ring).Select(m => 1.15 * m).Append(1.35 * ring).Max();
    }

    private static void DrawAxes(SvgWriter svg, double halfM, double perMetre)
    {
        double step = RoundStep.AtLeast(halfM / 5);
        for (double m = -Math.Floor(halfM / step) * step; m <= halfM; m += step)
        {
            double x = CentreX + m * perMetre, y = CentreY - m * perMetre;
            svg.Line(x, CentreY - HalfPx, x, CentreY + HalfPx, "grid").Line(CentreX - HalfPx, y, CentreX + HalfPx, y, "grid")
                .Text(x, CentreY + HalfPx + 18, DisplayUnits.Text(m, step < 1 ? 1 : 0), "axis", "middle").Text(CentreX - HalfPx - 8, y + 5, DisplayUnits.Text(m, step < 1 ? 1 : 0), "axis", "end");
        }
        svg.Rectangle(CentreX - HalfPx, CentreY - HalfPx, 2 * HalfPx, 2 * HalfPx, "frame");
        svg.Text(CentreX + HalfPx, CentreY + HalfPx + 37, "right of the spot, m", "axis", "end").Text(CentreX - HalfPx, CentreY - HalfPx - 10, "past the spot, m (flown upwards)", "axis");
    }

    private static void DrawRing(SvgWriter svg, double radius, string cssClass, LabelPlacer labels)
    {
        svg.Circle(CentreX, CentreY, radius, cssClass);
        labels.Take(Enumerable.Range(0, 61).Select(i => (CentreX + radius * Math.Cos(i * Math.PI / 30), CentreY + radius * Math.Sin(i * Math.PI / 30))));
    }

    private static void DrawWords(SvgWriter svg, WayIn way, Robustness flights, double halfM)
    {
        double y = 76;
        void Row(string text, string? line = null)
        {
            if (line is not null)
                svg.Line(WordsX, y - 5, WordsX + 34, y - 5, line);
            svg.Text(line is null ? WordsX : WordsX + 42, y, text, "small");
            y += 24;
        }
        int shown = Math.Min(MostDots, flights.Places.Count), outside = flights.Places.Take(MostDots).Count(p => Math.Abs(p.Along) > halfM || Math.Abs(p.Right) > halfM);
        Row(Text($"Flown on course {way.CourseDeg:000}° true"));
        Row(Text($"{flights.Flights} flights, {shown} of them as dots"));
        if (outside > 0)
            Row(Text($"{outside} dots lie outside the picture"));
        Row(Text($"half of the flights, within {flights.MissM.Half:0.0} m"), "half");
        Row(Text($"95 in 100, within {flights.MissM.NinetyFive:0.0} m"), "ninety-five");
        y += 10;
        Row(Text($"Past the spot: mean {Sign(flights.AlongM.Mean)} m, spread {flights.AlongM.Sigma:0.0} m"));
        Row(Text($"Right of it: mean {Sign(flights.AcrossM.Mean)} m, spread {flights.AcrossM.Sigma:0.0} m"));
        Row(Text($"Swing then: half {flights.SwingM.Half:0.0} m, 95 in 100 {flights.SwingM.NinetyFive:0.0} m"));
        y += 10;
        Row("What the scatter of the place comes from");
        foreach ((string cause, double share) in flights.Causes.Where(c => c.Share >= 0.02))
            Row(Text($"{100 * share:0} %  {cause}"));
        y += 10;
        Row("Before any help from the ground.");
    }

    private static string Sign(double metres) => DisplayUnits.Text(metres, 1);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
