using Stillhook.Planning;
using Stillhook.Reporting;
using UnitsNet;

namespace Stillhook.Tests.Reporting;

/// <summary>Days made in code, for tests of the day sheet. Invented.</summary>
internal static class Days
{
    /// <summary>2026-06-01T06:00:00Z.</summary>
    public const double SixUtc = 1_780_293_600;

    /// <summary>A time by minutes after six.</summary>
    public static double At(double minute) => SixUtc + 60 * minute;

    /// <summary>A stretch by minutes after six.</summary>
    public static Stretch From(double fromMinute, double toMinute) => new(At(fromMinute), At(toMinute));

    public static KeptFlight Flight(params Stretch[] airborne) =>
        new(1, "flight 1", new(airborne.Min(s => s.FromS), airborne.Max(s => s.ToS)), airborne, [], "A. Pilot", "HB-XYZ");

    public static KeptLift Lift(int number, double? minute, string? load = null, double? kg = null) =>
        new() { Number = number, FlightId = 1, DeliveryTimeS = minute is { } m ? At(m) : null, LoadNumber = load, LoadKg = kg };

    public static TallyEntry Tally(int number, double? minute, string? load = null) => new(number, minute is { } m ? At(m) : null, load, null, null);

    public static PlannedLoad Planned(string number, double kg = 700) => new() { Number = number, Mass = Mass.FromKilograms(kg), HowKnown = MassKnownBy.Weighed };

    public static DayWork Day() => new() { Day = new DateOnly(2026, 6, 1) };
}
