using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Reporting;

/// <summary>Days of invented work made by hand, with sums that can be done on paper.</summary>
internal static class ReportedDays
{
    /// <summary>2026-06-01 06:00 UTC, 08:00 by the sites' clock.</summary>
    public const double StartS = 1_780_293_600;

    public static double At(int hour, int minute, int second = 0) => StartS + 3600 * (hour - 8) + 60 * minute + second;

    public static DateTimeOffset Clock(double timeS) => DateTimeOffset.UnixEpoch.AddSeconds(timeS).ToOffset(TimeSpan.FromHours(2));

    public static Place Spot(double eastM, double northM) => new(46.9 + northM / 111_170, 10.1 + eastM / 76_170);

    public static KeptLift Lift(int number, string? load, double? atS, double? kg = null, bool measured = false, Place? at = null) => new()
    {
        Number = number, LoadNumber = load, DeliveryTimeS = atS, LoadKg = kg, LoadMeasured = measured, Delivery = at, DeliverySite = "spot",
        // None of this may reach the customer.
        Measures = new() { SwingShownM = new(1.5, 0.9, 2.1), OvershootM = 7, MainFault = Fault.Overshoot, CycleTimeS = 240 }, GoArounds = 2, Confidence = Confidence.Medium,
    };

    public static PlannedLoad Load(string number, double kg, MassKnownBy by = MassKnownBy.Weighed) => new() { Number = number, Name = "stone bag", Mass = Mass.FromKilograms(kg), HowKnown = by, Delivery = "spot" };

