using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using UnitsNet;

namespace Stillhook.Planning.Rechecking;

/// <summary>A planned gate as the altimeter shows it.</summary>
/// <param name="DistanceM">Distance to go, m.</param>
/// <param name="ReadingFt">Altimeter reading to fly, ft, rounded up to the instrument's 20 ft marks.</param>
/// <param name="UnroundedFt">The same before rounding.</param>
/// <param name="TemperatureFt">Part of it that is the temperature correction, ft.</param>
/// <param name="GroundSpeedKt">Ground speed, kt.</param>
/// <param name="SinkFtPerMin">Sink, ft/min.</param>
/// <param name="Site">Delivery site that it stands before.</param>
public sealed record GateReading(double DistanceM, double ReadingFt, double UnroundedFt, double TemperatureFt, double GroundSpeedKt, double SinkFtPerMin, string Site);

/// <summary>The planned gates for an altimeter setting and temperature.</summary>
/// <remarks>
/// reading = reference + (height of the gate above the reference) · T_standard / T, T the air's temperature at the site. The reference is the recon
/// reading, taken with the load touching the ground there: it already holds the altimeter's own error, so only the height above it is corrected.
/// Without a recon reading it is the site's entered elevation and the height of the hook above it. An altimeter counts standard air: in air warmer
/// than standard it shows too small a step, in colder air too large a one [ISO2533]. A reading is worth its QNH only: it is shown with it.
/// </remarks>
public static class GateReadings
{
    private const double Mark = 20;

    /// <summary>The gates of a request over its delivery site.</summary>
    /// <param name="gates">Planned gates.</param>
    /// <param name="site">Delivery site with elevation or recon.</param>
    /// <param name="contactLengthM">Belly hook to the load's underside, m.</param>
    /// <param name="temperatureC">Temperature at the site, °C.</param>
    public static IReadOnlyList<GateReading> At(IReadOnlyList<GateGiven> gates, Site site, double contactLengthM, double temperatureC)
    {
        ArgumentNullException.ThrowIfNull(gates);
        ArgumentNullException.ThrowIfNull(site);
        (double referenceM, double referenceAboveTargetM) = site.Recon is { } recon
            ? (recon.Altimeter.Meters, contactLengthM)
            : (site.Elevation?.Meters ?? double.NaN, 0);
        double ratio = StandardAtmosphere.TemperatureK(referenceM) / (temperatureC + StandardAtmosphere.ZeroCelsiusK);
        return [.. gates.Select(gate =>
        {
            double above = gate.HeightAboveTarget.Meters - referenceAboveTargetM;
            double readingFt = Length.FromMeters(referenceM + above * ratio).Feet;
            return new GateReading(gate.Distance.Meters, Math.Ceiling(readingFt / Mark - 1e-9) * Mark, readingFt, Length.FromMeters(above * (ratio - 1)).Feet,
                gate.GroundSpeed.Knots, gate.Sink.FeetPerMinute, site.Name);
        })];
    }
}
