using MathNet.Numerics.Distributions;
using Stillhook.Physics.Air;

namespace Stillhook.Reporting;

/// <summary>What an aircraft takes to hover out of ground effect, learned from its own hovers: torque (%) or power (kW) against gross mass and density altitude.</summary>
/// <remarks>
/// P = a·σ + b·m^1.5/√σ, σ the density ratio: profile power goes with the air's density, induced power with m^1.5/√ρ [LEISHMAN]. Of the lines through any two hovers the one
/// with the smallest median residual is taken, hovers 3.5 spreads and more off it, as in a gust or close to the ground, are left out, and least squares goes through the rest [ROUSSEEUW]. Good inside the masses and density altitudes that it was learned from; nothing is said outside. docs/method/baselines.md.
/// </remarks>
public sealed record HoverBaseline
{
    private const int LeastPoints = 5, MostInPairs = 60;
    // What the fuel on board may be off, one standard deviation, kg; it is common to the hovers of a day. Own choices.
    private const double GaugeOffKg = 10, PlanOffKg = 40, AssumedOffKg = 100;
    private const double LeastMassRatio = 1.05, FarOffSpreads = 3.5, MadToSigma = 1.4826;

    private HoverBaseline()
    {
    }

    /// <summary>Aircraft that it is of.</summary>
    public required string Aircraft { get; init; }

    /// <summary>Unit of the values: "%" torque or "kW" power.</summary>
    public required string Unit { get; init; }

    /// <summary>Hovers learned from.</summary>
    public required int Count { get; init; }

    /// <summary>Hovers left out as far off.</summary>
    public required int LeftOut { get; init; }

    /// <summary>a, in <see cref="Unit"/>.</summary>
    public required double Profile { get; init; }

    /// <summary>b, in <see cref="Unit"/> per t^1.5.</summary>
    public required double Induced { get; init; }

    /// <summary>Spread of one hover about the line, in <see cref="Unit"/>.</summary>
    public required double Sigma { get; init; }

    /// <summary>Gross masses learned from, kg.</summary>
    public required (double Least, double Most) MassKg { get; init; }

    /// <summary>Density altitudes learned from, m.</summary>
    public required (double Least, double Most) DensityAltitudeM { get; init; }

    // Nine in ten lie within this many spreads: Student's t, since the spread was measured on the same hovers [STUDENT-T].
    private double TimesSigma => StudentT.InvCDF(0, 1, Count - 2, 0.95);

    private (double Xx, double Xy, double Yy) Information { get; init; }

    /// <summary>The baseline of one aircraft's hovers; null with the reason when they do not carry one.</summary>
    public static (HoverBaseline? Baseline, string? Why) Learn(string aircraft, IReadOnlyList<HoverPoint> hovers)
    {
        ArgumentNullException.ThrowIfNull(hovers);
        List<HoverPoint> own = [.. hovers.Where(h => h.Aircraft == aircraft && double.IsFinite(h.GrossKg) && double.IsFinite(h.DensityAltitudeM))];
        bool torque = own.Count(h => h.TorquePercent is not null) >= own.Count(h => h.PowerKw is not null);
        own.RemoveAll(h => Value(h, torque) is not { } v || !double.IsFinite(v));
        int assumed = own.RemoveAll(h => h.FuelFrom == FuelFrom.Assumed);
        if (own.Count < LeastPoints)
            return (null, $"{own.Count} hovers with torque or power are kept of {aircraft}{(assumed > 0 ? $", beside {assumed} whose fuel on board is only assumed" : "")}; {LeastPoints} are needed.");
        double least = own.Min(h => h.GrossKg), most = own.Max(h => h.GrossKg);
        if (most < LeastMassRatio * least)
            return (null, $"All {own.Count} hovers of {aircraft} are at about the same mass ({Math.Round(least)} to {Math.Round(most)} kg): no line through them.");
        double[] x = [.. own.Select(h => DensityRatio(h.DensityAltitudeM))], y = [.. own.Select(h => InducedTerm(h.GrossKg, h.DensityAltitudeM))], v = [.. own.Select(h => Value(h, torque)!.Value)];
        double[] Off((double A, double B) line) => [.. v.Select((p, i) => Math.Abs(p - line.A * x[i] - line.B * y[i]))];
        double[] first = Off(LeastMedian(x, y, v));
        double far = FarOffSpreads * Math.Max(1e-9, MadToSigma * (1 + 5.0 / (own.Count - 2)) * Median([.. first]));
        int[] near = [.. Enumerable.Range(0, v.Length).Where(i => first[i] <= far)];
        (double a, double b, (double, double, double) information) = Fit([.. near.Select(i => x[i])], [.. near.Select(i => y[i])], [.. near.Select(i => v[i])]);
        if (!(b > 0))
            return (null, $"Over the {own.Count} hovers of {aircraft} {(torque ? "torque" : "power")} does not rise with mass: the masses can't be right; check loads and fuel on board.");
        return (new()
        {
            Aircraft = aircraft,
            Unit = torque ? "%" : "kW",
            Count = near.Length,
            LeftOut = own.Count - near.Length,
            Profile = a,
            Induced = b,
            Sigma = Off((a, b)) is var off ? Math.Sqrt(near.Sum(i => off[i] * off[i]) / (near.Length - 2)) : 0,
            MassKg = (least, most),
            DensityAltitudeM = (own.Min(h => h.DensityAltitudeM), own.Max(h => h.DensityAltitudeM)),
            Information = information,
        }, null);
    }

