namespace Stillhook.Reporting;

/// <summary>Power in a steady hover out of ground effect with the load hanging, as flown.</summary>
/// <param name="AtS">When, s since 1970 UTC.</param>
/// <param name="Aircraft">Aircraft's name.</param>
/// <param name="Pilot">Who flew; null when not told.</param>
/// <param name="DensityAltitudeM">Density altitude of the hook, m.</param>
/// <param name="GrossKg">All that the rotor carries, kg.</param>
/// <param name="TorquePercent">Torque, % of the limit; null when only power was recorded.</param>
/// <param name="PowerKw">Power, kW; null when only torque was recorded.</param>
public sealed record HoverPoint(double AtS, string Aircraft, string? Pilot, double DensityAltitudeM, double GrossKg, double? TorquePercent, double? PowerKw);
