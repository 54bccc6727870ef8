namespace Stillhook.Physics.Rotor;

/// <summary>Fits <see cref="PowerModel"/> to a hover chart.</summary>
/// <remarks>
/// At each point of the chart power required equals power available. That says nothing of watts, but how power available falls with pressure and temperature:
/// P = min(P₀·δ^a·θ^(b + c·ln θ), flat limit), δ and θ pressure and temperature over those of the standard day at sea level. P₀, a, b, c, the flat limit and the blades'
/// C_d0 are fitted to the logarithms of the masses (spread 0.3 %) by least squares, with what helicopters usually are as a prior (own choice: C_d0 the start value ± 20 %,
/// a 1 ± 0.2, b −2 ± 1.5, c 0 ± 4, the flat limit the transmission's ± 10 % where that is known), so that a chart of four points can be used too. With and without
/// the flat limit are both tried; the limit stays if it pays. Points at the mass limit only say that the power is at least enough there.
/// </remarks>
internal static class PowerCalibration
{
    public const int FewestPoints = 4, FewestToCrossCheck = 8;
    private const int MostPoints = 400;
    private const double SameMass = 1e-9, OtherDensity = 0.02;

    public static PowerModel Calibrate(in MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData data)
    {
        Refuse(chart, data);
        HelicopterPowerData withLimit = data with { MassLimitKg = data.MassLimitKg ?? MassLimitKg(chart) };
        return Fitted(rotor, chart, withLimit, CrossCheck.Of(rotor, chart, withLimit));
    }

    internal static PowerModel Fitted(in MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData data, PredictionError? error)
    {
        HoverFit fit = new FitProblem(rotor, chart, data).Best();
        double flatPlate = data.FlatPlateAreaM2 ?? PowerModel.TypicalFlatPlateAreaM2(chart.Max(p => p.MassKg));
        ChartCorrection correction = Correction(rotor, chart, data.MassLimitKg, fit);
        PowerScale scale = Scale(rotor, chart, data, fit, correction);
        return new(rotor, fit, correction, new(chart), scale, data.MassLimitKg, data.TransmissionLimitW, flatPlate) { PredictionError = error };
    }

    private static PowerScale Scale(MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData data, HoverFit fit, ChartCorrection correction)
    {
        double NeededW(HoverChartPoint p) => correction.Factor(Air(p)) * fit.RequiredW(rotor, p.MassKg, Air(p).DensityKgM3);
        return PowerScale.Of(fit, chart.Where(p => !AtLimit(p, data.MassLimitKg)).Select(p => Air(p)), chart.Max(NeededW), data.TransmissionLimitW);
    }

    internal static bool AtLimit(in HoverChartPoint point, double? massLimitKg) => point.MassKg >= massLimitKg - SameMass;

    // Points at the mass limit take part only where the model would otherwise fall short of it.
    private static ChartCorrection Correction(MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, double? massLimitKg, HoverFit fit)
    {
        List<HoverChartPoint> bound = [.. chart.Where(p => !AtLimit(p, massLimitKg))], free = [.. chart.Where(p => AtLimit(p, massLimitKg))];
        while (true)
        {
            ChartCorrection correction = new(bound, [.. bound.Select(p => LnLeftOver(rotor, fit, p))]);
            List<HoverChartPoint> shortOf = [.. free.Where(p => Math.Log(correction.Factor(Air(p))) > LnLeftOver(rotor, fit, p))];
            if (shortOf.Count == 0)
                return correction;
            bound.AddRange(shortOf);
            free.RemoveAll(shortOf.Contains);
        }
    }

    private static double LnLeftOver(in MainRotor rotor, HoverFit fit, in HoverChartPoint p)
    {
        AirState air = Air(p);
        return Math.Log(fit.AvailableW(air) / fit.RequiredW(rotor, p.MassKg, air.DensityKgM3));
    }

    private static AirState Air(in HoverChartPoint p) => new(p.PressureAltitudeM, p.TemperatureK);

    private static double? MassLimitKg(IReadOnlyList<HoverChartPoint> chart)
    {
        double greatest = chart.Max(p => p.MassKg);
        double[] densities = [.. chart.Where(p => p.MassKg >= greatest - SameMass).Select(p => Air(p).DensityKgM3)];
        return densities.Max() > densities.Min() * (1 + OtherDensity) ? greatest : null;
    }

    private static void Refuse(IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData data)
    {
        if (chart.Count is < FewestPoints or > MostPoints)
            throw new ArgumentException(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{chart.Count} chart points; permitted: {FewestPoints} to {MostPoints}."), nameof(chart));
        foreach (HoverChartPoint p in chart)
        {
            _ = new AirState(p.PressureAltitudeM, p.TemperatureK);
            Permitted.Above0(p.MassKg, "massKg");
        }
        if (chart.Select(p => (p.PressureAltitudeM, p.TemperatureK)).Distinct().Count() < chart.Count)
            throw new ArgumentException("Two chart points at the same pressure altitude and temperature.", nameof(chart));
        Permitted.Above0(data.TransmissionLimitW ?? 1, nameof(data.TransmissionLimitW));
        Permitted.Above0(data.MassLimitKg ?? 1, nameof(data.MassLimitKg));
        Permitted.From0(data.FlatPlateAreaM2 ?? 0, nameof(data.FlatPlateAreaM2));
    }
}
