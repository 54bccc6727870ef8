using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>A stop in which the time to contact shrinks at a constant rate (constant tau-dot): the distance still to go over speed, τ = x/V, falls by c every second.</summary>
/// <remarks>
/// [PADFIELD-TAU]. c = 0.5 is a constant deceleration; below, the deceleration dies away at the spot; above, it rises towards it.
/// Exact for its law; a pilot's stop follows it loosely. Distances run to the stopping point, m; time from the start of the stop, s.
/// </remarks>
/// <param name="SpeedMs">V₀, speed at the start; above 0.</param>
/// <param name="DistanceM">x₀, distance to the stopping point at the start; above 0.</param>
/// <param name="TauRate">c, between 0 and 1 (neither of them).</param>
public readonly record struct TauStop(double SpeedMs, double DistanceM, double TauRate)
{
    /// <summary>V₀, m/s.</summary>
    public double SpeedMs { get; } = Permitted.Above0(SpeedMs);

    /// <summary>x₀, m.</summary>
    public double DistanceM { get; } = Permitted.Above0(DistanceM);

    /// <summary>c.</summary>
    public double TauRate { get; } = TauRate is > 0 and < 1 ? TauRate
        : throw new ArgumentOutOfRangeException(nameof(TauRate), TauRate, "Permitted: between 0 and 1.");

    /// <summary>Time to the stop, s: x₀/(c·V₀).</summary>
    public double StopTimeS => DistanceM / (TauRate * SpeedMs);

    /// <summary>Distance still to go at a time, m: x = x₀·(1 − c·V₀·t/x₀)^(1/c). 0 from the stop on.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Time below 0.</exception>
    public double DistanceAtM(double timeS) =>
        DistanceM * Math.Pow(Math.Max(0, 1 - Permitted.From0(timeS) / StopTimeS), 1 / TauRate);

    /// <summary>Speed at a time, m/s. 0 from the stop on.</summary>
    public double SpeedAtMs(double timeS) => SpeedOverMs(DistanceAtM(timeS));

    /// <summary>Deceleration at a time before the stop, m/s².</summary>
    /// <exception cref="ArgumentOutOfRangeException">At the stop or after it.</exception>
    public double DecelerationAtMs2(double timeS) => DecelerationOverMs2(DistanceAtM(timeS));

    /// <summary>Speed with a distance still to go, m/s: V = V₀·(x/x₀)^(1 − c).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Distance below 0 or beyond the start.</exception>
    public double SpeedOverMs(double distanceM) =>
        SpeedMs * Math.Pow(Permitted.Within(distanceM, 0, DistanceM) / DistanceM, 1 - TauRate);

    /// <summary>Deceleration with a distance still to go, m/s², positive: a = (1 − c)·V²/x. Without bound towards the spot when c is above 0.5.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Distance 0, below, or beyond the start.</exception>
    public double DecelerationOverMs2(double distanceM)
    {
        double speed = SpeedOverMs(Permitted.Above0(distanceM));
        return (1 - TauRate) * speed * speed / distanceM;
    }
}
