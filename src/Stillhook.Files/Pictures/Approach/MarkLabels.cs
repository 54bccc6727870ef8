using Stillhook.Approaching;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>Names, altimeter readings and distances of the marks in one row over a picture, moved apart where the marks are close, with a thin line down to each.</summary>
internal static class MarkLabels
{
    private const double LinePx = 16;
    private const int Lines = 5;

    /// <summary>Height the row takes, px.</summary>
    public const double HeightPx = Lines * LinePx;

    /// <summary>Writes the row and the lines to where the marks are drawn.</summary>
    /// <param name="svg">Where to.</param>
    /// <param name="gates">Marks from the left to the right.</param>
    /// <param name="at">Where a mark is drawn.</param>
    /// <param name="top">Upper edge of the row.</param>
    /// <param name="left">Left edge of the row.</param>
    /// <param name="right">Right edge of the row.</param>
    public static void Draw(SvgWriter svg, IReadOnlyList<ApproachGate> gates, Func<ApproachGate, (double X, double Y)> at, double top, double left, double right)
    {
        string[][] lines = [.. gates.Select(LinesOf)];
        double[] widths = [.. lines.Select(l => l.Max(t => LabelPlacer.WidthOf(t, 14)) + 8)];
        double[] middles = Spread([.. gates.Select(g => at(g).X)], widths, left, right);
        for (int i = 0; i < gates.Count; i++)
        {
            (double x, double y) = at(gates[i]);
            double under = top + HeightPx + 3;
            svg.Path([(middles[i], under), (middles[i], under + 4), (x, Math.Max(under + 4, y - 10))], "leader");
            for (int k = 0; k < lines[i].Length; k++)
                svg.Text(middles[i], top + HeightPx - LinePx * (lines[i].Length - 1 - k), lines[i][k], NameLines(gates[i]).Contains(lines[i][k]) ? "label" : "small", "middle");
        }
    }

    /// <summary>Name of a mark broken at its commas; none for a plain one.</summary>
    public static string[] NameLines(ApproachGate gate) => gate.Name.Split(", ", StringSplitOptions.RemoveEmptyEntries);

    private static string[] LinesOf(ApproachGate gate)
    {
        string distance = gate.DistanceM > 0 ? DisplayUnits.Text(gate.DistanceM, 0) + " m" : "";
        return [.. NameLines(gate), DisplayUnits.Text(gate.AltimeterFt, 0) + " ft", .. (string[])(distance.Length > 0 ? [distance] : []), .. (string[])(gate.Landmark is { } seen ? [Signs.Shortened(seen, 16)] : [])];
    }

    /// <summary>Middles as near to where they are wanted as room allows, in the same order: neighbours that touch move as one block about their mean.</summary>
    public static double[] Spread(double[] wanted, double[] widths, double left, double right)
    {
        List<(int From, int To, double Middle, double Width)> blocks = [];
        for (int i = 0; i < wanted.Length; i++)
        {
            blocks.Add((i, i, wanted[i], widths[i]));
            while (true)
            {
                blocks[^1] = blocks[^1] with { Middle = Math.Clamp(blocks[^1].Middle, left + blocks[^1].Width / 2, Math.Max(left + blocks[^1].Width / 2, right - blocks[^1].Width / 2)) };
                if (blocks.Count < 2 || blocks[^2].Middle + blocks[^2].Width / 2 <= blocks[^1].Middle - blocks[^1].Width / 2 + 1e-9)
                    break;
                blocks[^2] = Joined(blocks[^2].From, blocks[^1].To, wanted, widths);
                blocks.RemoveAt(blocks.Count - 1);
            }
        }
        double[] middles = new double[wanted.Length];
        foreach ((int from, int to, double middle, double width) in blocks)
        {
            double x = middle - width / 2;
            for (int i = from; i <= to; x += widths[i], i++)
                middles[i] = x + widths[i] / 2;
        }
        return middles;
    }

    private static (int From, int To, double Middle, double Width) Joined(int from, int to, double[] wanted, double[] widths)
    {
        double width = 0, sum = 0;
        for (int i = from; i <= to; width += widths[i], i++)
            sum += wanted[i] - width - widths[i] / 2;
        return (from, to, sum / (to - from + 1) + width / 2, width);
    }
}
