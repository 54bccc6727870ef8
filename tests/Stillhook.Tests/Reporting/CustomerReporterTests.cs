using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using static Stillhook.Tests.Reporting.ReportedDays;

namespace Stillhook.Tests.Reporting;

public class CustomerReporterTests
{
    // Closed form: 612 by load cell + 650 and 700 by the list + 300 by the crew = 2262 kg; the struck-out lift of A4 counts nowhere.
    [Fact]
    public void Report_SmallDay_CountsAndMasses()
    {
        CustomerReport report = SmallReport;
        Assert.Equal(new ReportTotals(4, 3, 1, 2262, 0, 5400), report.Totals);
        Assert.Equal([("A1", 612, PlacedMassBy.LoadCell), ("A2", 650, PlacedMassBy.Label), ("A3", 700, PlacedMassBy.Estimated), ("B9", 300.0, PlacedMassBy.Crew)], report.Placed.Select(p => (p.Number!, p.MassKg!.Value, p.MassBy)));
        Assert.Equal([("yard", 0), ("spot", 4)], report.Sites.Select(s => (s.Name, s.Placed)));
        Assert.Equal("08:20:00 +02:00", report.Placed[0].At!.Value.ToString("HH:mm:ss zzz", System.Globalization.CultureInfo.InvariantCulture));
    }

    // Closed form: differences of the clock times of the day; flown 60 + 30 min.
    [Fact]
    public void Report_SmallDay_MinutesByCause() => Assert.Equal(
        [(TimeUse.WaitingOnCustomer, 20, 1), (TimeUse.Weather, 20, 1), (TimeUse.Fuel, 10, 1), (TimeUse.Defect, 10, 1), (TimeUse.Other, 0, 0)], SmallReport.Standby.Select(s => (s.Cause, s.Minutes, s.Stops)));

    [Fact]
    public void Report_SmallDay_SentencesTellOnlyWhatIsTheCustomersBusiness() => Assert.Equal(
    [
        "08:00 to 08:10, 10 min: aircraft or rigging was not serviceable.", "09:10 to 09:20, 10 min: the aircraft was fuelled.",
        "09:20 to 09:40, 20 min: the crew was ready and waited for the customer. Road not closed yet.", "09:40 to 10:00, 20 min: the crew waited for the weather. Cloud on the slope.",
    ], SmallReport.Stops.Select(s => s.Sentence));

    // Closed form: 10 min 20 s shown as 11 min and 9 min 30 s as 9 min: together the 20 min between the first and the last time shown.
    [Fact]
    public void Report_StopsOffTheMinute_ShownTimesAddUp()
    {
        CustomerReport report = CustomerReporter.Report([Small with { Flights = [], TimeMarks = [new(new(At(9, 10, 20), At(9, 20, 40)), TimeUse.Weather, null), new(new(At(9, 20, 40), At(9, 30, 10)), TimeUse.WaitingOnCustomer, null), new(new(At(9, 30, 10), At(9, 30, 25)), TimeUse.Fuel, null)] }]);
        Assert.Equal([11, 9], report.Stops.Select(s => s.Minutes));
        Assert.Equal(20, report.Standby.Sum(s => s.Minutes));
    }

    [Fact]
    public void Report_NotPlaced_ReasonFromTallyUnlessToldOtherwise()
    {
        Assert.Equal(new LoadNotPlaced("A4", "stone bag", 720, "spot", "sling torn, left at the yard"), Assert.Single(SmallReport.NotPlaced));
        Assert.Equal("comes on Monday", CustomerReporter.Report([Small], new Dictionary<string, string> { ["A4"] = "comes on Monday" }).NotPlaced[0].Why);
        Assert.Null(CustomerReporter.Report([Small with { Tally = [] }]).NotPlaced[0].Why);
    }

