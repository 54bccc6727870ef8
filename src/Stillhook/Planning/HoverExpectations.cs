using System.Runtime.CompilerServices;
using Stillhook.Physics.Air;
using Stillhook.Physics.Rotor;
using Stillhook.Planning.Payload;
using Stillhook.Reporting;

namespace Stillhook.Planning;

/// <summary>The power a load is expected to take in the hover over a site: from the torque page where there is one, and from the calibrated model.</summary>
/// <remarks>
/// The model (momentum theory, profile, losses) is calibrated on the aircraft's own hover ceilings, docs/method/power.md. It only says what is expected
/// and what is left; a limit always comes from the chart. Calibrating costs more than all the rest of a plan and depends on the aircraft alone, so it is done once for one that is entered.
/// </remarks>
public sealed class HoverExpectations
{
    private const int FewestPoints = 4;

    // By the object itself: an aircraft is never changed, only replaced.
    private static readonly ConditionalWeakTable<Aircraft, Lazy<PowerModel?>> Calibrated = [];

    private readonly TorqueTable? torque;
    private readonly PowerModel? model;
    private readonly HoverBaseline? measured;

    /// <summary>Expectations for an aircraft: the model only where rotor geometry was entered and the chart has enough points.</summary>
    /// <param name="aircraft">The aircraft.</param>
    /// <param name="measured">What it was measured to take on flights before; null when that is not known.</param>
    public HoverExpectations(Aircraft aircraft, HoverBaseline? measured = null)
    {
        ArgumentNullException.ThrowIfNull(aircraft);
        this.measured = measured is { Unit: "%" } && measured.Aircraft == aircraft.Name ? measured : null;
        torque = aircraft.HoverTorque is null ? null : new(aircraft.HoverTorque);
        model = Calibrated.GetValue(aircraft, a => new(() => Calibrate(a))).Value;
    }

    private static PowerModel? Calibrate(Aircraft aircraft)
    {
        if (aircraft.Rotor is not { } rotor)
            return null;
        List<HoverChartPoint> points = [.. ChartTable.From(aircraft.HoverOutOfGroundEffect!).Printed
            .Select(c => new HoverChartPoint(c.PressureAltitude.Meters, c.TemperatureC + StandardAtmosphere.ZeroCelsiusK, c.Value))];
        if (points.Count < FewestPoints)
            return null;
        MainRotor geometry = new(rotor.Radius.Meters, rotor.Blades, rotor.Chord.Meters, rotor.TipSpeed.MetersPerSecond);
        HelicopterPowerData data = new() { TransmissionLimitW = (double?)aircraft.PowerAtFullTorque?.Watts, FlatPlateAreaM2 = rotor.FlatPlateArea?.SquareMeters };
        return PowerModel.Calibrate(geometry, points, data);
    }

    /// <summary>The calibrated model; null without rotor geometry or with too few chart points.</summary>
    public PowerModel? Model => model;

    /// <summary>Largest error of the model on chart points it was not shown, percent of mass; null when it can't be said.</summary>
    public double? ErrorPercent => model?.PredictionError is { } error ? 100 * error.LargestRelative : null;

    /// <summary>Power expected to hover a gross mass (kg) over a site.</summary>
    public HoverExpected At(SiteHour at, double grossKg)
    {
        ArgumentNullException.ThrowIfNull(at);
        ChartReading? chart = torque?.Torque(grossKg, at.PressureAltitudeM, at.TemperatureC);
        HoverPower? power = model?.Hover(grossKg, at.PressureAltitudeM, at.TemperatureC + StandardAtmosphere.ZeroCelsiusK);
        return new(at.Site, grossKg, chart is { IsGiven: true } ? chart.Value : null, power?.TorquePercent, power is { } p ? 100 * (1 - p.Fraction) : null, power?.InsideChart ?? false)
        {
            DensityAltitudeM = at.DensityAltitudeM,
            MeasuredTorquePercent = measured?.At(grossKg, at.DensityAltitudeM),
        };
    }
}