    /// <summary>True when a mass (kg) and density altitude (m) lie inside what it was learned from, 2 % and 150 m of slack.</summary>
    public bool Covers(double grossKg, double densityAltitudeM) =>
        grossKg >= 0.98 * MassKg.Least && grossKg <= 1.02 * MassKg.Most && densityAltitudeM >= DensityAltitudeM.Least - 150 && densityAltitudeM <= DensityAltitudeM.Most + 150;

    /// <summary>What the hover takes, in <see cref="Unit"/>; null outside what it was learned from.</summary>
    public double? At(double grossKg, double densityAltitudeM) => Covers(grossKg, densityAltitudeM) ? Line(grossKg, densityAltitudeM) : null;

    /// <summary>Half width of the band that holds one hover in nine of ten, in <see cref="Unit"/>: spread of a hover and doubt of the line.</summary>
    public double HalfBand(double grossKg, double densityAltitudeM) =>
        TimesSigma * Math.Sqrt(Sigma * Sigma + LineVariance(DensityRatio(densityAltitudeM), InducedTerm(grossKg, densityAltitudeM)));

    /// <summary>Half width of the 90 % band of the line itself, in <see cref="Unit"/>: what many hovers would come to on average.</summary>
    public double LineHalfBand(double grossKg, double densityAltitudeM) => TimesSigma * Math.Sqrt(LineVariance(DensityRatio(densityAltitudeM), InducedTerm(grossKg, densityAltitudeM)));

    /// <summary>How a day's hovers stand against the baseline; null when none lies inside it.</summary>
    public HoverShift? Compare(IReadOnlyList<HoverPoint> today)
    {
        ArgumentNullException.ThrowIfNull(today);
        bool torque = Unit == "%";
        List<(double Share, double One, double Line, double Fuel)> hovers = [];
        foreach (HoverPoint h in today.Where(h => h.Aircraft == Aircraft))
            if (Value(h, torque) is { } v && double.IsFinite(v) && At(h.GrossKg, h.DensityAltitudeM) is { } expected)
                hovers.Add((100 * (v / expected - 1), 100 * Sigma / expected, 100 * Math.Sqrt(LineVariance(DensityRatio(h.DensityAltitudeM), InducedTerm(h.GrossKg, h.DensityAltitudeM))) / expected,
                    100 * 1.5 * Induced * InducedTerm(h.GrossKg, h.DensityAltitudeM) / h.GrossKg * OffKg(h.FuelFrom) / expected));
        if (hovers.Count == 0)
            return null;
        // A day's hovers scatter apart from each other; the doubt of the line and that of the day's fuel are common to all of them.
        double error = Math.Sqrt(hovers.Average(h => h.One * h.One) / hovers.Count + Math.Pow(hovers.Average(h => h.Line), 2) + Math.Pow(hovers.Average(h => h.Fuel), 2));
        return new(hovers.Average(h => h.Share), TimesSigma * error, hovers.Count);
    }

