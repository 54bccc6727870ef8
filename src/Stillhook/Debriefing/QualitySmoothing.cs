namespace Stillhook.Debriefing;

/// <summary>The short-term noise a record is smoothed with, 1 sigma: m and m/s.</summary>
/// <param name="Position">One horizontal component, m.</param>
/// <param name="Velocity">One horizontal component, m/s.</param>
/// <param name="Height">m.</param>
/// <param name="Climb">m/s.</param>
internal readonly record struct SmoothingNoise(double Position, double Velocity, double Height, double Climb)
{
    // Taken where the record can't tell (long steps, few fixes): short-term errors of a receiver with 1 m; own measurement on simulated flights.
    private const double UsualPosition = 0.30, UsualHeight = 0.40, UsualVelocity = 0.10, UsualClimb = 0.15;

    // No receiver for this work is better; a record that looks so was smoothed before it was written.
    private const double LeastPosition = 0.10, LeastHeight = 0.15, LeastVelocity = 0.04, LeastClimb = 0.06, Most = 30;

    public static SmoothingNoise Of(FixTable fixes)
    {
        double qh = TrackBuilder.HorizontalNoise.Jerk, qv = TrackBuilder.VerticalNoise.Jerk, step = fixes.MedianStepS;
        double position = QualityNoise.OfPosition(fixes.TimeS, step, qh, fixes.East, fixes.North);
        double height = QualityNoise.OfPosition(fixes.TimeS, step, qv, fixes.Height);
        double velocity = fixes.HasVelocity ? QualityNoise.OfVelocity(fixes.TimeS, step, qh, fixes.VelocityEast, fixes.VelocityNorth) : double.NaN;
        double climb = fixes.Climb.Length > 0 ? QualityNoise.OfVelocity(fixes.TimeS, step, qv, fixes.Climb) : double.NaN;
        // A value rounded to a step is off by step/√12 at least, however still it looks.
        double root12 = Math.Sqrt(12);
        return new(
            Bounded(position, UsualPosition, Math.Max(LeastPosition, fixes.PositionStepM / root12)),
            Bounded(velocity, UsualVelocity, LeastVelocity),
            Bounded(height, UsualHeight, Math.Max(LeastHeight, fixes.AltitudeStepM / root12)),
            Bounded(climb, UsualClimb, LeastClimb));
    }

    private static double Bounded(double found, double usual, double least) =>
        Math.Clamp(double.IsNaN(found) ? Math.Max(usual, least) : found, Math.Min(least, Most), Most);
}
