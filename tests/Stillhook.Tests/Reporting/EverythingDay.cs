using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Tests.Planning;
using UnitsNet;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

/// <summary>A made-up day with something of everything: 30 lifts in 2.4 h, one struck out, one added by hand, marks, breaks, fuel, events, corrections, parts near and at their limits, and names that break careless writers.</summary>
internal static class EverythingDay
{
    public const string Hostile = "<script>alert(1)</script> & \"Co\"";

    public static DaySheet Sheet => Job.Day(Work);

    /// <summary>A day of which nothing is kept.</summary>
    public static DayWork Empty => Day();

    public static DayWork Work => Day() with
    {
        Clock = ReportedDays.Clock,
        Job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)) with { Name = "AS-000", TorqueLimit = Ratio.FromPercent(100) },
            [Jobs.Site("yard", SiteUse.PickUp, 500, 10, 46.905), Jobs.Site("upper wall", SiteUse.Delivery, 900, 8)], [.. Enumerable.Range(1, 30).Select(i => Jobs.Load(Load(i), 700 + i))]) with
        {
            Job = Hostile,
            Policy = new() { PartRules = [new() { Kind = PartKind.CargoHook, Lifts = 5000, Source = "hook manual 5-10" }, new() { Name = "line 3", Hours = 60 }, new() { Name = "net 9", Lifts = 100 }] },
        },
        Flights =
        [
            new(1, "morning", From(0, 90), [From(5, 89)], [new(LimitKind.Torque, 100, 104.25, At(50), 2.5)], "A. Pilot", "AS-000"),
            new(2, "noon", From(120, 200), [From(122, 182)], [new(LimitKind.HookLoad, 1200, 1251.4, At(140), 1.2)], Hostile, "AS-000"),
        ],
        Lifts = [.. Enumerable.Range(1, 30).Select(Lift), new() { Number = 31, AddedByHand = true, LoadNumber = "31", DeliveryTimeS = At(181) }],
        Tally = [.. Enumerable.Range(1, 28).Select(i => Tally(i, Minute(i) + 0.4, Load(i))), new(29, null, "30", null, "sling torn")],
        TimeMarks = [new(From(89, 122), TimeUse.Other, "lunch " + Hostile, true), new(From(182, 190), TimeUse.Fuel, null), new(From(190, 221), TimeUse.WaitingOnCustomer, "road not closed"), new(From(221, 240), TimeUse.Weather, null)],
        Fuel = [new(At(0), 280, null), new(At(100), 270, 200), new(At(200), 90, null)],
        Parts = [new("hook 12", PartKind.CargoHook, 4_980, 300), new("line 3", PartKind.Line, 900, 57.5)],
        Events = [new(At(60), EventKind.Snag, Hostile)],
        Duty = [new("A. Pilot", From(-30, 300), null), new(Hostile, From(0, 250), null)],
        DutyBefore = [new("A. Pilot", From(-900, -500), null)],
        Corrections = [new(Hostile, new(2026, 6, 1, 19, 2, 0, TimeSpan.FromHours(2)), "lift 3 loadKg", "733 kg", "703 kg", "scale read again")],
    };

    private static string Load(int i) => string.Create(CultureInfo.InvariantCulture, $"L{i:00}");

    private static double Minute(int i) => i <= 17 ? 6 + 4.8 * i : 40 + 4.6 * i;

    private static KeptLift Lift(int i) => Days.Lift(i, Minute(i), i == 12 ? null : Load(i), i == 9 ? null : 700 + i) with
    {
        FlightId = i <= 17 ? 1 : 2, LoadMeasured = i % 3 != 0, PickUpTimeS = At(Minute(i) - 2), ClearTimeS = At(Minute(i) + 0.3), ReleaseTimeS = At(Minute(i) + (i == 20 ? -0.1 : 0.2)), StruckOut = i == 25,
        PickUp = ReportedDays.Spot(0, 556), Delivery = ReportedDays.Spot(i % 5, i % 7), PickUpSite = "yard", DeliverySite = "upper wall", LineM = 30, GoArounds = i == 7 ? 1 : 0, Family = i == 4 ? Hostile : "stone bag",
        Measures = new() { SecondsOverPeople = i == 3 ? 1.5 : 0 },
    };
}
