using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Tests.Planning.Checking;

public class RequestCheckTests
{
    private static PlannedLoad Load(string number) => new() { Number = number, Mass = Mass.FromKilograms(500), HowKnown = MassKnownBy.Weighed };

    private static Site Site(string name, SiteUse use) => new() { Name = name, Use = use, Latitude = Angle.FromDegrees(46), Longitude = Angle.FromDegrees(8) };

    private static HoverChart Chart(params double?[][] rows) => new()
    {
        Source = "invented",
        PressureAltitude = [Length.FromFeet(0), Length.FromFeet(4000), Length.FromFeet(8000)],
        Temperature = [Temperature.FromDegreesCelsius(0), Temperature.FromDegreesCelsius(20)],
        Mass = [.. rows.Select(r => r.Select(m => m is { } kg ? Mass.FromKilograms(kg) : (Mass?)null).ToArray())],
    };

    private static IReadOnlyList<RequestFinding> Check(HoverChart chart) => RequestCheck.Check(new() { Aircraft = new() { HoverOutOfGroundEffect = chart } });

    private static void Only(IReadOnlyList<RequestFinding> findings, string code, string path, string says = "")
    {
        RequestFinding finding = Assert.Single(findings);
        Assert.Equal((code, path), (finding.Code, finding.Path));
        Assert.Contains(says, finding.What + " " + finding.Mend, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_NothingGiven_FindsNothing() => Assert.Empty(RequestCheck.Check(new()));

    [Fact]
    public void Check_LoadNumberTwice_NamesTheSecond() =>
        Only(RequestCheck.Check(new() { Loads = [Load("7"), Load("8"), Load("7")] }), "load-number-twice", "loads[2].number", "load 1");

    // 2026-11-25: 'A 1' and 'a-1' shared one figure, so one load was planned with the other's mass.
    [Fact]
    public void Check_LoadNumbersThatReadAlike_AreRefused() =>
        Only(RequestCheck.Check(new() { Loads = [Load("A 1"), Load("a-1")] }), "load-number-twice", "loads[1].number", "'A 1'");

    [Fact]
    public void Check_SiteNameTwice_NamesTheSecond() =>
        Only(RequestCheck.Check(new() { Sites = [Site("yard", SiteUse.PickUp), Site("Yard", SiteUse.Base)] }), "site-name-twice", "sites[1].name", "site 1");

    [Fact]
    public void Check_UnknownSite_SuggestsTheNearest()
    {
        Site[] sites = [Site("yard", SiteUse.PickUp), Site("path", SiteUse.Delivery), Site("hut", SiteUse.Delivery)];
        Only(RequestCheck.Check(new() { Sites = sites, Loads = [Load("1") with { Delivery = "paht" }] }), "load-site-unknown", "loads[0].delivery", "'path'");
        Only(RequestCheck.Check(new() { Sites = sites, Loads = [Load("1") with { Delivery = "yard" }] }), "load-site-use", "loads[0].delivery", "no delivery site");
        Only(RequestCheck.Check(new() { Sites = sites, Loads = [Load("1")] }), "load-site-open", "loads[0].delivery", "hut, path");
        Assert.Empty(RequestCheck.Check(new() { Sites = sites, Loads = [Load("1") with { Delivery = "hut" }] }));
    }

    [Fact]
    public void Check_Precedence_NamesUnknownLoadsAndTheCircle()
    {
        Only(RequestCheck.Check(new() { Loads = [Load("10"), Load("20") with { After = ["10", "30"] }] }), "load-after-unknown", "loads[1].after[1]", "'30'");
        Only(RequestCheck.Check(new() { Loads = [Load("a") with { After = ["c"] }, Load("b") with { After = ["a"] }, Load("c") with { After = ["b"] }, Load("d") with { After = ["a"] }] }),
            "load-circle", "loads[1].after[0]", "Load a, which waits for c, which waits for b, which waits for a again");
        Only(RequestCheck.Check(new() { Loads = [Load("a") with { After = ["a"] }] }), "load-circle", "loads[0].after[0]", "a, which waits for a again");
        Assert.Empty(RequestCheck.Check(new() { Loads = [Load("a"), Load("b") with { After = ["a"] }, Load("c") with { After = ["a", "b"] }] }));
    }

    [Fact]
    public void Check_LongChain_NeedsNoDeepStack()
    {
        const int count = 100_000;
        PlannedLoad[] loads = [.. Enumerable.Range(0, count).Select(i => Load($"{i}") with { After = i + 1 < count ? [$"{i + 1}"] : [] })];
        Assert.Empty(RequestCheck.Check(new() { Loads = loads }));
    }

    [Fact]
    public void Check_HoverChart_NamesTheCellThatIsWrong()
    {
        const string path = "aircraft.hoverOutOfGroundEffect";
        Assert.Empty(Check(Chart([2000, 1900], [1900, 1800], [1900, 1700])));
        Only(Check(Chart([2000, 1900], [1900, 1950], [1800, 1700])), "chart-mass-rises", path + ".mass[1][1]", "1950 kg at 4000 ft and 20 °C is more than the 1900 kg at 0 °C");
        Only(Check(Chart([2000, 1900], [2100, 1800], [1800, 1700])), "chart-mass-rises", path + ".mass[1][0]", "the 2000 kg at 0 ft");
        RequestFinding hole = Assert.Single(Check(Chart([2000, 1900], [1900, null], [1800, 1700])));
        Assert.Equal((Severity.Note, "chart-hole", path + ".mass[1][1]"), (hole.Severity, hole.Code, hole.Path));
        Assert.Contains("4000 ft and 20 °C", hole.What, StringComparison.Ordinal);
        // Through the hole: the figure two rows down is compared with the one above it.
        Assert.Equal(["chart-hole", "chart-mass-rises"], Check(Chart([2000, 1900], [1900, null], [1960, 1950])).Select(f => f.Code).Distinct().Order(StringComparer.Ordinal));
        // All empty cells of a page are one finding.
        Assert.Contains("in 2 more cells", Assert.Single(Check(Chart([2000, null], [null, null], [1800, 1700]))).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_HoverChartOfAnotherShape_NamesTheRow()
    {
        const string path = "aircraft.hoverOutOfGroundEffect";
        Only(Check(Chart([2000, 1900], [1900, 1800])), "chart-rows", path + ".mass", "2 rows of masses for 3");
        Only(Check(Chart([2000, 1900], [1900], [1800, 1700])), "chart-columns", path + ".mass[1]", "1 masses for 2");
        Only(Check(Chart([2000, 1900], [1900, 1800], [1800, 1700]) with { Temperature = [Temperature.FromDegreesCelsius(20), Temperature.FromDegreesCelsius(0)] }),
            "chart-axis-not-rising", path + ".temperature[1]");
        Only(Check(Chart([2000, 1900], [1900, 1800], [1800, 1700]) with { PressureAltitude = [Length.Zero, Length.FromFeet(4000), Length.FromFeet(4000)] }),
            "chart-axis-not-rising", path + ".pressureAltitude[2]");
        Assert.Equal(2, Check(new() { Source = "", PressureAltitude = [], Temperature = [], Mass = [] }).Count(f => f.Code == "chart-axis-empty"));
    }

    [Fact]
    public void Check_TorqueChart_MustRiseWithMass()
    {
        static Ratio? P(double percent) => Ratio.FromPercent(percent);
        TorqueChart chart = new()
        {
            Source = "invented",
            PressureAltitude = [Length.Zero],
            Temperature = [Temperature.FromDegreesCelsius(15)],
            Mass = [Mass.FromKilograms(1500), Mass.FromKilograms(2000), Mass.FromKilograms(2500)],
            Torque = [[[P(50), P(70), P(90)]]],
        };
        IReadOnlyList<RequestFinding> Of(TorqueChart c) => RequestCheck.Check(new() { Aircraft = new() { HoverTorque = c } });
        Assert.Empty(Of(chart));
        Only(Of(chart with { Torque = [[[P(50), P(90), P(70)]]] }), "chart-torque-not-rising", "aircraft.hoverTorque.torque[0][0][2]", "70 % at 0 m and 15 °C and 2500 kg");
        Only(Of(chart with { Torque = [[[P(50), null, P(70)]]] }), "chart-hole", "aircraft.hoverTorque.torque[0][0][1]", "2000 kg");
        Only(Of(chart with { Torque = [[[P(50), P(70)]]] }), "chart-columns", "aircraft.hoverTorque.torque[0][0]");
        Only(Of(chart with { Torque = [] }), "chart-tables", "aircraft.hoverTorque.torque");
    }

    [Theory]
    [InlineData("rescue sling with person", null, null, "loads[0].name")]
    [InlineData("two firefighters on the line", null, null, "loads[0].name")]
    [InlineData("man-basket with tools", null, null, "loads[0].name")]
    [InlineData("lineman on longline", null, null, "loads[0].name")]
    [InlineData("crew transfer on hook", null, null, "loads[0].name")]
    [InlineData("stringing the conductor", null, null, "loads[0].name")]
    [InlineData("pulling rope, span 4", null, null, "loads[0].name")]
    [InlineData("beam", null, "two men ride along on the hook", "loads[0].note")]
    [InlineData("Two PERSONS", null, null, "loads[0].name")]
    [InlineData("basket", "human external cargo", null, "loads[0].family")]
    [InlineData("basket", null, "carries one person", "loads[0].note")]
    [InlineData("basket", null, "person stands in the basket", "loads[0].note")]
    public void Check_TextThatSaysPeopleAreCarried_IsRefused(string name, string? family, string? note, string path) =>
        Only(RequestCheck.Check(new() { Loads = [Load("1") with { Name = name, Family = family, Note = note }] }), "refused-work", path, "outside what is planned here");

    [Theory]
    [InlineData("personal kit", null)]
    [InlineData("beams", "two people receive it, keep the slope clear")]
    [InlineData("humane trap", "")]
    public void Check_TextThatDoesNot_IsNotRefused(string name, string? note) =>
        Assert.Empty(RequestCheck.Check(new() { Loads = [Load("1") with { Name = name, Note = note }] }));

    [Fact]
    public void Check_ClassesCAndD_AreRefused()
    {
        Assert.Empty(RequestCheck.Check(new() { Loads = [Load("1") with { Class = LoadClass.B }, Load("2") with { Class = LoadClass.A }] }));
        Only(RequestCheck.Check(new() { Loads = [Load("1") with { Class = LoadClass.C }] }), "refused-work", "loads[0].class", "line stringing");
        Only(RequestCheck.Check(new() { Loads = [Load("1") with { Class = LoadClass.D }] }), "refused-work", "loads[0].class", "people");
        Only(RequestCheck.Check(new() { Load = new() { Name = "patient" } }), "refused-work", "load.name");
    }

    [Fact]
    public void Check_Forecast_HoursRise()
    {
        ForecastHour At(int hour) => new() { Hour = new(hour, 0), Temperature = Temperature.FromDegreesCelsius(10) };
        LiftRequest With(params int[] hours) => new() { Sites = [Site("a", SiteUse.Base) with { Forecast = [.. hours.Select(At)] }] };
        Assert.Empty(RequestCheck.Check(With(8, 11, 14)));
        Only(RequestCheck.Check(With(8, 8)), "forecast-hour-twice", "sites[0].forecast[1].hour", "08:00");
        Only(RequestCheck.Check(With(8, 11, 9)), "forecast-not-rising", "sites[0].forecast[2].hour", "09:00 follows 11:00");
    }

    [Fact]
    public void Check_LineWithoutLength_IsAWarning()
    {
        IReadOnlyList<RequestFinding> findings = RequestCheck.Check(new() { Line = new() { Rigging = Length.FromMeters(3) } });
        Only(findings, "line-without-length", "line.length");
        Assert.Equal(Severity.Warning, findings[0].Severity);
    }

    [Fact]
    public void Check_LoadOffByItself_IsAnError() =>
        Only(RequestCheck.Check(new() { Loads = [Load("1") with { Uncertainty = Mass.FromKilograms(500) }] }), "load-uncertainty", "loads[0].uncertainty");

    [Fact]
    public void ForPlan_MoreFuelThanTheTankTakesOrASiteFarAway_IsAnError()
    {
        LiftRequest job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)), [Jobs.Site("yard", SiteUse.PickUp, 400, 12), Jobs.Site("roof", SiteUse.Delivery, 500, 12, 46.905)], Jobs.Load("1", 500));
        Assert.Empty(RequestCheck.ForPlan(job));
        Only(RequestCheck.ForPlan(job with { Day = job.Day! with { StartFuel = Mass.FromKilograms(301) } }), "fuel-over-tank", "day.startFuel", "300 kg");
        Only(RequestCheck.ForPlan(job with { Sites = [job.Sites[0], job.Sites[1] with { Longitude = -job.Sites[1].Longitude }] }), "site-far", "sites[1]", "1531 km");
        Only(RequestCheck.ForPlan(job with { Policy = new() { PowerMargin = Ratio.FromPercent(5) } }), "plan-needs", "aircraft.hoverTorque", "hover torque page");
    }

    [Fact]
    public void ForPlan_NothingGiven_AsksForEverythingAtOnce() =>
        Assert.Equal(
            ["date", "day.start", "aircraft.equippedMass", "aircraft.hookLimit", "aircraft.externalGrossLimit", "aircraft.hoverOutOfGroundEffect", "aircraft.fuel",
                "aircraft.speeds", "crew", "sites", "sites", "loads", "rigging", "line.length"],
            RequestCheck.ForPlan(new()).Select(f => f.Path));

    [Fact]
    public void ForPlan_SitesAndCrew_NeedWeatherElevationAndMass()
    {
        LiftRequest request = new()
        {
            Crew = [new() { Name = "P", Role = CrewRole.Pilot }, new() { Name = "L", Role = CrewRole.LoadMaster }, new() { Name = "S", Role = CrewRole.Signaller, Aboard = true }],
            Sites = [Site("yard", SiteUse.PickUp), Site("path", SiteUse.Delivery) with { Elevation = Length.FromMeters(1) }, Site("base", SiteUse.Base)],
        };
        string[] paths = [.. RequestCheck.ForPlan(request).Select(f => f.Path).Where(p => p.StartsWith("crew", StringComparison.Ordinal) || p.StartsWith("sites", StringComparison.Ordinal))];
        Assert.Equal(["crew[0].mass", "crew[2].mass", "sites[0].elevation", "sites[0].weather", "sites[1].weather"], paths);
    }

    // Closed form: changes counted by hand.
    [Theory]
    [InlineData("path", "path", 0)]
    [InlineData("paht", "path", 1)]
    [InlineData("pth", "path", 1)]
    [InlineData("", "abc", 3)]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("MASSKG", "massKg", 0)]
    public void Changes_TwoWords_AreCounted(string a, string b, int changes)
    {
        Assert.Equal(changes, NearestWord.Changes(a, b));
        Assert.Equal(changes, NearestWord.Changes(b, a));
    }

    [Theory]
    [InlineData("paht", "path")]
    [InlineData("3", null)]
    [InlineData("nothing like it", null)]
    [InlineData("", null)]
    public void To_WrittenWord_IsTheNearestOrNone(string written, string? nearest) => Assert.Equal(nearest, NearestWord.To(written, ["yard", "path", "1", "12"]));
}
