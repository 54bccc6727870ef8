using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Reporting;

namespace Stillhook.Tests.App.Pages;

public class LiftFieldTests
{
    private const double Midnight = 1_780_012_800; // a multiple of 86,400 s

    private static LiftField Field(string key) => LiftField.All.Single(f => f.Key == key);

    // Closed form: 23:58 before a delivery at 00:00:10 is 130 s earlier, on the day before.
    [Fact]
    public void PickUp_BeforeMidnight_StaysOnItsSide()
    {
        KeptLift lift = new() { Number = 1, DeliveryTimeS = Midnight + 10 };
        (KeptLift put, string? mistake) = Field("pickup").Put(lift, "23:58:00", SiteClock.Utc);
        Assert.Null(mistake);
        Assert.Equal(Midnight - 120, put.PickUpTimeS);
    }

    // Closed form: 1 lb = 0.45359237 kg.
    [Theory]
    [InlineData("812 kg", 812)]
    [InlineData("1000lb", 453.59237)]
    public void Weight_Typed_IsNoLongerMeasured(string typed, double kg)
    {
        (KeptLift put, string? mistake) = Field("weight").Put(new() { Number = 1, LoadKg = 700, LoadMeasured = true }, typed, SiteClock.Utc);
        Assert.Null(mistake);
        Assert.Equal(kg, put.LoadKg!.Value, 1e-6);
        Assert.False(put.LoadMeasured);
    }

    [Theory]
    [InlineData("weight", "780", "type a mass")]
    [InlineData("weight", "78 t", "outside 5 to 15000 kg")]
    [InlineData("pickup", "25:00", "hours, minutes and seconds")]
    [InlineData("number", "1234567890123456789012345678901234567890123456789012345678901", "at most 60")]
    public void Put_CantBeUsed_SaysWhatToTypeAndChangesNothing(string key, string typed, string said)
    {
        KeptLift lift = new() { Number = 1, LoadKg = 700, LoadMeasured = true, DeliveryTimeS = Midnight };
        (KeptLift put, string? mistake) = Field(key).Put(lift, typed, SiteClock.Utc);
        Assert.Contains(said, mistake, StringComparison.Ordinal);
        Assert.Equal(lift, put);
    }

    // Opening a form and sending it as it is changes nothing: every value reads back to itself.
    [Theory]
    [InlineData("ft")]
    [InlineData("lb")]
    public void Text_OfWhole_ReadsBack(string units)
    {
        KeptLift lift = new() { Number = 1, PickUpTimeS = Midnight + 60, DeliveryTimeS = Midnight + 200, LoadKg = 453.59237, LoadNumber = "12", Family = "stone", StruckOut = true };
        foreach (LiftField field in LiftField.All)
            Assert.Equal(field.Text(lift, DisplayUnits.Named(units), SiteClock.Utc), field.Text(field.Put(lift, field.Text(lift, DisplayUnits.Named(units), SiteClock.Utc), SiteClock.Utc).Lift, DisplayUnits.Named(units), SiteClock.Utc));
        Assert.Equal(lift.PickUpTimeS, Field("pickup").Put(lift, Field("pickup").Text(lift, DisplayUnits.Feet, SiteClock.Utc), SiteClock.Utc).Lift.PickUpTimeS);
    }
}
