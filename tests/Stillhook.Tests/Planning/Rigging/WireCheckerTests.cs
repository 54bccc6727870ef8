using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.Tests.Planning.Rigging;

public class WireCheckerTests
{
    private static readonly Wire Grid = new() { Name = "132 kV line", Voltage = ElectricPotential.FromKilovolts(132), ClosestPlanned = Length.FromFeet(30) };

    // Published: [ASME-B30.12] 132 kV needs 18.4 ft, unless the owner or the operator asks for more.
    [Theory]
    [InlineData(null, null, 18.417)]
    [InlineData(25.0, null, 25)]
    [InlineData(10.0, 28.0, 28)]
    public void Check_132kV_NeedsTheLargestFigure(double? ownersFt, double? operatorsFt, double neededFt)
    {
        WireCheck check = Check(Grid with { OwnersMinimum = ownersFt is { } o ? Length.FromFeet(o) : null }, operatorsFt);
        Assert.Equal(neededFt, ((Length)check.Needed.Value.Quantity).Feet, 0.001);
        // With the rule alone somebody must still say what a load on a line needs.
        Assert.Equal(ownersFt is null && operatorsFt is null ? CheckVerdict.ToConfirm : CheckVerdict.Passes, check.Item.Verdict);
        Assert.Equal("wire.ridge-3.132-kv-line", check.Needed.Key);
    }

    // Published: 18.417 ft; a path inside it fails, and one inside the operator's larger figure too.
    [Theory]
    [InlineData(18.4, null, CheckVerdict.Fails)]
    [InlineData(18.5, null, CheckVerdict.ToConfirm)]
    [InlineData(20.5, 20.0, CheckVerdict.Passes)]
    [InlineData(18.5, 20.0, CheckVerdict.Fails)]
    public void Check_PathInside_Fails(double closestFt, double? operatorsFt, CheckVerdict expected) =>
        Assert.Equal(expected, Check(Grid with { ClosestPlanned = Length.FromFeet(closestFt) }, operatorsFt).Item.Verdict);

    [Theory]
    [InlineData(true, 132.0, "an obstacle all the same")]
    [InlineData(null, null, "the voltage is not known")]
    [InlineData(null, 132.0, "")]
    public void Check_DeadOrOfUnknownVoltage_SaysSoBesideTheFigure(bool? dead, double? kilovolts, string said)
    {
        string note = Check(Grid with { Dead = dead, Voltage = kilovolts is { } kv ? ElectricPotential.FromKilovolts(kv) : null }).Needed.Note;
        if (said.Length == 0)
            Assert.Empty(note);
        else
            Assert.Contains(said, note, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_NoDistancePlanned_IsNotJudged()
    {
        WireCheck check = Check(Grid with { ClosestPlanned = null });
        Assert.Equal(CheckVerdict.ToConfirm, check.Item.Verdict);
        Assert.Contains("Not judged", check.Item.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(300, CheckVerdict.ToConfirm)]
    [InlineData(14.9, CheckVerdict.Fails)]
    public void Check_VoltageUnknown_AsksAndNeverPasses(double closestFt, CheckVerdict expected)
    {
        WireCheck check = Check(Grid with { Voltage = null, ClosestPlanned = Length.FromFeet(closestFt) });
        Assert.Equal(expected, check.Item.Verdict);
        Assert.Equal("sites[0].wires[0].voltage", Assert.Single(check.Needed.Inputs, i => i.From == InputFrom.Default).Where);
    }

    // Common practice, no source: a dead wire is still an obstacle; 15 ft when nobody gives a figure.
    [Theory]
    [InlineData(null, 15)]
    [InlineData(8.0, 8)]
    public void Check_DeadWire_KeepsTheOwnersOrTheDefaultDistance(double? ownersFt, double neededFt)
    {
        WireCheck check = Check(Grid with { Dead = true, Voltage = null, OwnersMinimum = ownersFt is { } o ? Length.FromFeet(o) : null });
        Assert.Equal(neededFt, ((Length)check.Needed.Value.Quantity).Feet, 1e-9);
        Assert.Equal(ownersFt is null ? CheckVerdict.ToConfirm : CheckVerdict.Passes, check.Item.Verdict);
    }

    [Fact]
    public void Check_TwoWiresOfOneName_HaveTheirOwnKeys()
    {
        IReadOnlyList<WireCheck> checks = WireChecker.Check(new() { Sites = [Place(Grid, Grid)] });
        Assert.Equal(["wire.ridge-3.132-kv-line", "wire.ridge-3.132-kv-line-2"], checks.Select(c => c.Needed.Key));
    }

    // Closed form: at 46° N a minute of latitude is 1 852.3 m; 0.0001° is 11.1 m. The span runs east-west that far north of the spot, the needed distance is 30 m.
    [Theory]
    [InlineData(0.0001, 300.0, CheckVerdict.Fails)]
    [InlineData(0.0010, 200.0, CheckVerdict.ToConfirm)]
    [InlineData(0.0010, 100.0, CheckVerdict.Passes)]
    public void Check_SpanOnTheMap_IsHeldAgainstTheSpot(double northDeg, double closestM, CheckVerdict expected)
    {
        Spot End(double eastDeg) => new() { Latitude = Angle.FromDegrees(46 + northDeg), Longitude = Angle.FromDegrees(7 + eastDeg) };
        Wire wire = Grid with { OwnersMinimum = Length.FromMeters(30), ClosestPlanned = Length.FromMeters(closestM), From = End(-0.01), To = End(0.01) };
        Assert.Equal(expected, Check(wire).Item.Verdict);
    }

    [Fact]
    public void Check_SpanAcrossTheStraightWay_IsToConfirm()
    {
        Spot End(double eastDeg) => new() { Latitude = Angle.FromDegrees(46.005), Longitude = Angle.FromDegrees(7 + eastDeg) };
        LiftRequest Job(double yardNorthDeg) => new()
        {
            Sites = [Place(Grid with { OwnersMinimum = Length.FromMeters(30), ClosestPlanned = Length.FromMeters(100), From = End(-0.01), To = End(0.01) }),
                new() { Name = "yard", Use = SiteUse.PickUp, Latitude = Angle.FromDegrees(46 + yardNorthDeg), Longitude = Angle.FromDegrees(7) }],
            Loads = [new() { Number = "1", Mass = Mass.FromKilograms(500), HowKnown = MassKnownBy.Weighed }],
        };
        Assert.Equal("wire-crosses-the-way", Assert.Single(WireChecker.Check(Job(0.01))).Item.Code);
        Assert.Equal("wire-clear", Assert.Single(WireChecker.Check(Job(-0.01))).Item.Code);
    }

    private static WireCheck Check(Wire wire, double? operatorsFt = null) =>
        Assert.Single(WireChecker.Check(new() { Sites = [Place(wire)], Policy = new() { WireClearance = operatorsFt is { } ft ? Length.FromFeet(ft) : null } }));

    private static Site Place(params Wire[] wires) =>
        new() { Name = "Ridge 3", Use = SiteUse.Delivery, Latitude = Angle.FromDegrees(46), Longitude = Angle.FromDegrees(7), Wires = wires };

}