    // Closed form: 1.5 h x 2000 + (300 + 200 - 260) kg x 1.5 + 500 = 3860; 20 min of waiting are 0.33 h, to be agreed.
    [Fact]
    public void Report_SmallDay_InvoiceLinesAddUp()
    {
        InvoiceDraft invoice = SmallReport.Invoice;
        Assert.Equal([(ChargeKind.FlightHours, 1.5m, 3000m), (ChargeKind.Fuel, 240m, 360m), (ChargeKind.FixedPrice, 1m, 500m), (ChargeKind.WaitingOnCustomer, 0.33m, null)], invoice.Lines.Select(l => (l.Kind, l.Quantity!.Value, l.Amount)));
        Assert.Equal(3860m, invoice.Total);
        Assert.Equal(ChargeKind.WaitingOnCustomer, Assert.Single(invoice.ToAgree).Kind);
    }

    // Closed form: 1234 s are 0.34 h, times 1999 is 679.66.
    [Fact]
    public void Report_OddTime_AmountIsQuantityAsShownTimesPrice()
    {
        InvoiceDraft invoice = CustomerReporter.Report([Small with { Job = Small.Job! with { Quote = new() { PricePerHour = 1999 } }, TimeMarks = [], Flights = [Small.Flights[0] with { Airborne = [new(At(9, 0), At(9, 20, 34))] }] }]).Invoice;
        Assert.Equal((0.34m, 679.66m), (invoice.Lines[0].Quantity!.Value, invoice.Lines[0].Amount!.Value));
        Assert.Null(invoice.Lines.Single(l => l.Kind == ChargeKind.Fuel).Amount);
    }

    [Fact]
    public void Report_NoPrices_NoAmountsAndNoSum()
    {
        InvoiceDraft invoice = CustomerReporter.Report([Small with { Job = Small.Job! with { Quote = null } }]).Invoice;
        Assert.All(invoice.Lines, l => Assert.Null(l.Amount));
        Assert.Null(invoice.Total);
    }

    // Closed form: no gauge, so what was taken on; nothing written, so not known.
    [Theory]
    [InlineData(true, 200)]
    [InlineData(false, null)]
    public void Report_FuelWithoutGauge_TakenOnOrNotKnown(bool taken, int? kg)
    {
        DayWork day = Small with { Fuel = taken ? [new(At(9, 20), null, 200)] : [] };
        Assert.Equal((decimal?)kg, CustomerReporter.Report([day]).Invoice.Lines.Single(l => l.Kind == ChargeKind.Fuel).Quantity);
    }

    // Closed form: A1 lifted twice stands once, at the later spot, and its mass counts once.
    [Fact]
    public void Report_LoadLiftedAgain_CountsOnceWhereItStands()
    {
        CustomerReport report = CustomerReporter.Report([Small with { Lifts = [Lift(1, "A1", At(8, 20), 612, true, Spot(0, 0)), Lift(2, "A1", At(9, 0), 610, true, Spot(90, 0))] }]);
        Assert.Equal((610, 1, Spot(90, 0)), (report.Totals.MassKg, report.Totals.PlacedOfPlanned, report.Placed[0].Position!.Value));
        Assert.Contains(report.Remarks, r => r.StartsWith("1 lift moved a load", StringComparison.Ordinal));
    }

    [Fact]
    public void Report_LiftsWithoutNumberOrMass_AreListedAndSaid()
    {
        CustomerReport report = CustomerReporter.Report([Small with { Lifts = [Lift(1, null, At(8, 20)), Lift(2, null, At(8, 30)), Lift(3, "A1", null) with { AddedByHand = true }, Lift(4, "A2", null)] }]);
        Assert.Equal((1, 2, 2), (report.Totals.PlacedOfPlanned, report.Totals.NotOnList, report.Totals.WithoutMass));
        Assert.Contains(report.Remarks, r => r.StartsWith("2 loads without a known mass", StringComparison.Ordinal));
        Assert.Contains("1 lift without a recorded set-down: not counted as placed.", report.Remarks);
        Assert.Contains(report.Remarks, r => r.StartsWith("3 loads have no recorded position", StringComparison.Ordinal));
    }

    // Closed form: the last gauge at 10:10 leaves 20 of the 90 min in the air without a reading.
    [Fact]
    public void Report_FlownAfterTheLastGauge_SaysSo() => Assert.Contains("The fuel of 20 min in the air lies outside the gauge readings and is not in the sum.",
        CustomerReporter.Report([Small with { Fuel = [new(At(8, 0), 300, null), new(At(10, 10), 260, null)] }]).Remarks);

