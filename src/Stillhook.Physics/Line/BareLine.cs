using Stillhook.Physics.Earth;
using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Line;

/// <summary>The unladen line with its hook in steady level flight: how high it trails.</summary>
/// <remarks>
/// Perfectly flexible line of even weight, heavy point at its end. Air force on the line by the cross-flow principle [HOERNER-DRAG] (from
/// memory): per metre ½ρV²·d·Cd·cos²θ, square to the line, θ the line's angle from the vertical; along the line none (skin friction would
/// add a few per cent at large angles). Rotor downwash, gusts, flutter and the lift of an empty net or bonnet are left out: they are what brings
/// a light line up to the tail, so a speed from here is an upper bound and wants a margin. Steady flight never lifts the tip above the hook.
/// </remarks>
/// <param name="LengthM">Belly hook to the tip, above 0.</param>
/// <param name="LineKgPerM">μ, 0 or above.</param>
/// <param name="DiameterM">d, 0 or above.</param>
/// <param name="HookKg">Mass of the remote hook (swivel, bare rigging) at the tip, above 0.</param>
/// <param name="HookDragAreaM2">Cd·A of it, 0 or above.</param>
/// <param name="LineDragCoefficient">Cd of the line across the flow; 1.2 for a round line (cylinder of infinite length).</param>
/// <param name="AirDensityKgM3">ρ, above 0.</param>
public readonly record struct BareLine(
    double LengthM, double LineKgPerM, double DiameterM, double HookKg, double HookDragAreaM2,
    double LineDragCoefficient = 1.2, double AirDensityKgM3 = 1.225)
{
    private const int Steps = 200;
    private const double FastestMs = 150;

    /// <summary>Belly hook to the tip, m.</summary>
    public double LengthM { get; } = Permitted.Above0(LengthM);

    /// <summary>μ, kg/m.</summary>
    public double LineKgPerM { get; } = Permitted.From0(LineKgPerM);

    /// <summary>d, m.</summary>
    public double DiameterM { get; } = Permitted.From0(DiameterM);

    /// <summary>Mass at the tip, kg.</summary>
    public double HookKg { get; } = Permitted.Above0(HookKg);

    /// <summary>Cd·A at the tip, m².</summary>
    public double HookDragAreaM2 { get; } = Permitted.From0(HookDragAreaM2);

    /// <summary>Cd across the flow.</summary>
    public double LineDragCoefficient { get; } = Permitted.From0(LineDragCoefficient);

    /// <summary>ρ, kg/m³.</summary>
    public double AirDensityKgM3 { get; } = Permitted.Above0(AirDensityKgM3);

    /// <summary>The shape at an airspeed (m/s, 0 or above).</summary>
    /// <remarks>
    /// From the tip upward, F the pull of the line above (F_x forward, F_z up), tan θ = F_x/F_z: F_x' = n·cos θ, F_z' = μg − n·sin θ, n the air force per metre;
    /// tip F = (q·S, m·g). Runge-Kutta of fourth order, 200 steps; tip place within 1 mm (tested against the catenary).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">Speed below 0 or not a number.</exception>
    public BareLineShape Shape(double airspeedMs)
    {
        double q = AirDensityKgM3 * Permitted.From0(airspeedMs) * airspeedMs / 2, h = LengthM / Steps;
        double n = q * DiameterM * LineDragCoefficient, weight = LineKgPerM * Gravity.Standard;
        Pull pull = new(q * HookDragAreaM2, HookKg * Gravity.Standard);
        double tip = pull.AngleRad;
        LinePoint[] points = new LinePoint[Steps + 1];
        LinePoint at = default;
        for (int i = 0; i <= Steps; i++)
        {
            points[Steps - i] = at;
            if (i == Steps)
                break;
            Pull k1 = pull.Change(n, weight), p2 = pull.Plus(h / 2, k1);
            Pull k2 = p2.Change(n, weight), p3 = pull.Plus(h / 2, k2);
            Pull k3 = p3.Change(n, weight), p4 = pull.Plus(h, k3);
            Pull next = pull.Plus(h / 6, k1).Plus(h / 3, k2).Plus(h / 3, k3).Plus(h / 6, p4.Change(n, weight));
            at = new(at.AftM - h / 6 * (pull.Sin + 2 * p2.Sin + 2 * p3.Sin + next.Sin), at.BelowM - h / 6 * (pull.Cos + 2 * p2.Cos + 2 * p3.Cos + next.Cos));
            pull = next;
        }
        return new(tip, pull.AngleRad, Math.Sqrt(pull.ForwardN * pull.ForwardN + pull.UpN * pull.UpN), [.. points.Select(p => new LinePoint(p.AftM - at.AftM, p.BelowM - at.BelowM))]);
    }

    /// <summary>Largest airspeed, m/s, at which every point of the line stays below a straight line from the belly hook rearward and down; 150 m/s when none up to there is too fast.</summary>
    /// <param name="belowHorizontalRad">Angle of that line below the horizontal, 0 to under π/2.</param>
    public double LargestSpeedBelowMs(double belowHorizontalRad)
    {
        if (!(belowHorizontalRad is >= 0 and < Math.PI / 2))
            throw new ArgumentOutOfRangeException(nameof(belowHorizontalRad), belowHorizontalRad, "Permitted: 0 to under pi/2.");
        BareLine line = this;
        return LargestSpeed(v => line.Shape(v).HighestRad <= Math.PI / 2 - belowHorizontalRad);
    }

    /// <summary>Largest airspeed, m/s, at which the line keeps a distance from a point of the tail; 0 when it is nearer at rest, 150 m/s when none up to there is too fast.</summary>
    /// <param name="tailAftM">Lowest point of the tail rotor aft of the belly hook, above 0.</param>
    /// <param name="tailBelowHookM">How far below the hook; negative when it is above.</param>
    /// <param name="marginM">Distance to keep, above 0.</param>
    public double LargestSpeedMs(double tailAftM, double tailBelowHookM, double marginM)
    {
        LinePoint tail = new(Permitted.Above0(tailAftM), Permitted.Finite(tailBelowHookM));
        Permitted.Above0(marginM);
        BareLine line = this;
        return LargestSpeed(v => line.Shape(v).DistanceToM(tail) >= marginM);
    }

    /// <summary>End of the first stretch of speeds, from rest up, that are allowed: 1 m/s at a time, then by halving.</summary>
    private static double LargestSpeed(Func<double, bool> allowed)
    {
        if (!allowed(0))
            return 0;
        double low = 0;
        while (low < FastestMs && allowed(low + 1))
            low++;
        if (low >= FastestMs)
            return FastestMs;
        double high = low + 1;
        for (int i = 0; i < 30; i++)
        {
            double middle = (low + high) / 2;
            if (allowed(middle))
                low = middle;
            else
                high = middle;
        }
        return low;
    }

    /// <summary>Pull of the line above on the line below, N.</summary>
    private readonly record struct Pull(double ForwardN, double UpN)
    {
        private double SizeN => Math.Sqrt(ForwardN * ForwardN + UpN * UpN);
        public double Sin => ForwardN / SizeN;
        public double Cos => UpN / SizeN;
        public double AngleRad => Math.Atan2(ForwardN, UpN);
        public Pull Change(double airNPerM, double weightNPerM) => new(airNPerM * Cos * Math.Abs(Cos) * Cos, weightNPerM - airNPerM * Cos * Math.Abs(Cos) * Sin);
        public Pull Plus(double factor, Pull other) => new(ForwardN + factor * other.ForwardN, UpN + factor * other.UpN);
    }
}