    /// <summary>Four loads planned, three of them placed with one from no list; the fourth left behind. Prices: 2000 an hour, 1.5 a kg, 500 a day.</summary>
    public static DayWork Small => new()
    {
        Day = new(2026, 6, 1),
        Clock = Clock,
        Job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)), [Jobs.Site("yard", SiteUse.PickUp, 500, 10, 46.905), Jobs.Site("spot", SiteUse.Delivery, 500, 10)], Load("A1", 600), Load("A2", 650, MassKnownBy.Label), Load("A3", 700, MassKnownBy.Estimated), Load("A4", 720)) with
        {
            Job = "Wall on the slope", Customer = "Invented Walls Ltd", Quote = new() { Currency = "EUR", PricePerHour = 2000, FuelPricePerKg = 1.5, FixedPrice = 500 },
        },
        Flights = [new(1, "morning", new(At(8, 0), At(11, 0)), [new(At(8, 10), At(9, 10)), new(At(10, 0), At(10, 30))], [new(LimitKind.Torque, 100, 104, At(8, 40), 3)], "Pilot Secret", "AS-000")],
        Lifts =
        [
            Lift(1, "A1", At(8, 20), 612, measured: true, Spot(0, 0)), Lift(2, "a2", At(8, 40, 40), 650, at: Spot(30, 0)), Lift(3, "A3", At(10, 5), at: Spot(30, 40)),
            Lift(4, "B9", At(10, 15), 300, at: Spot(0, 40)), Lift(5, "A4", At(10, 20)) with { StruckOut = true },
        ],
        // 90 min flown; 20 min for the customer, 10 fuel, 20 weather, 10 with a defect.
        TimeMarks =
        [
            new(new(At(8, 0), At(8, 10)), TimeUse.Defect, "pilot overtorqued, mechanic called"), new(new(At(9, 10), At(9, 20)), TimeUse.Fuel, null),
            new(new(At(9, 20), At(9, 40)), TimeUse.WaitingOnCustomer, "road not closed yet"), new(new(At(9, 40), At(10, 0)), TimeUse.Weather, "cloud on the slope."),
        ],
        Tally = [new(1, At(8, 20), "A1", 612, "swinging a lot"), new(2, null, "A4", null, "sling torn, left at the yard")],
        Fuel = [new(At(8, 0), 300, null), new(At(9, 20), null, 200), new(At(10, 40), 260, null)],
        Events = [new(At(8, 41), EventKind.Snag, "caught on a root")],
    };

    public static CustomerReport SmallReport => CustomerReporter.Report([Small]);

    /// <summary>Two days with 64 loads to two sites a few hundred metres apart, in rows as walls are built; with an awkward name.</summary>
    public static CustomerReport Large
    {
        get
        {
            DayWork first = LargeDay(0), second = LargeDay(1);
            return CustomerReporter.Report([first, second]);
        }
    }

    private static DayWork LargeDay(int day)
    {
        double shift = 86_400 * day;
        PlannedLoad[] loads = [.. Enumerable.Range(1, 68).Select(i => Load(string.Create(CultureInfo.InvariantCulture, $"L{i:00}"), 560 + 10 * (i % 17), (MassKnownBy)(i % 3)) with { Name = i % 5 == 0 ? "Timber & steel <bracing>" : "stone bag", Delivery = i <= 40 ? "upper wall" : "path, third bend" })];
        Site[] sites =
        [
            Jobs.Site("valley yard", SiteUse.PickUp, 500, 10, 46.905), Jobs.Site("upper wall", SiteUse.Delivery, 900, 10), Jobs.Site("path, third bend", SiteUse.Delivery, 850, 10, 46.9015), Jobs.Site("fuel truck", SiteUse.Base, 500, 10, 46.9052),
        ];
        Stretch Air(int h0, int m0, int h1, int m1) => new(At(h0, m0) + shift, At(h1, m1) + shift);
        TimeMark Part(int h0, int m0, int h1, int m1, TimeUse use, string? note = null, bool rest = false) => new(Air(h0, m0, h1, m1), use, note, rest);
        int from = day == 0 ? 1 : 35, to = day == 0 ? 34 : 65;
        return new()
        {
            Day = new DateOnly(2026, 6, 1).AddDays(day),
            Clock = Clock,
            Job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)), sites, loads) with { Job = "Avalanche walls, Upper Example", Customer = "Municipality of Example", Quote = new() { Currency = "EUR", PricePerHour = 2150, FuelPricePerKg = 1.65, FixedPrice = 900 } },
            Flights = [new(day, "day", new(At(8, 0) + shift, At(14, 0) + shift), [Air(8, 5, 9, 50), Air(10, 40, 12, 0), Air(13, 0, 14, 0)], [], "Pilot Secret", "AS-000")],
            Lifts = [.. Enumerable.Range(from, to - from + 1).Where(i => i != 22).Select(i => LargeLift(i, At(8, 15) + shift + (i - from) * 570))],
            TimeMarks =
            [
                Part(9, 50, 10, 5, TimeUse.Fuel, "from the truck at the yard"), Part(10, 5, 10, 40, TimeUse.WaitingOnCustomer, "the road below the wall was not closed; the customer's flagger came at 10:38"),
                Part(12, 0, 12, 45, TimeUse.Other, null, true), Part(12, 45, 13, 0, TimeUse.Weather, "cloud base below the upper wall"),
            ],
            Duty = [new("Pilot Secret", Air(8, 0, 14, 0), null)],
            Tally = [new(1, null, "L22", null, "bag torn, goes back to the yard")],
            Fuel = [new(At(8, 0) + shift, 320, null), new(At(11, 0) + shift, null, 300), new(At(14, 0) + shift, 210, null)],
        };
    }

    private static KeptLift LargeLift(int i, double atS)
    {
        int row = i <= 40 ? (i - 1) / 10 : (i - 41) / 25, column = i <= 40 ? (i - 1) % 10 : (i - 41) % 25;
        Place at = i <= 40 ? Spot(column * 6.5 - 30, row * 9 + Math.Sin(i) * 1.2) : Spot(60 + column * 4.5, 165 + column * 2 + Math.Sin(3 * i));
        return Lift(i, string.Create(CultureInfo.InvariantCulture, $"L{i:00}"), atS, 560 + 10 * (i % 17) + 7, measured: i % 4 != 0, at) with { DeliverySite = i <= 40 ? "upper wall" : "path, third bend" };
    }
}
