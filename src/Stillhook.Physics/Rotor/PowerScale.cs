namespace Stillhook.Physics.Rotor;

/// <summary>Real watts over the watts of theory, in which the chart is fitted.</summary>
/// <param name="Factor">Real over theory's.</param>
/// <param name="ByTransmission">Whether the chart shows it, or it is taken from theory.</param>
internal readonly record struct PowerScale(double Factor, bool ByTransmission)
{
    private const int FewestAtLimit = 3;
    private const double Least = 0.8, Greatest = 1.25;

    /// <summary>
    /// Where three points of the chart or more lie on a flat limit, that is the transmission's, unless this would ask for losses no helicopter has. Else theory stands,
    /// lowered if a mass of the chart would otherwise need more than the transmission takes.
    /// </summary>
    /// <param name="fit">The fit.</param>
    /// <param name="belowMassLimit">Air at the chart's points that are not cut off by the mass limit.</param>
    /// <param name="mostNeededW">The greatest power, in theory's watts, that a mass of the chart needs.</param>
    /// <param name="transmissionW">Transmission limit in real watts, if known.</param>
    public static PowerScale Of(HoverFit fit, IEnumerable<AirState> belowMassLimit, double mostNeededW, double? transmissionW) =>
        transmissionW / fit.LimitW is double factor and >= Least and <= Greatest && belowMassLimit.Count(a => fit.AtFlatLimit(a)) >= FewestAtLimit
            ? new(factor, true)
            : new(Math.Min(1, transmissionW / mostNeededW ?? 1), false);
}
