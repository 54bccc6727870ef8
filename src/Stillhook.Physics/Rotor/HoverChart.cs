namespace Stillhook.Physics.Rotor;

/// <summary>One point of a manual's chart of hover out of ground effect.</summary>
/// <param name="PressureAltitudeM">Pressure altitude, m.</param>
/// <param name="TemperatureK">Air temperature, K.</param>
/// <param name="MassKg">Greatest mass that hovers there, kg.</param>
public readonly record struct HoverChartPoint(double PressureAltitudeM, double TemperatureK, double MassKg);

/// <summary>What is known of a helicopter beside its rotor and its hover chart.</summary>
/// <param name="TransmissionLimitW">Power at 100 % torque; null: no torque is shown.</param>
/// <param name="MassLimitKg">Mass at which the chart is cut off; null: found, if two points or more in clearly different air share the greatest mass.</param>
/// <param name="FlatPlateAreaM2">Drag area of the fuselage; null: by mass, <see cref="PowerModel.TypicalFlatPlateAreaM2"/>.</param>
/// <param name="Factors">Start values of rotor and losses; null: the defaults.</param>
public sealed record HelicopterPowerData(
    double? TransmissionLimitW = null, double? MassLimitKg = null, double? FlatPlateAreaM2 = null, PowerFactors? Factors = null);

/// <summary>How far off the model was where it had not seen the chart: calibrated on every other point, asked for the rest, and the other way round.</summary>
/// <param name="PointsPredicted">How many points were predicted.</param>
/// <param name="LargestRelative">Largest error of the mass, over the chart's mass.</param>
/// <param name="RmsRelative">Root mean square of these errors.</param>
/// <param name="WorstPoint">Where the largest is: look there for a typing error.</param>
public sealed record PredictionError(int PointsPredicted, double LargestRelative, double RmsRelative, HoverChartPoint WorstPoint);
