using System.ComponentModel;
using Stillhook.Debriefing;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>How an elevation was obtained.</summary>
public enum ElevationFrom
{
    /// <summary>Surveyed.</summary>
    Survey,

    /// <summary>Read off a map.</summary>
    Map,

    /// <summary>Altimeter over the spot.</summary>
    Altimeter,

    /// <summary>Satellite receiver.</summary>
    Receiver,

    /// <summary>Somebody's guess.</summary>
    Guess,
}

/// <summary>A place of the job.</summary>
public sealed record Site
{
    [Description("Name the crew uses.")]
    public required string Name { get; init; }

    [Description("What the site is for: pickUp, delivery or base (landing, fuel, waiting: no loads).")]
    public required SiteUse Use { get; init; }

    [Description("North positive, decimal degrees."), Between(-90, 90)]
    public required Angle Latitude { get; init; }

    [Description("East positive, decimal degrees."), Between(-180, 180)]
    public required Angle Longitude { get; init; }

    [Description("Elevation above mean sea level."), Between(-500, 8000)]
    public Length? Elevation { get; init; }

    [Description("How the elevation was obtained.")]
    public ElevationFrom? ElevationFrom { get; init; }

    [Description("Altimeter with the load touching the ground there: never without its QNH and time.")]
    public ReconGiven? Recon { get; init; }

    [Description("Weather as observed.")]
    public WeatherNow? Weather { get; init; }

    [Description("Hourly forecast.")]
    public IReadOnlyList<ForecastHour> Forecast { get; init; } = [];

    [Description("Trees, masts, buildings.")]
    public IReadOnlyList<Obstacle> Obstacles { get; init; } = [];

    [Description("Power lines and other wires.")]
    public IReadOnlyList<Wire> Wires { get; init; } = [];

    [Description("Where people stand.")]
    public IReadOnlyList<Spot> People { get; init; } = [];

    [Description("What can be seen from above on the way in: gates are named after it.")]
    public IReadOnlyList<Spot> Landmarks { get; init; } = [];

    [Description("Where the aircraft can be put down in trouble.")]
    public IReadOnlyList<Spot> EmergencySpots { get; init; } = [];

    [Description("True direction, seen from the spot, in which the crew stands clear: no way in or out leads over it."), Between(0, 360)]
    public Angle? CrewClearSide { get; init; }

    [Description("Fuel is here.")]
    public bool? Fuel { get; init; }
}

/// <summary>An altimeter reading over the target.</summary>
public sealed record ReconGiven
{
    [Description("Altimeter reading with the load touching the ground."), Between(-500, 9000)]
    public required Length Altimeter { get; init; }

    [Description("Altimeter setting."), Between(850, 1090)]
    public required Pressure Qnh { get; init; }

    [Description("When it was read, such as 2026-06-01T06:40:00Z.")]
    public required DateTimeOffset Time { get; init; }

    [Description("Outside air temperature there."), Between(-60, 60)]
    public Temperature? Temperature { get; init; }
}

/// <summary>Weather at a site as observed.</summary>
public sealed record WeatherNow
{
    [Description("When it was observed.")]
    public DateTimeOffset? Time { get; init; }

    [Description("Altimeter setting."), Between(850, 1090)]
    public required Pressure Qnh { get; init; }

    [Description("Outside air temperature."), Between(-60, 60)]
    public required Temperature Temperature { get; init; }

    [Description("Dew point."), Between(-60, 40)]
    public Temperature? DewPoint { get; init; }

    [Description("Wind.")]
    public WindGiven? Wind { get; init; }
}

/// <summary>One hour of a forecast.</summary>
public sealed record ForecastHour
{
    [Description("Local clock hour, such as 14:00.")]
    public required TimeOnly Hour { get; init; }

    [Description("Outside air temperature."), Between(-60, 60)]
    public required Temperature Temperature { get; init; }

    [Description("Altimeter setting."), Between(850, 1090)]
    public Pressure? Qnh { get; init; }

    [Description("Wind.")]
    public WindGiven? Wind { get; init; }
}

/// <summary>Something that stands up.</summary>
public sealed record Obstacle
{
    [Description("What it is.")]
    public required string Name { get; init; }

    [Description("North positive, decimal degrees."), Between(-90, 90)]
    public required Angle Latitude { get; init; }

    [Description("East positive, decimal degrees."), Between(-180, 180)]
    public required Angle Longitude { get; init; }

    [Description("Height above the ground it stands on; without an elevation grid that ground is taken to be level with the site's."), Between(0, 500)]
    public required Length Height { get; init; }
}

/// <summary>A wire near a site.</summary>
public sealed record Wire
{
    [Description("What it is.")]
    public required string Name { get; init; }

    [Description("Voltage between phases; leave out when it is known to carry none."), Between(0, 2000)]
    public ElectricPotential? Voltage { get; init; }

    [Description("Height of the lowest wire above the site's ground."), Between(0, 500)]
    public Length? Height { get; init; }

    [Description("Height of the highest wire of the span, earth wire included, above the site's ground; without it no approach leads over the span."), Between(0, 500)]
    public Length? TopHeight { get; init; }

    [Description("Closest that aircraft, line or load are planned to come to it."), Between(0, 5000)]
    public Length? ClosestPlanned { get; init; }

    [Description("Smallest distance the grid owner permits."), Between(0, 500)]
    public Length? OwnersMinimum { get; init; }

    [Description("Switched off and earthed, confirmed by its owner.")]
    public bool? Dead { get; init; }

    [Description("One end of the span near the site.")]
    public Spot? From { get; init; }

    [Description("The other end of the span.")]
    public Spot? To { get; init; }
}

/// <summary>A named point on the ground.</summary>
public sealed record Spot
{
    [Description("Who or what.")]
    public string? Name { get; init; }

    [Description("North positive, decimal degrees."), Between(-90, 90)]
    public required Angle Latitude { get; init; }

    [Description("East positive, decimal degrees."), Between(-180, 180)]
    public required Angle Longitude { get; init; }
}
