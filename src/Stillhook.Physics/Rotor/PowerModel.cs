using Stillhook.Physics.Air;

namespace Stillhook.Physics.Rotor;

/// <summary>Power needed and power there is, for one helicopter, calibrated on its own hover chart.</summary>
/// <remarks>
/// <see cref="RotorPower"/> gives the power needed; what the engine gives is fitted from the chart (see <see cref="PowerCalibration"/>), and what is then left over is
/// interpolated, so that the chart's masses come back at its points. It is for margins between the chart's points and along an approach;
/// a limit always comes from the chart. How far to trust it is measured, not claimed: <see cref="PredictionError"/>. Dry air.
/// </remarks>
public sealed class PowerModel
{
    private readonly MainRotor _rotor;
    private readonly HoverFit _fit;
    private readonly ChartCorrection _correction;
    private readonly ChartRange _range;
    private readonly double _flatPlateM2, _scale;
    private readonly double? _transmissionW, _massLimitKg;

    internal PowerModel(in MainRotor rotor, HoverFit fit, ChartCorrection correction, ChartRange range, PowerScale scale, double? massLimitKg, double? transmissionW, double flatPlateM2)
    {
        (_rotor, _fit, _correction, _range, _massLimitKg, _flatPlateM2) = (rotor, fit, correction, range, massLimitKg, flatPlateM2);
        (_scale, ScaledByTransmission) = scale;
        _transmissionW = transmissionW;
    }

    /// <summary>Calibrates on a chart of 4 to 400 points, and cross-checks if it has 8 or more.</summary>
    /// <exception cref="ArgumentException">Too few or too many points, or two at the same pressure altitude and temperature.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static PowerModel Calibrate(in MainRotor rotor, IReadOnlyList<HoverChartPoint> chart, HelicopterPowerData? data = null) =>
        PowerCalibration.Calibrate(rotor, chart, data ?? new());

    /// <summary>Error where the chart was not seen; null if the chart is too small to be cross-checked (fewer than 8 points below the mass limit).</summary>
    public PredictionError? PredictionError { get; internal init; }

    /// <summary>True if watts are set by the transmission limit, which the chart was seen to reach; false if they are theory's with typical losses (some 10 % uncertain).</summary>
    /// <remarks>Power as a fraction of what is available doesn't depend on this; percent torque does.</remarks>
    public bool ScaledByTransmission { get; }

    /// <summary>Mean drag coefficient of the blades that the chart asked for; prior 0.010.</summary>
    public double ProfileDrag => _fit.Factors.ProfileDrag;

    /// <summary>Drag area of the fuselage in use, m².</summary>
    public double FlatPlateAreaM2 => _flatPlateM2;

    /// <summary>A working helicopter's fuselage drag area, m²: 4.4 ft² times (mass in 1 000 lb)^(2/3), after one 5 000-lb example of 12.9 ft² [NDARC-STUDENT]; the power 2/3 is common practice, no source.</summary>
    public static double TypicalFlatPlateAreaM2(double massKg) => 4.4 * 0.09290304 * Math.Pow(Permitted.Above0(massKg) / 453.59237, 2.0 / 3);

    /// <summary>Power in a hover out of ground effect in still air.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Mass not above 0, pressure altitude or temperature outside the atmosphere's.</exception>
    public HoverPower Hover(double massKg, double pressureAltitudeM, double temperatureK)
    {
        AirState air = new(pressureAltitudeM, temperatureK);
        double required = _correction.Factor(air) * _fit.RequiredW(_rotor, Permitted.Above0(massKg), air.DensityKgM3);
        return new(_scale * required, _scale * AvailableInTheoryW(air), _transmissionW, _range.Holds(pressureAltitudeM, temperatureK));
    }

