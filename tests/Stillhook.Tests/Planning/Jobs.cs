using Stillhook.Debriefing;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Planning;

/// <summary>Small jobs made in code, for tests of the plan. Invented.</summary>
internal static class Jobs
{
    public static Mass Kg(double kg) => Mass.FromKilograms(kg);

    public static Temperature C(double celsius) => Temperature.FromDegreesCelsius(celsius);

    /// <summary>A chart that gives one mass everywhere between sea level and 10 000 ft, -20 and 45 °C.</summary>
    public static HoverChart FlatChart(double kg) => new()
    {
        Source = "invented page",
        PressureAltitude = [Length.FromFeet(-1000), Length.FromFeet(10_000)],
        Temperature = [C(-20), C(45)],
        Mass = [[Kg(kg), Kg(kg)], [Kg(kg), Kg(kg)]],
    };

    /// <summary>An aircraft with an operating mass of 1 420 kg with its 80 kg pilot, hook and gross limit out of the way.</summary>
    public static Aircraft Aircraft(HoverChart chart) => new()
    {
        EquippedMass = Kg(1340),
        HookLimit = Kg(5000),
        ExternalGrossLimit = Kg(9000),
        HoverOutOfGroundEffect = chart,
        Fuel = new()
        {
            Tank = Kg(300),
            BurnLoaded = MassFlow.FromKilogramsPerHour(150),
            BurnEmpty = MassFlow.FromKilogramsPerHour(150),
            BurnHover = MassFlow.FromKilogramsPerHour(150),
        },
        Speeds = new()
        {
            Loaded = Speed.FromKnots(40),
            Empty = Speed.FromKnots(60),
            HoverAtPickUp = Duration.FromSeconds(40),
            HoverAtDelivery = Duration.FromSeconds(40),
        },
    };

    public static Site Site(string name, SiteUse use, double elevationM, double temperatureC, double latitude = 46.9) => new()
    {
        Name = name,
        Use = use,
        Latitude = Angle.FromDegrees(latitude),
        Longitude = Angle.FromDegrees(10.1),
        Elevation = Length.FromMeters(elevationM),
        Weather = new() { Qnh = Pressure.FromHectopascals(1013.25), Temperature = C(temperatureC) },
        Fuel = use == SiteUse.PickUp ? true : null,
    };

    public static PlannedLoad Load(string number, double kg) => new() { Number = number, Mass = Kg(kg), HowKnown = MassKnownBy.Weighed };

    public static LiftRequest Job(Aircraft aircraft, IReadOnlyList<Site> sites, params PlannedLoad[] loads) => new()
    {
        Job = "invented",
        Date = new DateOnly(2026, 6, 1),
        Aircraft = aircraft,
        Crew = [new() { Name = "pilot", Role = CrewRole.Pilot, Mass = Kg(80) }],
        Sites = sites,
        Line = new() { Length = Length.FromMeters(30) },
        Rigging =
        [
            new() { Name = "line", Kind = PartKind.Line, RatedLoad = Kg(4000), Mass = Kg(30), InspectionDue = new DateOnly(2027, 1, 1) },
            new() { Name = "remote hook", Kind = PartKind.RemoteHook, RatedLoad = Kg(4000), Mass = Kg(15), InspectionDue = new DateOnly(2027, 1, 1) },
        ],
        Loads = loads,
        Day = new() { Start = new TimeOnly(8, 0) },
    };
}
