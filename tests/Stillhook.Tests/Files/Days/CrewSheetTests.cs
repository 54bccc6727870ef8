using System.Globalization;
using Stillhook.Files.Days;
using Stillhook.Reporting;

namespace Stillhook.Tests.Files.Days;

public class CrewSheetTests
{
    private static CrewSheet Read(string rows, string heading = CrewSheet.Heading) =>
        CrewSheet.Read(new StringReader(heading + "\n" + rows), time => time.Hour == 3 ? null : time.ToTimeSpan().TotalSeconds);

    // Closed form: seconds of the day by hand, 08:35 is 30 900 s.
    [Fact]
    public void Read_EveryKind_IsTaken()
    {
        CrewSheet sheet = Read("""
            delivery,08:35,,1,725.5,,
            delivery,,,2,,,no time written, load was wet
            weather,09:00,09:20,,,,cloud on the ridge
            break,10:00,10:30:30,,,,
            gauge,8:10,,,,300,
            uplift,09:25,,,,120,
            snag,09:40:10,,,,,sling caught on a root
            """);
        Assert.Empty(sheet.Findings);
        Assert.Equal([new TallyEntry(1, 30_900, "1", 725.5, null), new TallyEntry(2, null, "2", null, "no time written, load was wet")], sheet.Tally);
        Assert.Equal([new TimeMark(new(32_400, 33_600), TimeUse.Weather, "cloud on the ridge"), new TimeMark(new(36_000, 37_830), TimeUse.Other, null, true)], sheet.Times);
        Assert.Equal([new FuelEntry(29_400, 300, null), new FuelEntry(33_900, null, 120)], sheet.Fuel);
        Assert.Equal([new EventMark(34_810, EventKind.Snag, "sling caught on a root")], sheet.Events);
    }

    // One bad line is named and the others are kept.
    [Theory]
    [InlineData("delivery,8h35,,1,725,,")]
    [InlineData("delivery,08:35,,1,72x5,,")]
    [InlineData("weather,09:20,09:00,,,,")]
    [InlineData("gauge,09:20,,,,,")]
    [InlineData("snag,,,,,,")]
    [InlineData("flown,09:00,09:20,,,,")]
    [InlineData("2,09:00,09:20,,,,")]
    [InlineData("delivery,03:30,,1,725,,")] // skipped by the clocks
    public void Read_OneBadLine_IsNamedAndTheOthersStand(string bad)
    {
        CrewSheet sheet = Read("delivery,08:30,,7,,,\n" + bad + "\ndelivery,08:40,,8,,,\n\n");
        Assert.Equal(3, Assert.Single(sheet.Findings).Line);
        Assert.Equal(["7", "8"], sheet.Tally.Select(t => t.LoadNumber));
    }

    [Fact]
    public void Read_NoHeading_SaysWhich() => Assert.Contains(CrewSheet.Heading, Assert.Single(Read("", "time,load").Findings).Done, StringComparison.Ordinal);

    // Closed form: the same 725.5 kg as typed. A spreadsheet of a country with a decimal comma writes semicolons; a comma in a number is refused, not read as thousands.
    [Fact]
    public void Read_SemicolonsUnderACommaCulture_SameAnswer()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            CrewSheet sheet = Read("delivery;08:35;;1;725.5;;\ndelivery;08:39;;2;725,5;;", CrewSheet.Heading.Replace(',', ';'));
            Assert.Equal(725.5, Assert.Single(sheet.Tally).LoadKg);
            Assert.Single(sheet.Findings);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
