using System.Globalization;
using UnitsNet;

namespace Stillhook.Planning.Payload;

/// <summary>One printed value that an interpolation used.</summary>
/// <param name="PressureAltitude">Row.</param>
/// <param name="TemperatureC">Column, °C.</param>
/// <param name="Value">Value there.</param>
/// <param name="Weight">Its share of the result.</param>
public readonly record struct ChartCorner(Length PressureAltitude, double TemperatureC, double Value, double Weight);

/// <summary>What a chart gives at a place: a value with the corners it came from, or why it gives none.</summary>
/// <param name="Value">Value, or not a number when refused.</param>
/// <param name="Refused">Why there is no value; empty when there is one.</param>
/// <param name="Corners">Printed values it was interpolated from.</param>
public sealed record ChartReading(double Value, string Refused, IReadOnlyList<ChartCorner> Corners)
{
    /// <summary>True when the chart gives a value.</summary>
    public bool IsGiven => Refused.Length == 0;
}

/// <summary>A flight-manual table over pressure altitude and temperature, read by linear interpolation between its own printed values.</summary>
/// <remarks>
/// Inside its range only: a point beyond the first or last row or column, or beside a cell the page leaves empty, is refused and never
/// extended. Between rows and columns the value is linear both ways, as a ruler on the page would give it; a printed curve bends less than
/// 0.5 % between the usual 2 000 ft and 10 °C (own measurement, docs/method/payload.md).
/// </remarks>
public sealed class ChartTable
{
    private readonly IReadOnlyList<Length> rows;
    private readonly double[] altitudesM;
    private readonly double[] temperaturesC;
    private readonly Func<int, int, double?> cell;

    /// <summary>A table.</summary>
    /// <param name="pressureAltitudes">Rows, rising.</param>
    /// <param name="temperatures">Columns, rising.</param>
    /// <param name="cell">Value of a row and column, or null where the page has none.</param>
    public ChartTable(IReadOnlyList<Length> pressureAltitudes, IReadOnlyList<Temperature> temperatures, Func<int, int, double?> cell)
    {
        ArgumentNullException.ThrowIfNull(pressureAltitudes);
        ArgumentNullException.ThrowIfNull(temperatures);
        rows = pressureAltitudes;
        altitudesM = [.. pressureAltitudes.Select(l => l.Meters)];
        temperaturesC = [.. temperatures.Select(t => t.DegreesCelsius)];
        this.cell = cell;
    }

    /// <summary>The table of a hover chart, kg.</summary>
    public static ChartTable From(HoverChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return new(chart.PressureAltitude, chart.Temperature, (row, column) => chart.Mass[row][column]?.Kilograms);
    }

    /// <summary>Lowest and highest temperature of the page, °C.</summary>
    public (double Low, double High) TemperatureRangeC => (temperaturesC[0], temperaturesC[^1]);

    /// <summary>Every printed value.</summary>
    public IEnumerable<ChartCorner> Printed =>
        from row in Enumerable.Range(0, altitudesM.Length)
        from column in Enumerable.Range(0, temperaturesC.Length)
        where cell(row, column) is not null
        select new ChartCorner(rows[row], temperaturesC[column], cell(row, column)!.Value, 1);

    /// <summary>The value at a pressure altitude (m) and temperature (°C).</summary>
    public ChartReading At(double pressureAltitudeM, double temperatureC)
    {
        if (!TryPlace(altitudesM, pressureAltitudeM, out int row, out double up))
            return Refuse(string.Create(CultureInfo.InvariantCulture,
                $"pressure altitude {Feet(pressureAltitudeM):0} ft is outside the chart's {rows[0].Feet:0} to {rows[^1].Feet:0} ft"));
        if (!TryPlace(temperaturesC, temperatureC, out int column, out double right))
            return Refuse(string.Create(CultureInfo.InvariantCulture,
                $"{temperatureC:0.#} °C is outside the chart's {temperaturesC[0]:0.#} to {temperaturesC[^1]:0.#} °C"));
        List<ChartCorner> corners = [];
        double value = 0;
        for (int r = 0; r <= 1; r++)
            for (int c = 0; c <= 1; c++)
            {
                double weight = (r == 0 ? 1 - up : up) * (c == 0 ? 1 - right : right);
                if (weight == 0)
                    continue;
                if (cell(row + r, column + c) is not { } printed)
                    return Refuse(string.Create(CultureInfo.InvariantCulture,
                        $"the chart has no value at {rows[row + r].Feet:0} ft and {temperaturesC[column + c]:0.#} °C"));
                corners.Add(new(rows[row + r], temperaturesC[column + c], printed, weight));
                value += weight * printed;
            }
        return new(value, "", corners);
    }

    private static double Feet(double m) => m / 0.3048;

    private static ChartReading Refuse(string why) => new(double.NaN, why, []);

    private static bool TryPlace(double[] axis, double at, out int index, out double share)
    {
        // A metre or a hundredth of a degree of rounding at the edge of the page is the page's edge.
        const double RoundingShare = 1e-9;
        double slack = RoundingShare * (1 + Math.Abs(axis[^1] - axis[0]));
        index = 0;
        share = 0;
        if (!(at >= axis[0] - slack && at <= axis[^1] + slack))
            return false;
        at = Math.Clamp(at, axis[0], axis[^1]);
        if (axis.Length == 1)
            return true;
        while (index < axis.Length - 2 && at > axis[index + 1])
            index++;
        share = (at - axis[index]) / (axis[index + 1] - axis[index]);
        return true;
    }
}
