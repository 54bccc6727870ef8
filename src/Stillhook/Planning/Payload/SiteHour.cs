namespace Stillhook.Planning.Payload;

/// <summary>What limits the gross mass in the hover over a site.</summary>
public enum GrossLimitedBy
{
    /// <summary>Hover out of ground effect.</summary>
    HoverMass,

    /// <summary>The power that the operator keeps in hand.</summary>
    PowerMargin,

    /// <summary>Gross limit with a jettisonable external load.</summary>
    ExternalGrossLimit,
}

/// <summary>The most the aircraft may weigh in the hover over a site during one clock hour: the hottest ten minutes past its end included.</summary>
/// <param name="Site">The site.</param>
/// <param name="Hour">Clock hour, 0 to 23; the hour runs to its end and ten minutes over, for a lift that began in it.</param>
/// <param name="TemperatureC">Hottest temperature in it, °C.</param>
/// <param name="PressureAltitudeM">Pressure altitude, m.</param>
/// <param name="DensityAltitudeM">Density altitude, humidity included where a dew point was given, m.</param>
/// <param name="HoverMassKg">Hover mass out of ground effect from the chart, kg; not a number when the chart gives none.</param>
/// <param name="GrossKg">Most gross mass permitted here, kg; not a number when it can't be judged.</param>
/// <param name="LimitedBy">What set it.</param>
/// <param name="NotJudged">Why there is no figure; empty when there is one.</param>
/// <param name="Figures">The working: air, hover mass, gross mass last; only the air when it can't be judged.</param>
public sealed record SiteHour(
    Site Site, int Hour, double TemperatureC, double PressureAltitudeM, double DensityAltitudeM,
    double HoverMassKg, double GrossKg, GrossLimitedBy LimitedBy, string NotJudged, IReadOnlyList<Figure> Figures)
{
    /// <summary>True when the site and hour can be judged.</summary>
    public bool IsJudged => NotJudged.Length == 0;
}
