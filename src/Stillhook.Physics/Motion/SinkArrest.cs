using Stillhook.Physics.Earth;
using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>How much height it takes to stop a sink by pulling to the power limit, without forward speed.</summary>
/// <remarks>
/// After the pilot's reaction t_r the power rises to the limit with a first-order lag τ; thrust follows power with exponent 2/3 of the part that
/// grows with thrust, so the upward acceleration tends to a = g·[((x − s)/(1 − s))^(2/3) − 1] and sink over time is
/// w − a·(t − τ(1 − e^(−t/τ))). Momentum theory in hover (closed form, derived in docs/method/power-in.md); measured against the same motion with
/// the exponent in every step: 0 to 0.7 % too much height. Out of ground effect, rotor speed held, without the help the inflow of a
/// descent gives (safe side) and without vortex ring (unsafe: keep the sink inside <see cref="VortexRing"/>). Height is what the load loses.
/// </remarks>
/// <param name="ReactionS">t_r, 0 or above.</param>
/// <param name="LagS">τ of power behind the lever, 0 or above.</param>
/// <param name="PowerOverHover">x, power limit over power to hover out of ground effect with the load; above 0.</param>
/// <param name="ConstantShare">s, share of the hover power that does not grow with thrust; 0 to 0.9, about 0.2.</param>
public readonly record struct SinkArrest(double ReactionS, double LagS, double PowerOverHover, double ConstantShare = SinkArrest.UsualConstantShare)
{
    /// <summary>Share of the hover power that usually does not grow with thrust.</summary>
    public const double UsualConstantShare = 0.2;

    /// <summary>t_r, s.</summary>
    public double ReactionS { get; } = Permitted.From0(ReactionS);

    /// <summary>τ, s.</summary>
    public double LagS { get; } = Permitted.From0(LagS);

    /// <summary>x.</summary>
    public double PowerOverHover { get; } = Permitted.Above0(PowerOverHover);

    /// <summary>s.</summary>
    public double ConstantShare { get; } = Permitted.Within(ConstantShare, 0, 0.9);

    /// <summary>Upward acceleration at the limit, m/s²; null when there is none: the sink can't be stopped.</summary>
    public double? DecelerationMs2 => Upward is > 0 and var a ? a : null;

    /// <summary>Time from the moment the sink is to be stopped until it is, s; null when it can't be.</summary>
    /// <param name="sinkMs">Sink, positive down, 0 or above.</param>
    public double? TimeS(double sinkMs)
    {
        double sink = Permitted.From0(sinkMs);
        return DecelerationMs2 is double a ? ReactionS + PullTimeS(sink, a) : null;
    }

    /// <summary>Height lost until the sink is stopped, m; null when it can't be.</summary>
    /// <param name="sinkMs">Sink, positive down, 0 or above.</param>
    public double? HeightLostM(double sinkMs)
    {
        double sink = Permitted.From0(sinkMs);
        if (DecelerationMs2 is not double a)
            return null;
        double t = PullTimeS(sink, a);
        return sink * (ReactionS + t) - a * (t * t / 2 - LagS * (t - LagS * Risen(t)));
    }

    /// <summary>Largest sink that is stopped within a height, m/s; null when no sink can be.</summary>
    /// <param name="loadHeightM">Height of the load over the ground, less any reserve; 0 or above.</param>
    public double? LargestSinkMs(double loadHeightM)
    {
        double height = Permitted.From0(loadHeightM);
        if (DecelerationMs2 is not double a)
            return null;
        double low = 0, high = Math.Sqrt(2 * a * height); // what could be stopped without reaction and lag
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (HeightLostM(middle) <= height)
                low = middle;
            else
                high = middle;
        }
        return low;
    }

    private double Upward => PowerOverHover <= 1 ? 0
        : Gravity.Standard * (Math.Pow((PowerOverHover - ConstantShare) / (1 - ConstantShare), 2.0 / 3) - 1);

    /// <summary>Part of the power rise that has come after a time.</summary>
    private double Risen(double t) => LagS == 0 ? 1 : -double.ExpM1(-t / LagS);

    /// <summary>Root of a·(t − τ(1 − e^(−t/τ))) = w by Newton's method from above, where it converges without overshoot.</summary>
    private double PullTimeS(double sink, double a)
    {
        double t = sink / a + LagS;
        if (sink == 0 || LagS == 0)
            return sink / a;
        for (int i = 0; i < 60; i++)
        {
            double step = (a * (t - LagS * Risen(t)) - sink) / (a * Risen(t));
            t -= step;
            if (Math.Abs(step) <= 1e-13 * t)
                break;
        }
        return t;
    }
}
