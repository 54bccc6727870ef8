using System.Globalization;
using UnitsNet;

namespace Stillhook.Planning.Checking;

/// <summary>A hover ceiling chart: rising axes, a full table, and masses that fall with height and with heat, as on every such page.</summary>
internal static class HoverChartCheck
{
    public static IEnumerable<RequestFinding> Findings(HoverChart chart, string path)
    {
        List<RequestFinding> shape =
        [
            .. ChartAxes.Rising([.. chart.PressureAltitude.Select(a => a.Meters)], path + ".pressureAltitude"),
            .. ChartAxes.Rising([.. chart.Temperature.Select(t => t.Kelvins)], path + ".temperature"),
            .. Size(chart, path),
        ];
        return shape.Count > 0 ? shape : Cells(chart, path + ".mass");
    }

    private static IEnumerable<RequestFinding> Size(HoverChart chart, string path)
    {
        if (chart.Mass.Count != chart.PressureAltitude.Count)
            yield return RequestCheck.Error("chart-rows", path + ".mass", string.Create(CultureInfo.InvariantCulture, $"{chart.Mass.Count} rows of masses for {chart.PressureAltitude.Count} pressure altitudes."),
                "Write one row of masses for each pressure altitude.");
        for (int row = 0; row < chart.Mass.Count; row++)
            if (chart.Mass[row].Count != chart.Temperature.Count)
                yield return RequestCheck.Error("chart-columns", ChartAxes.At(path + ".mass", row), string.Create(CultureInfo.InvariantCulture, $"{chart.Mass[row].Count} masses for {chart.Temperature.Count} temperatures."),
                    "Write one mass for each temperature; null where the page gives none.");
    }

    private static IEnumerable<RequestFinding> Cells(HoverChart chart, string path)
    {
        List<(string At, string Cell)> holes = [];
        for (int row = 0; row < chart.Mass.Count; row++)
            for (int column = 0; column < chart.Temperature.Count; column++)
            {
                string cell = ChartAxes.Cell(chart.PressureAltitude[row], chart.Temperature[column]), at = ChartAxes.At(path, row, column);
                if (chart.Mass[row][column] is not { } mass)
                    holes.Add((at, cell));
                else if (Before(chart, row, column, mass) is { } smaller)
                    yield return RequestCheck.Error("chart-mass-rises", at, $"{ChartAxes.Text(mass)} at {cell} is more than the {smaller}.", "Hover masses fall with height and with heat: compare both cells with the page.");
            }
        if (ChartAxes.Holes(holes, "mass") is { } finding)
            yield return finding;
    }

    // The nearest figure that is cooler or lower and yet smaller.
    private static string? Before(HoverChart chart, int row, int column, Mass mass)
    {
        for (int c = column - 1; c >= 0; c--)
            if (chart.Mass[row][c] is { } cooler)
            {
                if (cooler < mass)
                    return $"{ChartAxes.Text(cooler)} at {ChartAxes.Text(chart.Temperature[c])}";
                break;
            }
        for (int r = row - 1; r >= 0; r--)
            if (chart.Mass[r][column] is { } lower)
                return lower < mass ? $"{ChartAxes.Text(lower)} at {ChartAxes.Text(chart.PressureAltitude[r])}" : null;
        return null;
    }
}