/// <summary>A point of the line as seen from the belly hook.</summary>
/// <param name="AftM">Behind it, m.</param>
/// <param name="BelowM">Below it, m.</param>
public readonly record struct LinePoint(double AftM, double BelowM);

/// <summary>Shape of the unladen line in steady flight.</summary>
/// <param name="TipRad">Angle of the line from the vertical at its tip.</param>
/// <param name="TopRad">The same at the belly hook.</param>
/// <param name="TopTensionN">Pull on the belly hook.</param>
/// <param name="Points">From the belly hook (0, 0) to the tip.</param>
public sealed record BareLineShape(double TipRad, double TopRad, double TopTensionN, IReadOnlyList<LinePoint> Points)
{
    /// <summary>The tip.</summary>
    public LinePoint Tip => Points[^1];

    /// <summary>Angle from the vertical at which the belly hook sees the tip, rad: the trail angle.</summary>
    public double TrailRad => Math.Atan2(Tip.AftM, Tip.BelowM);

    /// <summary>Largest angle from the vertical at which any point of the line is seen from the belly hook, rad.</summary>
    public double HighestRad => Points.Skip(1).Max(p => Math.Atan2(p.AftM, p.BelowM));

    /// <summary>Closest distance of the line to a point, m.</summary>
    public double DistanceToM(LinePoint point)
    {
        double nearest = double.PositiveInfinity;
        for (int i = 1; i < Points.Count; i++)
            nearest = Math.Min(nearest, Distance(Points[i - 1], Points[i], point));
        return nearest;
    }

    private static double Distance(LinePoint a, LinePoint b, LinePoint p)
    {
        double dx = b.AftM - a.AftM, dz = b.BelowM - a.BelowM;
        double along = Math.Clamp(((p.AftM - a.AftM) * dx + (p.BelowM - a.BelowM) * dz) / (dx * dx + dz * dz), 0, 1);
        return Math.Sqrt(Math.Pow(a.AftM + along * dx - p.AftM, 2) + Math.Pow(a.BelowM + along * dz - p.BelowM, 2));
    }
}
