using Stillhook.Physics.Motion;

namespace Stillhook.Approaching;

/// <summary>How the height follows on the way in.</summary>
public enum HeightLaw
{
    /// <summary>A glide in the distance: height ∝ (distance/start)ᵖ; p = 1 straight, above 1 steeper first and flatter at the end.</summary>
    Glide,

    /// <summary>Sink in proportion to what the speed allows: uses the limit evenly, for steep ways in.</summary>
    AllowedSink,
}

/// <summary>The free numbers of a load's path. Lengths m, times s, speeds m/s; heights are of the load's underside over the spot.</summary>
/// <param name="EntryMs">Ground speed brought to the start mark.</param>
/// <param name="StartM">Distance to go at the start mark.</param>
/// <param name="StartHeightM">Height there.</param>
/// <param name="BoxS">How long the slow-down stays at its height.</param>
/// <param name="SoftS">How long it builds up and dies away.</param>
/// <param name="Law">How the height follows.</param>
/// <param name="Bend">p of <see cref="HeightLaw.Glide"/>.</param>
/// <param name="LetDownM">Height at rest over the spot, from where the load goes straight down.</param>
/// <param name="TouchDownSinkMs">Sink at which it touches.</param>
public sealed record PathShape(double EntryMs, double StartM, double StartHeightM, double BoxS, double SoftS, HeightLaw Law, double Bend, double LetDownM, double TouchDownSinkMs)
{
    /// <summary>Tau-dot of the slow-down: 0.5 even; under it dying away towards the spot, over it rising.</summary>
    public double TauRate { get; init; } = EvenTauRate;

    /// <summary>Tau-dot of an even slow-down.</summary>
    public const double EvenTauRate = 0.5;

    /// <summary>Way of the slow-down, m: V₀(c·T_b + W/2), exact.</summary>
    public double SlowDownM => EntryMs * (TauRate * BoxS + SoftS / 2);

    /// <summary>The slow-down as shares of the entry speed.</summary>
    internal StopProfile Stop => TauRate == EvenTauRate ? new SpeedRamp(BoxS, SoftS) : new TauRamp(BoxS, TauRate, SoftS);

    /// <summary>Time from the start mark to rest over the spot, s.</summary>
    public double StopS => (StartM - SlowDownM) / EntryMs + BoxS + SoftS;

    /// <summary>Angle of the straight line from the start mark to the spot, degrees.</summary>
    public double GlideDeg => double.RadiansToDegrees(Math.Atan2(StartHeightM, StartM));
}
