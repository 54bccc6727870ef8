using Stillhook.Debriefing;
using Stillhook.Physics.Rotor;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using UnitsNet;

namespace Stillhook.Tests.Planning;

/// <summary>One calibration for an aircraft, and never another aircraft's.</summary>
public sealed class HoverExpectationsTests
{
    private static readonly Aircraft Entered = Files.Pictures.Approach.ExampleApproach.Offered.Situation!.Request.Aircraft!;

    private static double CeilingKg(Aircraft aircraft) => new HoverExpectations(aircraft).Model!.HoverCeilingMassKg(1500, 288);

    [Fact]
    public void Model_SameAircraftAgain_IsTheSameAndACopyIsCalibratedToTheSameNumbers()
    {
        PowerModel first = new HoverExpectations(Entered).Model!;
        Assert.Same(first, new HoverExpectations(Entered).Model);
        Aircraft copy = Entered with { };
        Assert.NotSame(first, new HoverExpectations(copy).Model);
        // Closed form: the same chart through the same fit.
        Assert.Equal(CeilingKg(Entered), CeilingKg(copy));
    }

    // Closed form: nothing is left at the mass that the model says hovers there, and a part of the power at less; the place's own air is asked about.
    [Fact]
    public void At_TheCeilingAndBelow_TellsThePowerLeft()
    {
        HoverExpectations hover = new(Entered);
        SiteHour At(double pressureAltitudeM) => new(Jobs.Site("spot", SiteUse.Delivery, 1500, 15), 9, 15, pressureAltitudeM, 1800, 2600, 2500, GrossLimitedBy.HoverMass, "", []);
        double ceilingKg = hover.Model!.HoverCeilingMassKg(1500, 288.15);
        Assert.Equal(0, hover.At(At(1500), ceilingKg).ModelMarginPercent!.Value, 1e-6);
        HoverPower light = hover.Model.Hover(0.9 * ceilingKg, 1500, 288.15);
        Assert.Equal(100 - 100 * light.RequiredW / light.AvailableW, hover.At(At(1500), 0.9 * ceilingKg).ModelMarginPercent!.Value, 1e-9);
        Assert.True(hover.At(At(1600), ceilingKg).ModelMarginPercent < 0);
        Assert.Equal((1800, ceilingKg, true), (hover.At(At(1500), ceilingKg).DensityAltitudeM, hover.At(At(1500), ceilingKg).GrossKg, hover.At(At(1500), ceilingKg).InsideChart));
        Assert.Null(new HoverExpectations(Entered with { Rotor = null }).At(At(1500), ceilingKg).ModelMarginPercent);
    }

    [Fact]
    public void Model_RotorOrPowerTypedAnew_IsCalibratedAnew()
    {
        double before = new HoverExpectations(Entered).Model!.Hover(2500, 1500, 288).RequiredW;
        Aircraft other = Entered with { Rotor = Entered.Rotor! with { Radius = Entered.Rotor.Radius * 1.2 } };
        Assert.NotEqual(before, new HoverExpectations(other).Model!.Hover(2500, 1500, 288).RequiredW);
        Assert.Null(new HoverExpectations(Entered with { Rotor = null }).Model);
    }
}
