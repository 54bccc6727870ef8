using Stillhook.Physics.Earth;
using Stillhook.Physics.Motion;
using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>What <see cref="TrackBuilder"/> made of a record.</summary>
/// <param name="Track">The hook's smoothed motion; null when no fix could be used.</param>
/// <param name="Quality">What the record is good for.</param>
/// <param name="Findings">Repairs made; those of the reader are not repeated.</param>
public sealed record BuiltTrack(Track? Track, QualityVerdict Quality, IReadOnlyList<Finding> Findings);

/// <summary>Builds the smoothed track of the belly hook from a record, and says first what it is good for.</summary>
/// <remarks>Method, formulas and limits: docs/method/track.md.</remarks>
public static class TrackBuilder
{
    /// <summary>Density of white jerk of a helicopter at line work, horizontally and vertically, m²/s⁵. Design value from an earlier prototype on simulated flights.</summary>
    public static readonly DrivingNoise HorizontalNoise = new(0.08), VerticalNoise = new(0.04);

    private static readonly (double Speed, double Acceleration) PriorSpread = (60, 3);

    /// <summary>Repairs, judges and smooths a record.</summary>
    /// <param name="record">As read; not changed.</param>
    /// <param name="setup">Only the antenna's height above the hook is used.</param>
    public static BuiltTrack Build(FlightRecord record, LiftSetup setup)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(setup);
        List<Finding> findings = [];
        FixTable? fixes = FixRepair.Clean(record, findings);
        if (fixes is null)
        {
            findings.Add(new(Severity.Error, "no-usable-fix", null, Math.Max(1, record.Count), "The record holds no fix with both position and time.", "There is nothing to debrief."));
            return new(null, QualityRules.Judge(record, null, default), findings);
        }
        SmoothingNoise noise = SmoothingNoise.Of(fixes);
        QualityVerdict quality = QualityRules.Judge(record, fixes, noise);
        return new(Smooth(fixes, noise, setup.AntennaAboveHook.Value.Meters), quality, findings);
    }

    private static Track Smooth(FixTable fixes, SmoothingNoise noise, double antennaAboveHookM)
    {
        int n = fixes.Count;
        AxisColumns east = Columns(fixes.East, fixes.VelocityEast), north = Columns(fixes.North, fixes.VelocityNorth);
        AxisColumns up = Columns(fixes.Height, fixes.Climb);
        ErrorColumns horizontal = new(new float[n], new float[n], new float[n]), vertical = new(new float[n], new float[n], new float[n]);
        // Height knows nothing of the map, so both run side by side.
        Parallel.Invoke(
            () => Run(new(), fixes, HorizontalMeasured(fixes, noise), [east, north], HorizontalNoise, horizontal),
            () => Run(new(), fixes, VerticalMeasured(fixes, noise), [up], VerticalNoise, vertical));
        // The antenna stands above the hook.
        for (int k = 0; k < n; k++)
            up.Position[k] -= antennaAboveHookM;
        return new()
        {
            Frame = fixes.Frame,
            TimeS = fixes.TimeS,
            East = east.Position,
            North = north.Position,
            Up = up.Position,
            VelocityEast = east.Velocity,
            VelocityNorth = north.Velocity,
            VelocityUp = up.Velocity,
            AccelerationEast = east.Acceleration,
            AccelerationNorth = north.Acceleration,
            AccelerationUp = up.Acceleration,
            HorizontalErrorM = horizontal.Position,
            HorizontalVelocityErrorMs = horizontal.Velocity,
            HorizontalAccelerationErrorMs2 = horizontal.Acceleration,
            HeightErrorM = vertical.Position,
            ClimbErrorMs = vertical.Velocity,
            VerticalAccelerationErrorMs2 = vertical.Acceleration,
            StretchStarts = fixes.StretchStarts,
            HasHeight = fixes.Height.Any(h => !double.IsNaN(h)),
            Fixes = new(fixes.East, fixes.North, fixes.VelocityEast, fixes.VelocityNorth, noise.Position, noise.Velocity),
        };
    }

    private static AxisColumns Columns(double[] position, double[] velocity) => new(
        (double[])position.Clone(), velocity.Length > 0 ? (double[])velocity.Clone() : new double[position.Length], new double[position.Length]);

    private static MeasurementColumns HorizontalMeasured(FixTable fixes, SmoothingNoise noise)
    {
        double[] rp = new double[fixes.Count], rv = new double[fixes.HasVelocity ? fixes.Count : 0];
        Array.Fill(rp, noise.Position * noise.Position);
        double usual = noise.Velocity * noise.Velocity, slow = usual + FixVelocity.CourseMeansNothingMs * FixVelocity.CourseMeansNothingMs;
        for (int k = 0; k < rv.Length; k++)
        {
            double ve = fixes.VelocityEast[k], vn = fixes.VelocityNorth[k];
            rv[k] = double.IsNaN(ve) ? double.PositiveInfinity : Math.Sqrt(ve * ve + vn * vn) < FixVelocity.CourseMeansNothingMs ? slow : usual;
        }
        return new(fixes.TimeS, rp, rv);
    }

    private static MeasurementColumns VerticalMeasured(FixTable fixes, SmoothingNoise noise) => new(
        fixes.TimeS,
        Array.ConvertAll(fixes.Height, h => double.IsNaN(h) ? double.PositiveInfinity : noise.Height * noise.Height),
        Array.ConvertAll(fixes.Climb, c => double.IsNaN(c) ? double.PositiveInfinity : noise.Climb * noise.Climb));

    private static void Run(
        MotionSmoother smoother, FixTable fixes, MeasurementColumns measured, AxisColumns[] axes, DrivingNoise driving, ErrorColumns errors)
    {
        double[] prior = new double[axes.Length];
        for (int s = 0; s < fixes.StretchStarts.Length; s++)
        {
            int start = fixes.StretchStarts[s], end = s + 1 < fixes.StretchStarts.Length ? fixes.StretchStarts[s + 1] : fixes.Count;
            int first = start;
            while (first < end && double.IsInfinity(measured.PositionVariance[first]))
                first++;
            bool known = first < end;
            for (int j = 0; j < axes.Length; j++)
                prior[j] = known ? axes[j].Position[first] : 0;
            // Around the first measured place; a stretch without any is anywhere within 10 km.
            double spread = known ? 100 * (1 + measured.TimeS[first] - measured.TimeS[start]) : 10_000;
            smoother.Smooth(measured, start, end, axes, prior,
                MotionCovariance.FromDeviations(spread, PriorSpread.Speed, PriorSpread.Acceleration), driving, errors);
        }
    }
}
