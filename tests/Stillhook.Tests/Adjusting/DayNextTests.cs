using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;
using UnitsNet;

namespace Stillhook.Tests.Adjusting;

public class DayNextTests
{
    private const double Ft = 0.3048, Kt = 1852.0 / 3600, CardS = 9 * 3600 + 12 * 60;

    private static readonly LiftSetup Setup = new()
    {
        Line = new(Length.FromMeters(30), Origin.JobFile),
        Gates = [new(600, 400 * Ft, 50 * Kt, 3), new(50, 130 * Ft, 5, 0.5)],
    };

    private static readonly SiteCard Card = new("ridge", CardS, Setup);

    private static DateTimeOffset Clock(double timeS) => DateTimeOffset.UnixEpoch.AddSeconds(timeS);

    // A delivery some minutes after the card, as many feet high at the start mark as said.
    private static KeptDelivery Flown(double minute, double highFt = 40, long flight = 1, string site = "ridge")
    {
        double at = CardS + 60 * minute;
        Delivery d = new()
        {
            StartHeightM = (400 + highFt) * Ft, StartDistanceM = 600, EntrySpeedMs = 50 * Kt, StopShortM = 0, OvershootM = 0,
            Gates = [new(600, at - 90, (400 + highFt) * Ft, 50 * Kt, 3), new(50, at - 20, 130 * Ft, 5, 0.5)],
        };
        KeptLift lift = new() { FlightId = flight, Number = (int)minute, DeliveryTimeS = at, DeliverySite = site, LineM = 30, LoadNumber = "7", Family = "stone bag" };
        return new(lift, lift, new() { Number = (int)minute, DeliveryTimeS = at, Confidence = Confidence.High, Delivery = d });
    }

    private static KeptDelivery Corrected(KeptDelivery kept, Func<KeptLift, KeptLift> change) => kept with { Lift = change(kept.Lift) };

    private static SiteNext Next(params KeptDelivery[] day) => Job.Next(Card, day, null, Clock);

    // Common practice, no source: 3 of 3 that were 40 ft high since the card are asked 40 ft lower, whichever flight they are of; those before the card are not counted.
    [Fact]
    public void Next_TwoFlightsSinceTheCard_JoinedInOrderOfTimeAndCounted()
    {
        SiteNext next = Next(Flown(20, flight: 2), Flown(-5, -40), Flown(4), Flown(9), Flown(-1, -40));
        Assert.Equal("from 3 deliveries since the card of 09:12", next.Rests);
        Assert.Equal((3, "Cross the start mark 40 ft lower."), (next.Deliveries, next.Next!.Line));
        Assert.Empty(next.LeftOut);
    }

    [Fact]
    public void Next_NoCard_TheWholeDayAndSaysSo()
    {
        SiteNext next = Job.Next(Card with { CardAtS = null }, [Flown(-5), Flown(4)], null, Clock);
        Assert.Equal("from 2 deliveries since the start of the day, as no card was issued", next.Rests);
    }

    [Fact]
    public void Next_NothingSinceTheCard_NoAdvice()
    {
        SiteNext next = Next(Flown(-5), Flown(-1));
        Assert.Null(next.Next);
        Assert.Equal("no delivery since the card of 09:12 counts", next.Rests);
    }

    public static TheoryData<string, string> LeftOut => new()
    {
        { "struck out", "09:16: struck out." },
        { "by hand", "09:16: added by hand, nothing was measured." },
        { "kind", "09:16: its kind was corrected from stone bag to log." },
        { "site", "09:16: corrected to another site, yard." },
        { "time", "09:26: its times were corrected, and it was measured with the old ones." },
        { "place", "09:16: the place where it touched was corrected, and it was measured to the old one." },
        { "line", "09:16: flown with 45 m of line, the card is for 30 m." },
        { "load", "09:16: corrected to load 8, which goes to yard." },
        { "not found", "09:16: no delivery could be measured in its record." },
    };

    [Theory]
    [MemberData(nameof(LeftOut))]
    public void Next_CorrectedAway_LeftOutAndSaid(string how, string says)
    {
        KeptDelivery kept = Flown(4);
        kept = how switch
        {
            "struck out" => Corrected(kept, l => l with { StruckOut = true }),
            "by hand" => Corrected(kept, l => l with { AddedByHand = true }),
            "kind" => Corrected(kept, l => l with { Family = "log" }),
            "site" => Corrected(kept, l => l with { DeliverySite = "yard" }),
            "time" => Corrected(kept, l => l with { DeliveryTimeS = l.DeliveryTimeS + 600 }),
            "place" => Corrected(kept with { AsKept = kept.AsKept with { Delivery = new(46.9, 10.1) } }, l => l with { Delivery = new(46.9, 10.2) }),
            "line" => Corrected(kept, l => l with { LineM = 45 }),
            "load" => Corrected(kept, l => l with { LoadNumber = "8" }),
            _ => kept with { Measured = null },
        };
        LiftRequest job = new() { Loads = [new() { Number = "8", Mass = Mass.FromKilograms(500), HowKnown = MassKnownBy.Weighed, Delivery = "yard" }] };
        SiteNext next = Job.Next(Card, [kept, Flown(30), Flown(35)], job, Clock);
        Assert.Equal(says, Assert.Single(next.LeftOut));
        Assert.Equal(2, next.Deliveries);
    }

    // What the crew knows better of mass and number moves nothing that was measured.
    [Fact]
    public void Next_MassOrNumberCorrected_StillCounts()
    {
        SiteNext next = Next(Flown(4), Corrected(Flown(9), l => l with { LoadKg = 640, LoadNumber = "9" }), Flown(20));
        Assert.Equal(3, next.Deliveries);
        Assert.Empty(next.LeftOut);
    }

    [Fact]
    public void Next_OtherSitesDeliveries_AreNotCounted()
    {
        SiteNext next = Next(Flown(4), Flown(5, site: "yard"), Flown(9));
        Assert.Equal(2, next.Deliveries);
        Assert.Empty(next.LeftOut);
    }
}
