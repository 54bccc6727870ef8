namespace Stillhook.Reporting;

/// <summary>Where the fuel on board in a hover is known from. It is most of what is doubtful about the mass.</summary>
public enum FuelFrom
{
    /// <summary>Gauge readings of the crew, even use between them.</summary>
    Gauge,

    /// <summary>The lift plan's fuel for that load.</summary>
    Plan,

    /// <summary>Nobody said: between reserve and full as the plan flies it, or half the tank.</summary>
    Assumed,
}

/// <summary>Fuel on board, and where that is known from.</summary>
/// <param name="Kg">On board, kg.</param>
/// <param name="From">Where from.</param>
public readonly record struct FuelOnBoard(double Kg, FuelFrom From);

/// <summary>Power in a steady hover out of ground effect with the load hanging, as flown.</summary>
/// <param name="AtS">When, s since 1970 UTC.</param>
/// <param name="Aircraft">Aircraft's name.</param>
/// <param name="Pilot">Who flew; null when not told.</param>
/// <param name="DensityAltitudeM">Density altitude of the hook, m.</param>
/// <param name="GrossKg">All that the rotor carries, kg: load and fuel below, and what was entered of aircraft, people and rigging.</param>
/// <param name="TorquePercent">Torque, % of the limit; null when only power was recorded.</param>
/// <param name="PowerKw">Power, kW; null when only torque was recorded.</param>
/// <param name="LoadKg">The load in that mass, kg; null when not told.</param>
/// <param name="FuelKg">The fuel in that mass, kg; null when not told.</param>
/// <param name="FuelFrom">Where that fuel is known from; null when not told.</param>
public readonly record struct HoverPoint(double AtS, string Aircraft, string? Pilot, double DensityAltitudeM, double GrossKg, double? TorquePercent, double? PowerKw,
    double? LoadKg = null, double? FuelKg = null, FuelFrom? FuelFrom = null)
{
    /// <summary>The same hover with another fuel on board; as it is where its own was not told.</summary>
    public HoverPoint WithFuel(FuelOnBoard fuel) => FuelKg is { } before ? this with { GrossKg = GrossKg - before + fuel.Kg, FuelKg = fuel.Kg, FuelFrom = fuel.From } : this;

    /// <summary>The same hover with another load, kg; as it is where its own was not told.</summary>
    public HoverPoint WithLoad(double loadKg) => LoadKg is { } before ? this with { GrossKg = GrossKg - before + loadKg, LoadKg = loadKg } : this;
}
