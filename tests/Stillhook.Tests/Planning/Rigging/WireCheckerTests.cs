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
        Assert.Equal(CheckVerdict.Passes, check.Item.Verdict);
        Assert.Equal("wire.ridge-3.132-kv-line", check.Needed.Key);
    }

    // Published: 18.417 ft; a path inside it fails, and one inside the operator's larger figure too.
    [Theory]
    [InlineData(18.4, null, CheckVerdict.Fails)]
    [InlineData(18.5, null, CheckVerdict.Passes)]
    [InlineData(18.5, 20.0, CheckVerdict.Fails)]
    public void Check_PathInside_Fails(double closestFt, double? operatorsFt, CheckVerdict expected) =>
        Assert.Equal(expected, Check(Grid with { ClosestPlanned = Length.FromFeet(closestFt) }, operatorsFt).Item.Verdict);

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
        Assert.Equal(CheckVerdict.Passes, check.Item.Verdict);
    }

    [Fact]
    public void Check_TwoWiresOfOneName_HaveTheirOwnKeys()
    {
        IReadOnlyList<WireCheck> checks = WireChecker.Check([Place(Grid, Grid)], null);
        Assert.Equal(["wire.ridge-3.132-kv-line", "wire.ridge-3.132-kv-line-2"], checks.Select(c => c.Needed.Key));
    }

    private static WireCheck Check(Wire wire, double? operatorsFt = null) =>
        Assert.Single(WireChecker.Check([Place(wire)], new() { WireClearance = operatorsFt is { } ft ? Length.FromFeet(ft) : null }));

    private static Site Place(params Wire[] wires) =>
        new() { Name = "Ridge 3", Use = SiteUse.Delivery, Latitude = Angle.FromDegrees(46), Longitude = Angle.FromDegrees(7), Wires = wires };

}
