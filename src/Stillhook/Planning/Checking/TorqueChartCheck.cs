using System.Globalization;

namespace Stillhook.Planning.Checking;

/// <summary>A hover torque chart: rising axes, full tables, and a torque that rises with mass.</summary>
internal static class TorqueChartCheck
{
    public static IEnumerable<RequestFinding> Findings(TorqueChart chart, string path)
    {
        List<RequestFinding> shape =
        [
            .. ChartAxes.Rising([.. chart.PressureAltitude.Select(a => a.Meters)], path + ".pressureAltitude"),
            .. ChartAxes.Rising([.. chart.Temperature.Select(t => t.Kelvins)], path + ".temperature"),
            .. ChartAxes.Rising([.. chart.Mass.Select(m => m.Kilograms)], path + ".mass"),
            .. Size(chart, path + ".torque"),
        ];
        return shape.Count > 0 ? shape : Cells(chart, path + ".torque");
    }

    private static IEnumerable<RequestFinding> Size(TorqueChart chart, string path)
    {
        if (chart.Torque.Count != chart.PressureAltitude.Count)
            yield return Wrong("chart-tables", path, chart.Torque.Count, "tables of torque", chart.PressureAltitude.Count, "pressure altitudes");
        for (int table = 0; table < chart.Torque.Count; table++)
        {
            if (chart.Torque[table].Count != chart.Temperature.Count)
                yield return Wrong("chart-rows", ChartAxes.At(path, table), chart.Torque[table].Count, "rows of torque", chart.Temperature.Count, "temperatures");
            for (int row = 0; row < chart.Torque[table].Count; row++)
                if (chart.Torque[table][row].Count != chart.Mass.Count)
                    yield return Wrong("chart-columns", ChartAxes.At(path, table, row), chart.Torque[table][row].Count, "torques", chart.Mass.Count, "masses");
        }
    }

    private static RequestFinding Wrong(string code, string path, int found, string what, int due, string axis) =>
        RequestCheck.Error(code, path, string.Create(CultureInfo.InvariantCulture, $"{found} {what} for {due} {axis}."), $"Write one for each of the {axis}; null where the page gives none.");

    private static IEnumerable<RequestFinding> Cells(TorqueChart chart, string path)
    {
        List<(string At, string Cell)> holes = [];
        for (int table = 0; table < chart.Torque.Count; table++)
            for (int row = 0; row < chart.Temperature.Count; row++)
            {
                double lastPercent = double.NegativeInfinity;
                for (int column = 0; column < chart.Mass.Count; column++)
                {
                    string cell = $"{ChartAxes.Cell(chart.PressureAltitude[table], chart.Temperature[row])} and {ChartAxes.Text(chart.Mass[column])}";
                    string at = ChartAxes.At(path, table, row, column);
                    if (chart.Torque[table][row][column] is not { Percent: var percent })
                    {
                        holes.Add((at, cell));
                        continue;
                    }
                    if (!(percent > lastPercent))
                        yield return RequestCheck.Error("chart-torque-not-rising", at, string.Create(CultureInfo.InvariantCulture, $"{percent:0.#} % at {cell} is no more than the {lastPercent:0.#} % of a smaller mass."),
                            "Torque rises with mass: compare both cells with the page.");
                    lastPercent = percent;
                }
            }
        if (ChartAxes.Holes(holes, "torque") is { } finding)
            yield return finding;
    }
}
