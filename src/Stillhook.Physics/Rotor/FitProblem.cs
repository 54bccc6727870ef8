namespace Stillhook.Physics.Rotor;

/// <summary>The least-squares problem of <see cref="PowerCalibration"/>.</summary>
internal sealed class FitProblem(MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData data)
{
    private const double Spread = 0.003, TheorySpread = 0.1;
    private static readonly double[] LimitStarts = [0, -0.02, -0.06], EngineStarts = [0, 0.15];

    // Parameters: ln(C_d0/start), ln P₀ over its start, a, b, c, and with a flat limit its logarithm over the greatest power the chart asks for.
    private readonly double[] _prior = [0, 0, 1, -2, 0, 0], _priorSpread = [0.2, 3, 0.2, 1.5, 4, 0.3];
    private readonly PowerFactors _factors = data.Factors ?? new();
    private readonly AirState[] _air = [.. chart.Select(p => new AirState(p.PressureAltitudeM, p.TemperatureK))];
    private double _lnEngine, _lnLimit;

    public HoverFit Best()
    {
        SetScales();
        (double cost, double[] best) = EngineStarts.Select(e => Solve([0, e, 1, -2, 0])).MinBy(s => s.Cost);
        foreach (double engine in EngineStarts)
            foreach (double limit in LimitStarts)
            {
                (double c, double[] p) = Solve([0, engine, 1, -2, 0, limit]);
                if (c + Math.Log(chart.Count) < cost)
                    (cost, best) = (c + Math.Log(chart.Count), p);
            }
        return Fit(best);
    }

    private void SetScales()
    {
        HoverFit start = new(_factors, 0, 1, -2, 0, null);
        double[] needed = [.. chart.Select((p, i) => Math.Log(start.RequiredW(rotor, p.MassKg, _air[i].DensityKgM3)))];
        double[] engine = [.. needed.Select((n, i) => n - Math.Log(start.EngineW(_air[i]))).Order()];
        (_lnEngine, _lnLimit) = (engine[engine.Length / 2], needed.Max());
        if (data.TransmissionLimitW is double watts)
            (_prior[^1], _priorSpread[^1]) = (Math.Log(watts) - _lnLimit, TheorySpread);
    }

    private (double Cost, double[] Parameters) Solve(double[] start) => (LeastSquares.Minimise(Residuals, start, _priorSpread[..start.Length]), start);

    private double[] Residuals(double[] parameters)
    {
        HoverFit fit = Fit(parameters);
        double[] r = new double[chart.Count + parameters.Length];
        for (int i = 0; i < chart.Count; i++)
            r[i] = MassError(fit, chart[i], _air[i]) / Spread;
        for (int i = 0; i < parameters.Length; i++)
            r[chart.Count + i] = (parameters[i] - _prior[i]) / _priorSpread[i];
        return r;
    }

    private double MassError(HoverFit fit, in HoverChartPoint point, in AirState air)
    {
        double mass = fit.MassKg(rotor, fit.AvailableW(air), air.DensityKgM3);
        double error = Math.Log(Math.Max(mass, 0.05 * point.MassKg) / point.MassKg);
        return PowerCalibration.AtLimit(point, data.MassLimitKg) ? Math.Min(0, error) : error;
    }

    private HoverFit Fit(double[] p) => new(
        _factors with { ProfileDrag = _factors.ProfileDrag * Math.Exp(Math.Clamp(p[0], -0.7, 0.7)) },
        _lnEngine + p[1], p[2], p[3], p[4], p.Length > 5 ? Math.Exp(_lnLimit + p[5]) : null);
}
