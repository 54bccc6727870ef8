namespace Stillhook.Physics.Rotor;

/// <summary>Main rotor as its maker describes it.</summary>
/// <param name="RadiusM">Radius R.</param>
/// <param name="BladeCount">Number of blades b.</param>
/// <param name="ChordM">Blade chord c, the mean one of a tapered blade.</param>
/// <param name="TipSpeedMs">Speed of the tip in hover, ΩR.</param>
/// <remarks>Two rotors (tandem, intermeshing): the radius of one disc with the area of both, all blades counted, chord so that the blade area is right.</remarks>
/// <exception cref="ArgumentOutOfRangeException">A value not above 0, a tip speed outside 50 to 300 m/s.</exception>
public readonly record struct MainRotor(double RadiusM, int BladeCount, double ChordM, double TipSpeedMs)
{
    /// <summary>Radius R, m.</summary>
    public double RadiusM { get; } = Permitted.Above0(RadiusM, nameof(RadiusM));

    /// <summary>Number of blades b.</summary>
    public int BladeCount { get; } = (int)Permitted.Within(BladeCount, 1, 20, nameof(BladeCount));

    /// <summary>Blade chord c, m.</summary>
    public double ChordM { get; } = Permitted.Above0(ChordM, nameof(ChordM));

    /// <summary>Speed of the blade tip, m/s.</summary>
    public double TipSpeedMs { get; } = Permitted.Within(TipSpeedMs, 50, 300, nameof(TipSpeedMs));

    /// <summary>Disc area A = πR², m².</summary>
    public double DiscAreaM2 => Math.PI * RadiusM * RadiusM;

    /// <summary>Solidity σ = b·c/(πR): blade area over disc area.</summary>
    public double Solidity => BladeCount * ChordM / (Math.PI * RadiusM);

    /// <summary>Mean lift coefficient of the blades, 6·C_T/σ, C_T = T/(ρA(ΩR)²). Above about 0.7 retreating or hovering blades near the stall (common practice, no source).</summary>
    public double MeanLiftCoefficient(double thrustN, double densityKgM3) =>
        6 * thrustN / (densityKgM3 * DiscAreaM2 * TipSpeedMs * TipSpeedMs * Solidity);
}
