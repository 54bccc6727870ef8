using Stillhook.Debriefing;
using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>What the whole crew hears together before the first lift.</summary>
public sealed record CrewBrief
{
    /// <summary>Roles with who fills them; nobody is null.</summary>
    public required IReadOnlyList<(CrewRole Role, string? Names)> Roles { get; init; }

    /// <summary>Weather at each site with what the forecast says of the hottest hour.</summary>
    public required IReadOnlyList<SiteWeather> Weather { get; init; }

    /// <summary>Ways in for the wind of the job, for winds asked for, and from the other side.</summary>
    public required IReadOnlyList<WayBrief> Ways { get; init; }

    /// <summary>What fails or is to be looked at, worst first; alike ones in one.</summary>
    public required IReadOnlyList<Hazard> Hazards { get; init; }

    /// <summary>Where the aircraft can be put down in trouble.</summary>
    public required IReadOnlyList<EmergencySpot> EmergencySpots { get; init; }

    /// <summary>The day's order in tanks.</summary>
    public required IReadOnlyList<TankRun> Order { get; init; }

    /// <summary>Loads that lift, of all.</summary>
    public required (int Lift, int All) Loads { get; init; }

    /// <summary>Clock minutes of first take-off and of being back; null without an order.</summary>
    public (double FromMinute, double ToMinute)? Day { get; init; }

    /// <summary>Fuel at the first take-off and the reserve that is never cut, kg; null without an order.</summary>
    public (double StartKg, double ReserveKg)? Fuel { get; init; }

    /// <summary>Fuel that the day takes on top if the entered speeds are not means over the legs, kg; null when the crew said which they are.</summary>
    public double? FuelIfNotMeansKg { get; init; }
}

/// <summary>Weather of a site.</summary>
/// <param name="Site">Where.</param>
/// <param name="Observed">As observed; null when nobody did.</param>
/// <param name="ObservedAt">Sites' clock of the observation; null when not told.</param>
/// <param name="Hottest">Hottest hour of the forecast; null without one.</param>
public sealed record SiteWeather(string Site, WeatherNow? Observed, TimeOnly? ObservedAt, ForecastHour? Hottest);

/// <summary>A way in as it is briefed.</summary>
/// <param name="Site">Where to.</param>
/// <param name="Reason">Why it stands here.</param>
/// <param name="Wind">Its wind; null when not given.</param>
/// <param name="Blocked">Why there is none; null when there is.</param>
/// <param name="CourseDeg">True course; not a number without a way.</param>
/// <param name="StartM">Start mark before the spot, m.</param>
/// <param name="StartFt">Altimeter there, ft.</param>
/// <param name="DecideFt">Altimeter at the reject gate, ft; null when not judged.</param>
/// <param name="DecideM">Its distance before the spot, m.</param>
/// <param name="OutDeg">Course of the way out, degrees; null when not judged.</param>
public sealed record WayBrief(string Site, ApproachReason Reason, Wind? Wind, string? Blocked, double CourseDeg, double StartM, double StartFt, double? DecideFt, double? DecideM, double? OutDeg);

/// <summary>Something to look at.</summary>
/// <param name="Verdict">Fails when it is against a rule or a limit.</param>
/// <param name="Red">Stands among the red items though it may not fail.</param>
/// <param name="Subjects">Who or what it is about.</param>
/// <param name="Text">What was found.</param>
public sealed record Hazard(CheckVerdict Verdict, bool Red, IReadOnlyList<string> Subjects, string Text);

/// <summary>A place to put down in trouble.</summary>
/// <param name="Site">Site it was entered with.</param>
/// <param name="Name">Its name.</param>
/// <param name="DistanceM">From the site, m.</param>
/// <param name="BearingDeg">True bearing from the site, degrees.</param>
public sealed record EmergencySpot(string Site, string Name, double DistanceM, double BearingDeg);
