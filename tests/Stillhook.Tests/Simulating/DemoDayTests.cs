using Stillhook.Debriefing;
using Stillhook.Simulating;

namespace Stillhook.Tests.Simulating;

public class DemoDayTests
{
    private static readonly SimulatedDay Day = DemoDay.Fly();

    // Simulated truth: what the demonstration promises is in its truth, not only in its plan.
    [Fact]
    public void Fly_DemoDay_HasWhatItPromises()
    {
        SimulatedDay day = Day;
        IReadOnlyList<TruthRotation> r = day.Rotations;
        Assert.Equal(24, r.Count);
        Assert.Contains("invented", day.Scenario.Name);
        double usualHeight = Median(r, x => x.StartHeightM!.Value), usualSpeed = Median(r, x => x.EntrySpeedMs!.Value);
        Assert.True(r[0].StartHeightM > usualHeight + 20, "the first approach starts high");
        Assert.True(r[1].EntrySpeedMs > usualSpeed + 4, "the second comes in fast");
        Assert.True(r[3].OvershootM > 6 && r[3].SwingMaxM > 5, "the fourth goes past the target with a swing");
        Assert.Equal(1, r.Sum(x => x.GoArounds));
        Assert.Equal(1, r[5].GoArounds);
        Assert.All(r.Skip(18), x => Assert.Equal(Fault.None, x.MainFault));
        Assert.True(r.Skip(18).Average(x => x.OvershootM!.Value) < 0.5 * r.Take(8).Average(x => x.OvershootM!.Value), "the day gets better");
    }

    private static double Median(IReadOnlyList<TruthRotation> r, Func<TruthRotation, double> of) => r.Select(of).Order().ElementAt(r.Count / 2);

    // Simulated truth: on the ground at the fuel place for minutes, in the middle of the day; over the target without a load before the first lift.
    [Fact]
    public void Fly_DemoDay_LandsForFuelAndLooksFirst()
    {
        SimulatedDay day = Day;
        int grounded = 0, looked = 0;
        for (int i = 0; i < day.Motion.Count; i++)
        {
            MotionSample m = day.Motion[i];
            double time = day.TimeS(i);
            if (m.Hook.Up < 1.5 && time > day.Rotations[13].ReleaseTimeS && time < day.Rotations[14].PickupTimeS)
                grounded++;
            if (!m.Hooked && time < day.Rotations[0].PickupTimeS && (m.Hook - day.Scenario.TargetEnu).Horizontal < 15)
                looked++;
        }
        Assert.True(grounded * SimulatedDay.StepS > 120);
        Assert.True(looked * SimulatedDay.StepS > 8);
    }
}
