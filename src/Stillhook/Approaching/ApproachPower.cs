using Stillhook.Physics.Air;
using Stillhook.Physics.Rotor;

namespace Stillhook.Approaching;

/// <summary>Power along a path.</summary>
/// <remarks>
/// Required: the calibrated model in steady flight at each air speed, without relief for a sink at low speed, with load and line drag [docs/method/power.md], plus M·a·V for the change of speed
/// (slowing down gives power back), over what is available.
/// The peak is the hover at the end, not the slow-down: the power limit is a go or no-go there.
/// </remarks>
/// <param name="RequiredShare">Required over available, by sample of the path.</param>
/// <param name="TorquePercent">Required in percent torque; null when the power at full torque is not known.</param>
public sealed record ApproachPower(double[] RequiredShare, double[]? TorquePercent)
{
    /// <summary>Power along a path; null without model or mass.</summary>
    public static ApproachPower? Of(ApproachSituation s, LoadPath path)
    {
        ArgumentNullException.ThrowIfNull(s);
        ArgumentNullException.ThrowIfNull(path);
        if (s.Model is not { } model || s.GrossKg is not { } gross)
            return null;
        double kelvin = s.TemperatureC + StandardAtmosphere.ZeroCelsiusK, area = s.Load.DragAreaM2 + s.Load.LineDragM2PerM * s.Load.LengthM;
        double[] required = new double[path.Count];
        HoverPower power = default;
        for (int i = 0; i < path.Count; i++)
        {
            power = model.Forward(gross, s.PressureAltitudeM, kelvin, path.Hanging.AirspeedMs(path.SpeedMs[i]), -path.SinkMs(i), area).Power;
            required[i] = power.RequiredW - gross * path.DecelerationMs2[i] * path.SpeedMs[i];
        }
        return new([.. required.Select(p => p / power.AvailableW)], power.TransmissionLimitW is { } full ? [.. required.Select(p => 100 * p / full)] : null);
    }
}
