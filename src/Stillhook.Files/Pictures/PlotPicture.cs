using System.Globalization;

namespace Stillhook.Files.Pictures;

/// <summary>One curve of a plot.</summary>
/// <param name="Number">Number of its delivery.</param>
/// <param name="X">Positions, rising or falling.</param>
/// <param name="Y">Values; one that is not finite breaks the line.</param>
/// <param name="Band">Half-width of its band; null without one.</param>
public sealed record PlotCurve(int Number, double[] X, double[] Y, double[]? Band = null);

/// <summary>A plot of curves over each other as a picture of its own, with axes and line styles as on the page.</summary>
public static class PlotPicture
{
    private const double Width = 760, Height = 360, Left = 64, Right = 24, Top = 44, Bottom = 52;

    /// <summary>Draws the curves, the first with line style 0, the next 1 and so on.</summary>
    /// <param name="title">What is shown, with its unit.</param>
    /// <param name="xTitle">What lies along the bottom, with its unit.</param>
    /// <param name="curves">The curves; at least one value.</param>
    /// <param name="falling">Whether x falls from left to right, as distance to go does.</param>
    public static string Draw(string title, string xTitle, IReadOnlyList<PlotCurve> curves, bool falling)
    {
        ArgumentNullException.ThrowIfNull(curves);
        Window window = Window.Of(curves, falling);
        SvgWriter svg = new(Width, Height, "picture plot", title);
        svg.Text(Left, 22, title, "label");
        DrawAxes(svg, window, xTitle);
        for (int i = curves.Count - 1; i >= 0; i--)
            DrawCurve(svg, window, curves[i], i);
        return svg.Close();
    }

    private static void DrawAxes(SvgWriter svg, Window w, string xTitle)
    {
        double stepY = RoundStep.AtLeast((w.HighY - w.LowY) / 6), stepX = RoundStep.AtLeast((w.HighX - w.LowX) / 8);
        for (double y = Math.Ceiling(w.LowY / stepY) * stepY; y <= w.HighY + stepY / 1e6; y += stepY)
            svg.Line(Left, w.Y(y), Width - Right, w.Y(y), Math.Abs(y) < stepY / 2 ? "ground" : "grid").Text(Left - 8, w.Y(y) + 5, DisplayUnits.Text(y, stepY < 1 ? 1 : 0), "axis", "end");
        for (double x = Math.Ceiling(w.LowX / stepX) * stepX; x <= w.HighX + stepX / 1e6; x += stepX)
            svg.Line(w.X(x), Height - Bottom, w.X(x), Height - Bottom + 6, "ground").Text(w.X(x), Height - Bottom + 24, DisplayUnits.Text(x, stepX < 1 ? 1 : 0), "axis", "middle");
        svg.Text(Width - Right, Height - 8, xTitle, "axis", "end");
    }

    private static void DrawCurve(SvgWriter svg, Window w, PlotCurve curve, int style)
    {
        int[] kept = Thinning.MinMax(curve.X, (int)Width, curve.Y);
        if (curve.Band is { } band)
        {
            int[] known = [.. kept.Where(i => double.IsFinite(curve.Y[i] + band[i]))];
            svg.Path([.. known.Select(i => (w.X(curve.X[i]), w.Y(curve.Y[i] + band[i]))), .. known.Reverse().Select(i => (w.X(curve.X[i]), w.Y(curve.Y[i] - band[i])))], $"band r{style}", closed: true);
        }
        svg.Path(kept.Select(i => (w.X(curve.X[i]), w.Y(curve.Y[i]))), $"track r{style}");
        svg.Line(Width - Right - 70, Top - 22 + 16 * style, Width - Right - 30, Top - 22 + 16 * style, $"track r{style}")
            .Text(Width - Right, Top - 17 + 16 * style, curve.Number.ToString(CultureInfo.InvariantCulture), $"label r{style}", "end");
    }

    private sealed record Window(double LowX, double HighX, double LowY, double HighY, bool Falling)
    {
        public static Window Of(IReadOnlyList<PlotCurve> curves, bool falling)
        {
            double[] x = [.. curves.SelectMany(c => c.X)];
            double[] y = [0, .. curves.SelectMany(c => c.Y.Select((v, i) => (v, Band: c.Band?[i] ?? 0)).Where(v => double.IsFinite(v.v + v.Band)).SelectMany(v => (double[])[v.v - v.Band, v.v + v.Band]))];
            double high = y.Max(), low = y.Min(), room = 0.04 * Math.Max(high - low, 1e-3);
            return new(x.Min(), Math.Max(x.Max(), x.Min() + 1e-3), low < 0 ? low - room : 0, high + room, falling);
        }

        public double X(double x)
        {
            double part = (x - LowX) / (HighX - LowX);
            return Left + (Falling ? 1 - part : part) * (Width - Left - Right);
        }

        public double Y(double y) => Height - Bottom - (y - LowY) / (HighY - LowY) * (Height - Top - Bottom);
    }
}
