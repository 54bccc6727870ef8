namespace Stillhook.Files.Pictures;

/// <summary>A delivery's height and ground speed over time in the space of a table cell.</summary>
public static class Sparkline
{
    private const double Width = 180, Height = 40;

    /// <summary>Draws height (full line) and speed (dashed), each from zero to the greatest of the day so that rows can be compared.</summary>
    /// <param name="path">The delivery.</param>
    /// <param name="greatestHeightM">Greatest height of all rows, m.</param>
    /// <param name="greatestSpeedMs">Greatest speed of all rows, m/s.</param>
    /// <param name="longestS">Longest approach of all rows, s; contacts line up on the right.</param>
    public static string Draw(DeliveryPath path, double greatestHeightM, double greatestSpeedMs, double longestS)
    {
        SvgWriter svg = new(Width, Height, "sparkline", $"Height and speed of delivery {path.Rotation.Number} over time");
        int[] kept = [.. Thinning.MinMax(path.TimeS, (int)Width / 2, path.HeightM, path.SpeedMs).Where(i => path.TimeS[i] <= path.ContactTimeS)];
        svg.Line(0, Height - 1, Width, Height - 1, "ground");
        svg.Path(kept.Select(i => (X(i), Y(path.SpeedMs[i], greatestSpeedMs))), "speed");
        svg.Path(kept.Select(i => (X(i), Y(path.HeightM[i], greatestHeightM))), "height");
        return svg.Close();

        double X(int i) => Width - 3 - (path.ContactTimeS - path.TimeS[i]) / Math.Max(longestS, 1) * (Width - 6);
        static double Y(double value, double greatest) => Height - 2 - Math.Clamp(value / Math.Max(greatest, 1e-6), 0, 1) * (Height - 6);
    }
}