    /// <summary>Power in steady forward flight, climb or descent, with load and line in the same air.</summary>
    /// <param name="massKg">All that the rotor carries.</param>
    /// <param name="pressureAltitudeM">Pressure altitude.</param>
    /// <param name="temperatureK">Air temperature.</param>
    /// <param name="airspeedMs">True air speed, 0 or above.</param>
    /// <param name="climbMs">Climb, positive up. For descents see <see cref="RotorPower"/>: no relief at low speed.</param>
    /// <param name="slungDragAreaM2">CdA of load and line together.</param>
    public FlightPower Forward(double massKg, double pressureAltitudeM, double temperatureK, double airspeedMs, double climbMs = 0, double slungDragAreaM2 = 0)
    {
        AirState air = new(pressureAltitudeM, temperatureK);
        RotorState state = new(massKg, air.DensityKgM3, airspeedMs, climbMs, _flatPlateM2 + Permitted.From0(slungDragAreaM2));
        PowerParts parts = RotorPower.Required(_rotor, _fit.Factors, state).Times(_scale * _correction.Factor(air));
        HoverPower power = new(parts.TotalW, _scale * AvailableInTheoryW(air), _transmissionW, _range.Holds(pressureAltitudeM, temperatureK));
        return new(parts, power);
    }

    /// <summary>Power available, W: the lesser of what the engine gives and what the transmission takes.</summary>
    public double PowerAvailableW(double pressureAltitudeM, double temperatureK) => _scale * AvailableInTheoryW(new(pressureAltitudeM, temperatureK));

    /// <summary>Greatest mass that hovers out of ground effect, kg: where power required reaches what is available, or the chart's mass limit.</summary>
    /// <remarks>Gives back the chart at its points (0.1 %). For comparison between points; a plan's limit is read from the chart.</remarks>
    public double HoverCeilingMassKg(double pressureAltitudeM, double temperatureK)
    {
        AirState air = new(pressureAltitudeM, temperatureK);
        double mass = _fit.MassKg(_rotor, AvailableInTheoryW(air) / _correction.Factor(air), air.DensityKgM3);
        return Math.Min(mass, _massLimitKg ?? double.PositiveInfinity);
    }

    private double AvailableInTheoryW(in AirState air) =>
        Math.Min(_fit.AvailableW(air), _transmissionW / _scale ?? double.PositiveInfinity);
}

/// <summary>Power needed against power there is.</summary>
/// <param name="RequiredW">Needed, W.</param>
/// <param name="AvailableW">Available there, W.</param>
/// <param name="TransmissionLimitW">Power at 100 % torque, W; null if not known.</param>
/// <param name="InsideChart">Whether pressure altitude and temperature lie within the chart. Outside, the figures are extrapolated: not to be planned on.</param>
public readonly record struct HoverPower(double RequiredW, double AvailableW, double? TransmissionLimitW, bool InsideChart)
{
    /// <summary>Needed over available; above 1 it can't be flown.</summary>
    public double Fraction => RequiredW / AvailableW;

    /// <summary>Available less needed, W.</summary>
    public double MarginW => AvailableW - RequiredW;

    /// <summary>Needed in percent torque; null if the transmission limit is not known.</summary>
    public double? TorquePercent => 100 * RequiredW / TransmissionLimitW;
}

/// <summary>Power in forward flight.</summary>
/// <param name="Parts">What takes it.</param>
/// <param name="Power">Needed against available.</param>
public readonly record struct FlightPower(PowerParts Parts, HoverPower Power);

/// <summary>Pressure altitude and temperature, with what follows from them.</summary>
internal readonly struct AirState
{
    private const double SeaLevelK = StandardAtmosphere.SeaLevelK;

    public AirState(double pressureAltitudeM, double temperatureK)
    {
        (PressureAltitudeM, TemperatureK) = (pressureAltitudeM, Permitted.Within(temperatureK, 180, 340));
        double pressure = StandardAtmosphere.PressurePa(pressureAltitudeM);
        DensityKgM3 = StandardAtmosphere.DensityKgM3(pressure, temperatureK);
        LnPressureRatio = Math.Log(pressure / StandardAtmosphere.SeaLevelPa);
        LnTemperatureRatio = Math.Log(temperatureK / SeaLevelK);
    }

    public double PressureAltitudeM { get; }

    public double TemperatureK { get; }

    public double DensityKgM3 { get; }

    public double LnPressureRatio { get; }

    public double LnTemperatureRatio { get; }
}
