namespace Stillhook.Adjusting;

/// <summary>The four settings of an approach that a pilot can brief and repeat.</summary>
/// <param name="StartHeightM">Hook height over the target ground at the start mark, m.</param>
/// <param name="StartDistanceM">Horizontal distance hook to target where the descent and slow-down begin, m.</param>
/// <param name="EntrySpeedMs">Ground speed at the start mark, m/s.</param>
/// <param name="PowerInHeightM">Height of the load over the target ground at which hover power is coming on, m.</param>
public readonly record struct ApproachKnobs(double StartHeightM, double StartDistanceM, double EntrySpeedMs, double PowerInHeightM)
{
    /// <summary>The knobs in the order of <see cref="TradeStep"/>.</summary>
    internal double this[int i] => i switch { 0 => StartHeightM, 1 => StartDistanceM, 2 => EntrySpeedMs, _ => PowerInHeightM };

    /// <summary>The knobs with whole trade steps added.</summary>
    internal ApproachKnobs Plus(ReadOnlySpan<int> steps) => new(
        StartHeightM + steps[0] * TradeStep.HeightM,
        StartDistanceM + steps[1] * TradeStep.DistanceM,
        EntrySpeedMs + steps[2] * TradeStep.SpeedMs,
        PowerInHeightM + steps[3] * TradeStep.HeightM);
}

/// <summary>What a height, a distance and a speed are advised in, and how far one load may move them.</summary>
/// <remarks>Common practice, no source: changes between loads are small, about 50 ft of start height at a time.</remarks>
internal static class TradeStep
{
    /// <summary>20 ft.</summary>
    public const double HeightM = 20 * 0.3048;

    /// <summary>50 m.</summary>
    public const double DistanceM = 50;

    /// <summary>5 kt.</summary>
    public const double SpeedMs = 5 * Knot;

    /// <summary>50 ft/min.</summary>
    public const double SinkMs = 50 * 0.3048 / 60;

    /// <summary>5 m sideways.</summary>
    public const double LineUpM = 5;

    /// <summary>One knot, m/s: 1852 m in 3600 s.</summary>
    public const double Knot = 1852.0 / 3600;

    /// <summary>Below this an airspeed indicator is not a speed: 40 kt.</summary>
    public const double ReadableSpeedMs = 40 * Knot;

    /// <summary>Steps of the four knobs, in SI units.</summary>
    public static readonly double[] Sizes = [HeightM, DistanceM, SpeedMs, HeightM];

    /// <summary>Most steps in one load: 60 ft, 50 m, 5 kt, 60 ft.</summary>
    public static readonly int[] Most = [3, 1, 1, 3];

    /// <summary>The knobs by index.</summary>
    public static readonly Knob[] Knobs = [Knob.StartHeight, Knob.StartDistance, Knob.EntrySpeed, Knob.PowerIn];
}