    // A lunch break is told as one, and short stops that nobody noted don't fill the page: 2 x 2 min in one line.
    [Fact]
    public void Report_BreakAndUnnotedStops_TheirOwnWords()
    {
        DayWork day = Small with { Flights = [Small.Flights[0] with { Airborne = [new(At(8, 0), At(8, 30)), new(At(8, 32), At(9, 0)), new(At(9, 2), At(9, 30)), new(At(10, 0), At(10, 30)), new(At(10, 40), At(11, 0))] }], TimeMarks = [new(new(At(9, 30), At(10, 0)), TimeUse.Other, "tired", IsBreak: true)] };
        CustomerReport report = CustomerReporter.Report([day]);
        Assert.Equal(["08:30 to 08:32, 2 min: not noted what for.", "09:00 to 09:02, 2 min: not noted what for.", "09:30 to 10:00, 30 min: the crew had its break.", "10:30 to 10:40, 10 min: not noted what for."], report.Stops.Select(s => s.Sentence));
        Assert.Contains(CustomerPrint.Of(report).Parts.OfType<PrintedList>(), l => l.Items is [.., "2 stops of less than 5 min that nobody noted: 4 min together."] && l.Items.Count == 3);
    }

    // A break marked inside an hour of other work does not make the hour a break: the stop says what the split of the day says.
    [Fact]
    public void Report_BreakWithinOtherWork_IsWhatTheSplitSays()
    {
        DayWork day = Small with { Flights = [Small.Flights[0] with { Airborne = [new(At(8, 0), At(9, 0)), new(At(10, 0), At(11, 0))] }], TimeMarks = [new(new(At(9, 0), At(10, 0)), TimeUse.Other, null), new(new(At(9, 30), At(9, 40)), TimeUse.Other, null, IsBreak: true)] };
        Assert.Equal(["09:00 to 10:00, 60 min: other work."], CustomerReporter.Report([day]).Stops.Select(s => s.Sentence));
        Assert.DoesNotContain(TimeSplit.Of(day)!.Stretches, s => s.IsBreak);
    }

    // Closed form: 08:20 and 08:40 in one hour, none at 9, two at 10.
    [Fact]
    public void Report_SmallDay_HoursWithTheEmptyOne() => Assert.Equal([(8, 2), (9, 0), (10, 2)], SmallReport.LoadsByHour.Select(h => (h.Hour.Hour, h.Count)));

    // Closed form: two days are two fixed prices; 2 x 245 min flown are 8.17 h; 68 loads planned, L22 and 66 to 68 left.
    [Fact]
    public void Report_TwoDays_SumsOverBoth()
    {
        CustomerReport report = Large;
        Assert.Equal((68, 64, 0), (report.Totals.Planned, report.Totals.PlacedOfPlanned, report.Totals.NotOnList));
        Assert.Equal((8.17m, 2m, 820m), (report.Invoice.Lines[0].Quantity!.Value, report.Invoice.Lines[2].Quantity!.Value, report.Invoice.Lines[1].Quantity!.Value));
        Assert.Equal(["L22", "L66", "L67", "L68"], report.NotPlaced.Select(n => n.Number));
        Assert.Equal([new DateOnly(2026, 6, 1), new(2026, 6, 2)], report.Days);
    }

    [Fact]
    public void Report_NoDayOrTwoJobs_Refused()
    {
        Assert.Throws<ArgumentException>(() => CustomerReporter.Report([]));
        ArgumentException two = Assert.Throws<ArgumentException>(() => CustomerReporter.Report([Small, Small with { Job = Small.Job! with { Job = "another" } }]));
        Assert.Contains("'another'", two.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_DayWithoutAnything_IsAReport()
    {
        CustomerReport report = CustomerReporter.Report([new() { Day = new(2026, 6, 1) }]);
        Assert.Equal(new ReportTotals(0, 0, 0, 0, 0, 0), report.Totals);
        Assert.NotEmpty(CustomerPrint.Of(report).Parts);
    }
}
