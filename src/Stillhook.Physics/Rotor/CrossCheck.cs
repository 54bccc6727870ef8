namespace Stillhook.Physics.Rotor;

/// <summary>Calibrates on one half of a chart and predicts the other, and the other way round.</summary>
internal static class CrossCheck
{
    public static PredictionError? Of(in MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData data)
    {
        if (chart.Count(p => !PowerCalibration.AtLimit(p, data.MassLimitKg)) < PowerCalibration.FewestToCrossCheck)
            return null;
        (HoverChartPoint[] dark, HoverChartPoint[] light) = Chequered(chart);
        (HoverChartPoint Point, double Error)[] errors = [.. Errors(rotor, dark, light, data), .. Errors(rotor, light, dark, data)];
        (HoverChartPoint worst, double largest) = errors.MaxBy(e => e.Error);
        return new(errors.Length, largest, Math.Sqrt(errors.Average(e => e.Error * e.Error)), worst);
    }

    private static IEnumerable<(HoverChartPoint Point, double Error)> Errors(
        MainRotor rotor, HoverChartPoint[] seen, HoverChartPoint[] unseen, HelicopterPowerData data)
    {
        PowerModel model = PowerCalibration.Fitted(rotor, seen, data, null);
        return unseen.Select(p => (Point: p, Error: Math.Abs(model.HoverCeilingMassKg(p.PressureAltitudeM, p.TemperatureK) / p.MassKg - 1)))
            .Where(e => e.Error > 0 || !PowerCalibration.AtLimit(e.Point, data.MassLimitKg)); // hitting the mass limit is no merit
    }

    // Like the squares of a chess board: row by pressure altitude, place in the row by temperature. Works for grids, for ISA-relative and for loose points.
    private static (HoverChartPoint[] Dark, HoverChartPoint[] Light) Chequered(IReadOnlyList<HoverChartPoint> chart)
    {
        ILookup<bool, HoverChartPoint> squares = chart.GroupBy(p => Math.Round(p.PressureAltitudeM)).OrderBy(row => row.Key)
            .SelectMany((row, i) => row.OrderBy(p => p.TemperatureK).Select((p, j) => (Point: p, Dark: (i + j) % 2 == 0)))
            .ToLookup(s => s.Dark, s => s.Point);
        return ([.. squares[true]], [.. squares[false]]);
    }
}
