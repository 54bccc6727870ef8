using System.Globalization;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Planning.Checking;

/// <summary>Axes of a typed-in chart: they rise, and its cells are named by them.</summary>
internal static class ChartAxes
{
    /// <summary>Where an axis does not rise from one entry to the next.</summary>
    public static IEnumerable<RequestFinding> Rising(IReadOnlyList<double> axis, string path)
    {
        if (axis.Count == 0)
            yield return RequestCheck.Error("chart-axis-empty", path, "This axis of the chart is empty.", "Type in the values printed along it.");
        for (int i = 1; i < axis.Count; i++)
            if (!(axis[i] > axis[i - 1]))
                yield return RequestCheck.Error("chart-axis-not-rising", At(path, i), "The axis does not rise here.", "Write the axis from low to high, each value once, and its masses or torques in the same order.");
    }

    /// <summary>The name of a row and column as a person finds them on the page.</summary>
    public static string Cell(Length altitude, Temperature temperature) => $"{Text(altitude)} and {Text(temperature)}";

    public static string Text(Length altitude) => Text(altitude.Value, Length.GetAbbreviation(altitude.Unit, CultureInfo.InvariantCulture));

    public static string Text(Temperature temperature) => Text(temperature.Value, Temperature.GetAbbreviation(temperature.Unit, CultureInfo.InvariantCulture));

    public static string Text(Mass mass) => Text(mass.Value, Mass.GetAbbreviation(mass.Unit, CultureInfo.InvariantCulture));

    public static string At(string path, params ReadOnlySpan<int> indices)
    {
        foreach (int index in indices)
            path = string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");
        return path;
    }

    private static string Text(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{value:0.###} {unit}");

    /// <summary>One finding for all empty cells of a chart, where the first one stands; null when there are none.</summary>
    public static RequestFinding? Holes(IReadOnlyList<(string At, string Cell)> holes, string what)
    {
        if (holes.Count == 0)
            return null;
        string more = holes.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $", nor in {holes.Count - 1} more cells") : "";
        return new(Severity.Note, "chart-hole", holes[0].At, $"The chart has no {what} at {holes[0].Cell}{more}.", "Look-ups that touch an empty cell are refused; type the figure in if the page gives one.");
    }
}
