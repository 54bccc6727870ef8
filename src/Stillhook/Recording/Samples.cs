namespace Stillhook.Recording;

/// <summary>One position as it arrived. A missing value is NaN.</summary>
/// <param name="TimeS">Time of the fix, s since 1970-01-01T00:00:00 UTC.</param>
/// <param name="LatitudeDeg">Geodetic latitude, degrees, north positive.</param>
/// <param name="LongitudeDeg">Longitude, degrees, east positive.</param>
/// <param name="AltitudeM">Satellite altitude, m, above what the receiver refers to.</param>
/// <param name="GroundSpeedMs">Speed over ground, m/s.</param>
/// <param name="CourseDeg">True course over ground, degrees clockwise from north.</param>
/// <param name="ClimbMs">Vertical speed, m/s, up positive.</param>
/// <param name="PressureAltitudeM">Pressure altitude, m.</param>
public readonly record struct FixSample(
    double TimeS, double LatitudeDeg, double LongitudeDeg, double AltitudeM, double GroundSpeedMs, double CourseDeg, double ClimbMs, double PressureAltitudeM);

/// <summary>One value of a channel as it arrived.</summary>
/// <param name="Kind">What it measures, which fixes its unit.</param>
/// <param name="TimeS">Time of the value, s since 1970-01-01T00:00:00 UTC.</param>
/// <param name="Value">In the unit of the kind.</param>
public readonly record struct ChannelSample(ChannelKind Kind, double TimeS, double Value);

/// <summary>Takes what arrives, one sample after the other, from one or several sources.</summary>
public interface ISampleSink
{
    /// <summary>A position.</summary>
    /// <param name="source">Name of the source, as the person wrote it.</param>
    /// <param name="fix">The position.</param>
    /// <param name="arrivedS">When it arrived by this machine's clock, s since 1970 UTC.</param>
    void Take(string source, in FixSample fix, double arrivedS);

    /// <summary>A value of another channel.</summary>
    /// <param name="source">Name of the source.</param>
    /// <param name="sample">The value; its time is the source's own, or that of its arrival when the source tells none.</param>
    /// <param name="arrivedS">When it arrived by this machine's clock, s since 1970 UTC.</param>
    void Take(string source, in ChannelSample sample, double arrivedS);

    /// <summary>The link of a source was lost (what arrives next starts a new segment) or is back.</summary>
    /// <param name="source">Name of the source.</param>
    /// <param name="up">True when it is back.</param>
    /// <param name="why">In words, for people.</param>
    /// <param name="atS">By this machine's clock, s since 1970 UTC.</param>
    void Link(string source, bool up, string why, double atS);
}
