using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Tests.Planning;
using UnitsNet;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class DayReporterTests
{
    private static LiftRequest Work40() => Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)) with { Name = "HB-XYZ", TorqueLimit = Ratio.FromPercent(100) },
        [Jobs.Site("yard", SiteUse.PickUp, 500, 10), Jobs.Site("spot", SiteUse.Delivery, 900, 8)], [.. Enumerable.Range(1, 40).Select(i => Jobs.Load(i.ToString(CultureInfo.InvariantCulture), 700))]) with
    {
        Policy = new() { PartRules = [new() { Kind = PartKind.CargoHook, Lifts = 5000, Source = "hook manual" }] },
    };

    /// <summary>A day like a real one: 41 lifts in 2.9 h of flight, a break, fuel, an exceedance, an event, marks.</summary>
    private static DayWork Full()
    {
        string Load(int i) => i == 41 ? "47" : i.ToString(CultureInfo.InvariantCulture);
        double Minute(int i) => i <= 20 ? 4.2 * i : 35 + 4.2 * i;
        return Day() with
        {
            Job = Work40(),
            Flights = [Flight(From(0, 87), From(122, 209)) with { Exceedances = [new(LimitKind.Torque, 100, 103, At(50), 2)] }],
            Lifts = [.. Enumerable.Range(1, 41).Select(i => Lift(i, Minute(i), Load(i), 700) with { PickUpTimeS = At(Minute(i) - 1), ClearTimeS = At(Minute(i) + 0.2), Measures = new() { SecondsOverPeople = i == 3 ? 1.5 : 0 } })],
            Tally = [.. Enumerable.Range(1, 41).Where(i => i is not (7 or 23)).Select(i => Tally(i, Minute(i) + 0.3, Load(i)))],
            TimeMarks = [new(From(87, 121), TimeUse.Other, "lunch", true), new(From(209, 240), TimeUse.WaitingOnCustomer, null)],
            Fuel = [new(At(0), 280, null), new(At(100), 270, 200), new(At(210), 90, null)],
            Parts = [new("hook 12", PartKind.CargoHook, 4_500, 300), new("line 3", PartKind.Line, 900, 61.5)],
            Events = [new(At(60), EventKind.Snag, "line on a bush")],
            Duty = [new("A. Pilot", From(-60, 300), null)],
        };
    }

    // Closed form: 41 lifts in 2.9 h are 14.1 an hour; 28 700 kg; 4 541 hook lifts (near 5 000); three odd lifts; fuel 280 + 200 - 270 + 270 - 90 = 390 kg, 134.5 kg/h; 360 min of day.
    [Fact]
    public void Report_FullDay_FiguresByHand()
    {
        DaySheet sheet = Job.Day(Full());
        Assert.Equal(41 / 2.9, sheet.Totals.PerHour!.Value, 1e-9);
        Assert.Equal(28_700, sheet.Totals.CarriedKg);
        Assert.Equal(["7", "23", "47"], sheet.Reconciliation.Odd.Select(o => o.LoadNumber));
        Assert.Equal(4_541, sheet.Parts[0].LiftsToDate);
        Assert.Equal(CheckVerdict.ToConfirm, Assert.Single(sheet.Parts[0].Rules).Verdict);
        Assert.Equal(390, sheet.Fuel.UsedKg!.Value, 1e-9);
        Assert.Equal(390 / 2.9, sheet.Fuel.PerHourKg!.Value, 1e-9);
        Assert.Equal((360, 174, 31), (sheet.Time!.TotalMinutes, sheet.Time.Minutes[TimeUse.Flown], sheet.Time.Minutes[TimeUse.WaitingOnCustomer]));
        Assert.Equal(1.5, sheet.Exposure.Seconds!.Value, 1e-9);
        Assert.Single(sheet.WriteUps);
        Assert.Equal(2, sheet.Prompts.Count);
        Assert.Empty(sheet.Breaks[0].Due);
        Assert.Equal([DaySheet.HeadCaution, DaySheet.WriteUpCaution, DaySheet.OccurrenceCaution, DaySheet.PaceCaution], sheet.Cautions);
        Assert.Empty(sheet.Findings);
    }

    // Every figure says why: a formula, a source and inputs whose figures are in the book.
    [Fact]
    public void Report_EveryFigure_SaysWhy()
    {
        FigureBook book = Job.Day(Full()).Figures;
        Assert.Equal(41 / 2.9, ((Scalar)book.Find("day.liftsPerHour")!.Value.Quantity).Amount, 1e-9);
        Assert.Equal(4_541, ((Scalar)book.Find("part.hook-12.lifts")!.Value.Quantity).Amount, 1e-9);
        Assert.Equal(360, Enum.GetValues<TimeUse>().Sum(u => ((Duration)book.Find($"day.time.{TimeSplit.UseWords(u).Replace(' ', '-')}")!.Value.Quantity).Minutes), 1e-9);
        Assert.All(book.All, f =>
        {
            Assert.NotEmpty(f.Formula);
            Assert.NotEmpty(f.Source);
            Assert.NotEmpty(f.Inputs);
            Assert.All(f.Inputs.Where(i => i.From == InputFrom.Figure), i => Assert.NotNull(book.Find(i.Where)));
        });
    }

    // An empty day says what is missing and makes nothing up.
    [Fact]
    public void Report_EmptyDay_NothingMadeUp()
    {
        DaySheet sheet = Job.Day(Day());
        Assert.Equal(0, sheet.Totals.Lifts);
        Assert.Null(sheet.Totals.PerHour);
        Assert.Null(sheet.Fuel.UsedKg);
        Assert.Null(sheet.Time);
        Assert.Null(sheet.Exposure.Seconds);
        Assert.Empty(sheet.Prompts);
        Assert.Contains(sheet.Findings, f => f.Code == "fuel-unknown");
        Assert.Null(sheet.Figures.Find("day.liftsPerHour"));
    }

    [Fact]
    public void Report_CommaDecimals_SameWordsAndKeys()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            static string Words(DaySheet s) => string.Join('\n', s.Findings.Select(f => f.What).Concat(s.Duty.Select(d => d.Text)).Concat(s.Parts.SelectMany(p => p.Rules).Select(r => r.Text)).Concat(s.Prompts.SelectMany(p => p.Facts)).Concat(s.Figures.All.SelectMany(f => f.Inputs.Select(i => i.Name).Append(f.Key).Append(f.Note))));
            DayWork work = Full() with { Fuel = [new(At(0), 280.5, null), new(At(100), 90.4, null)] };
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            string plain = Words(Job.Day(work));
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.Equal(plain, Words(Job.Day(work)));
            Assert.Contains("280.5", plain, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    // The customer's report takes its stops from the same split.
    [Fact]
    public void Report_TimeSplit_IsTheCustomersToo()
    {
        CustomerReport report = CustomerReporter.Report([Full()]);
        Assert.Equal(31, report.Standby.Single(s => s.Cause == TimeUse.WaitingOnCustomer).Minutes);
        Assert.Equal(174 * 60, report.Totals.FlightTimeS, 1e-6);
        Assert.Equal(34, report.Stops.Single(s => s.IsBreak).Minutes);
        Assert.Equal(360 - 174, report.Standby.Sum(s => s.Minutes));
    }
}