    private static double OffKg(FuelFrom? from) => from switch
    {
        FuelFrom.Gauge => GaugeOffKg,
        FuelFrom.Plan => PlanOffKg,
        FuelFrom.Assumed => AssumedOffKg,
        _ => 0,
    };

    private double Line(double grossKg, double densityAltitudeM) => Profile * DensityRatio(densityAltitudeM) + Induced * InducedTerm(grossKg, densityAltitudeM);

    private double LineVariance(double x, double y)
    {
        (double xx, double xy, double yy) = Information;
        double determinant = xx * yy - xy * xy;
        return Sigma * Sigma * (x * x * yy - 2 * x * y * xy + y * y * xx) / determinant;
    }

    /// <summary>Of the lines through two hovers, that with the smallest median residual; of many hovers 60, evenly picked.</summary>
    private static (double A, double B) LeastMedian(double[] x, double[] y, double[] v)
    {
        int every = Math.Max(1, v.Length / MostInPairs);
        int[] picked = [.. Enumerable.Range(0, v.Length).Where(i => i % every == 0)];
        (double A, double B) best = default;
        double least = double.PositiveInfinity;
        foreach (int i in picked)
            foreach (int j in picked.Where(j => j < i))
            {
                double determinant = x[i] * y[j] - x[j] * y[i];
                if (Math.Abs(determinant) < 1e-9)
                    continue;
                (double a, double b) = ((v[i] * y[j] - v[j] * y[i]) / determinant, (x[i] * v[j] - x[j] * v[i]) / determinant);
                double median = Median([.. picked.Select(k => Math.Abs(v[k] - a * x[k] - b * y[k]))]);
                if (median < least)
                    (least, best) = (median, (a, b));
            }
        return best;
    }

    private static double Median(double[] values)
    {
        Array.Sort(values);
        return values[values.Length / 2];
    }

    private static (double A, double B, (double, double, double) Information) Fit(double[] x, double[] y, double[] v)
    {
        double xx = 0, xy = 0, yy = 0, xv = 0, yv = 0;
        for (int i = 0; i < x.Length; i++)
        {
            xx += x[i] * x[i];
            xy += x[i] * y[i];
            yy += y[i] * y[i];
            xv += x[i] * v[i];
            yv += y[i] * v[i];
        }
        double determinant = xx * yy - xy * xy;
        return ((xv * yy - yv * xy) / determinant, (yv * xx - xv * xy) / determinant, (xx, xy, yy));
    }

    private static double? Value(HoverPoint h, bool torque) => torque ? h.TorquePercent : h.PowerKw;

    private static double DensityRatio(double densityAltitudeM) =>
        StandardAtmosphere.DensityKgM3(StandardAtmosphere.PressurePa(densityAltitudeM), StandardAtmosphere.TemperatureK(densityAltitudeM)) / StandardAtmosphere.DensityKgM3(StandardAtmosphere.PressurePa(0), StandardAtmosphere.TemperatureK(0));

    private static double InducedTerm(double grossKg, double densityAltitudeM) => Math.Pow(grossKg / 1000, 1.5) / Math.Sqrt(DensityRatio(densityAltitudeM));
}

/// <summary>A day's hovers against the baseline.</summary>
/// <param name="Percent">Mean over the baseline at the same mass and air, %.</param>
/// <param name="HalfBandPercent">Half width of the 90 % band of that mean, %.</param>
/// <param name="Count">Hovers inside the baseline.</param>
public sealed record HoverShift(double Percent, double HalfBandPercent, int Count)
{
    /// <summary>True when the day differs by more than the band.</summary>
    public bool IsReal => Math.Abs(Percent) > HalfBandPercent;
}
