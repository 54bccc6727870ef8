using System.Globalization;
using Stillhook.Debriefing;

namespace Stillhook.Files.Pictures;

/// <summary>Side view true to scale along the approach course: hook's path, line and load at some moments, load's path.</summary>
public static class SideView
{
    private const double Width = 960, Left = 64, Right = 24, Top = 30, Bottom = 44, TallestPlot = 420;
    private const int Moments = 9;

    /// <summary>Draws deliveries over each other, flying from left to right; the first with its line and load.</summary>
    /// <param name="paths">What is drawn; heights are over each one's own contact ground.</param>
    /// <param name="setup">Line and load.</param>
    /// <param name="units">Unit of heights.</param>
    /// <param name="withinM">Distance to go that is shown, m; null for the whole approach.</param>
    public static string Draw(IReadOnlyList<DeliveryPath> paths, LiftSetup setup, DisplayUnits units, double? withinM = null)
    {
        Window window = Window.Of(paths, withinM, setup.ContactLengthM);
        string title = withinM is null ? "Side view of the whole approach, true to scale" : "Side view of the last metres, true to scale";
        SvgWriter svg = new(Width, window.PictureHeight, "picture side", title, window.Attributes);
        DrawGrid(svg, window, units);
        foreach (PlanGate gate in setup.Gates)
            DrawGate(svg, window, gate);
        for (int i = paths.Count - 1; i >= 0; i--)
            DrawPath(svg, window, paths[i], setup, i);
        for (int i = 0; i < paths.Count; i++)
            MapSigns.Mover(svg, i, Math.Max(setup.LoadHeight.Value.Meters, 0.8) * window.PerMetre);
        return svg.Close();
    }

    private static void DrawGrid(SvgWriter svg, Window window, DisplayUnits units)
    {
        double heightStep = RoundStep.AtLeast(window.TopM * units.HeightPerMetre / 5) / units.HeightPerMetre;
        for (double h = 0; h <= window.TopM; h += heightStep)
            svg.Line(Left, window.Y(h), Width - Right, window.Y(h), h == 0 ? "ground" : "grid")
                .Text(Left - 8, window.Y(h) + 5, DisplayUnits.Text(h * units.HeightPerMetre, 0), "axis", "end");
        svg.Text(Left - 8, 18, units.HeightUnit, "axis", "end");
        double step = RoundStep.AtLeast((window.FarM - window.NearM) / 7);
        for (double d = Math.Ceiling(window.NearM / step) * step; d <= window.FarM; d += step)
            svg.Line(window.X(d), window.Y(0), window.X(d), window.Y(0) + 6, "ground")
                .Text(window.X(d), window.Y(0) + 27, DisplayUnits.Text(d, 0), "axis", "middle");
        svg.Text(Width - Right, 18, "m to go", "axis", "end");
        svg.Path([(window.X(0) - 7, window.Y(0) + 1), (window.X(0), window.Y(0) - 9), (window.X(0) + 7, window.Y(0) + 1)], "target", closed: true);
    }

    // A planned gate is an upright diamond where the hook should pass.
    private static void DrawGate(SvgWriter svg, Window window, PlanGate gate)
    {
        (double x, double y) = window.Clip(gate.DistanceM, gate.HeightAboveTargetM);
        if (double.IsFinite(x))
            svg.Path([(x, y - 9), (x + 5, y), (x, y + 9), (x - 5, y)], "gate-mark", closed: true);
    }

    private static void DrawPath(SvgWriter svg, Window window, DeliveryPath path, LiftSetup setup, int style)
    {
        int contactAt = Array.FindLastIndex(path.TimeS, t => t <= path.ContactTimeS);
        int[] kept = [.. Thinning.MinMax(path.TimeS, (int)Width, path.AlongM, path.HeightM).Where(i => i <= contactAt)];
        if (style == 0)
            DrawLines(svg, window, path, setup, contactAt);
        svg.Path(kept.Select(i => window.Clip(path.LoadAlongM[i], path.LoadHeightM[i])), $"load-path r{style}");
        svg.Path(kept.Select(i => window.Clip(path.AlongM[i], path.HeightM[i])), $"track r{style}");
        int first = Array.FindIndex(path.AlongM, a => a <= window.FarM);
        if (first >= 0)
            svg.Text(window.X(path.AlongM[first]) + 4 + 26 * style, window.Y(path.HeightM[first]) - 10, path.Rotation.Number.ToString(CultureInfo.InvariantCulture), $"label r{style}");
    }

    // Line and load at even steps of distance, the last one at contact.
    private static void DrawLines(SvgWriter svg, Window window, DeliveryPath path, LiftSetup setup, int contactAt)
    {
        double loadHeight = Math.Max(setup.LoadHeight.Value.Meters, 0.8);
        double step = (window.FarM - Math.Max(0, window.NearM)) / Moments, next = window.FarM - step / 2;
        for (int i = 0; i <= contactAt; i++)
        {
            if (path.AlongM[i] > next && i != contactAt)
                continue;
            next = path.AlongM[i] - step;
            if (double.IsNaN(window.Clip(path.AlongM[i], path.HeightM[i]).X))
                continue;
            double x = window.X(path.LoadAlongM[i]), y = window.Y(path.LoadHeightM[i] + loadHeight), side = loadHeight * window.PerMetre;
            svg.Line(window.X(path.AlongM[i]), window.Y(path.HeightM[i]), x, y, "line").Rectangle(x - side / 2, y, side, side, "load");
            svg.Circle(window.X(path.AlongM[i]), window.Y(path.HeightM[i]), 3, "hook");
        }
    }

    /// <summary>Which distances and heights are shown and where.</summary>
    private sealed record Window(double FarM, double NearM, double TopM, double PerMetre)
    {
        public static Window Of(IReadOnlyList<DeliveryPath> paths, double? withinM, double contactLengthM)
        {
            double far = 50, near = -10, top = contactLengthM * 1.3;
            foreach (DeliveryPath path in paths)
            {
                far = Math.Max(far, path.AlongM.Max());
                near = Math.Min(near, path.AlongM.Min() - 3);
            }
            if (withinM is { } within)
                (far, near) = (Math.Min(far, within), Math.Max(near, -within));
            foreach (DeliveryPath path in paths)
                for (int i = 0; i < path.Count; i++)
                    if (path.AlongM[i] <= far && path.AlongM[i] >= near)
                        top = Math.Max(top, path.HeightM[i] * 1.08);
            double perMetre = Math.Min((Width - Left - Right) / (far - near), TallestPlot / top);
            return new(far, near, top, perMetre);
        }

        public double PictureHeight => Top + TopM * PerMetre + Bottom;

        public string Attributes => string.Create(CultureInfo.InvariantCulture, $" data-x0=\"{X(0):0.##}\" data-y0=\"{Y(0):0.##}\" data-per-metre=\"{PerMetre:0.#####}\"");

        public double X(double alongM) => Left + (FarM - alongM) * PerMetre;

        public double Y(double heightM) => Top + (TopM - heightM) * PerMetre;

        public (double X, double Y) Clip(double alongM, double heightM) =>
            alongM <= FarM && alongM >= NearM && heightM <= TopM ? (X(alongM), Y(heightM)) : (double.NaN, double.NaN);
    }
}
