using Stillhook.Physics.Rotor;
using Stillhook.Planning;
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

    [Fact]
    public void Model_RotorOrPowerTypedAnew_IsCalibratedAnew()
    {
        double before = new HoverExpectations(Entered).Model!.Hover(2500, 1500, 288).RequiredW;
        Aircraft other = Entered with { Rotor = Entered.Rotor! with { Radius = Entered.Rotor.Radius * 1.2 } };
        Assert.NotEqual(before, new HoverExpectations(other).Model!.Hover(2500, 1500, 288).RequiredW);
        Assert.Null(new HoverExpectations(Entered with { Rotor = null }).Model);
    }
}
