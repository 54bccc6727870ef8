using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Simulating;

namespace Stillhook.Tests.Simulating;

public class FaultTests
{
    /// <summary>Four pilots each fly a clean rotation and one with the fault, over a short leg.</summary>
    private static IEnumerable<(TruthRotation Clean, TruthRotation Faulty)> Pairs(Fault fault)
    {
        for (ulong seed = 300; seed < 304; seed++)
        {
            DayScenario drawn = ScenarioDraw.Random(seed, 2, FaultMix.Clean);
            DayScenario scenario = drawn with { LooksAtSiteFirst = false, TargetEnu = (700 / drawn.TargetEnu.Horizontal) * drawn.TargetEnu, Rotations = [drawn.Rotations[0], drawn.Rotations[1] with { Fault = fault }] };
            IReadOnlyList<TruthRotation> r = DaySimulator.Fly(scenario, seed).Rotations;
            Assert.Equal(fault, r[1].MainFault);
            yield return (r[0], r[1]);
        }
    }

    private static void Shows(Fault fault, Func<TruthRotation, TruthRotation, bool> shows, int atLeast = 3)
    {
        int shown = Pairs(fault).Count(p => shows(p.Clean, p.Faulty));
        Assert.True(shown >= atLeast, $"{fault} shows in {shown} of 4");
    }

    // Simulated truth: each injected fault is there to be measured. Thresholds: common practice, no source.
    [Fact] public void Overshoot_Shows() => Shows(Fault.Overshoot, (_, f) => f.OvershootM > 4.4);

    [Fact] public void Undershoot_Shows() => Shows(Fault.Undershoot, (_, f) => f.StopShortM > 10);

    [Fact] public void AbruptSlowdown_Shows() => Shows(Fault.AbruptSlowdown, (_, f) => f.PeakDecelMs2 > 1.7);

    [Fact] public void FastEntry_Shows() => Shows(Fault.FastEntry, (c, f) => f.EntrySpeedMs > c.EntrySpeedMs + 2.5);

    [Fact] public void HighStart_Shows() => Shows(Fault.HighStart, (c, f) => f.StartHeightM > c.StartHeightM + 15);

    [Fact] public void LowStart_Shows() => Shows(Fault.LowStart, (c, f) => f.StartHeightM < c.StartHeightM - 10);

    [Fact] public void LateralOffset_Shows() => Shows(Fault.LateralOffset, (_, f) => Math.Abs(f.LineUpErrorM!.Value) > 5);

    [Fact] public void HoverWait_Shows() => Shows(Fault.HoverWait, (_, f) => f.HoverTimeS > 30);

    [Fact] public void LateSink_Shows() => Shows(Fault.LateSink, (_, f) => f.SinkLast15Ms > 0.94);

    [Fact] public void GoAround_Shows() => Shows(Fault.GoAround, (_, f) => f.GoArounds == 1, 4);

    // Simulated truth: usual clean flying stays inside what the fault thresholds call normal, and every measure is there.
    [Fact]
    public void Clean_Rotations_AreMeasuredAndUnremarkable()
    {
        List<TruthRotation> clean = [];
        for (ulong seed = 500; seed < 506; seed++)
            clean.AddRange(DaySimulator.Fly(ScenarioDraw.Random(seed, 2, FaultMix.Clean), seed).Rotations);
        Assert.All(clean, r => Assert.True(r is { StartHeightM: not null, GlideDeg: not null, EntrySpeedMs: not null, SinkLast15Ms: not null, Swing50mM: not null }));
        Assert.All(clean, r => Assert.True(r.PickupTimeS < r.ApproachStartTimeS && r.ApproachStartTimeS < r.StopTimeS && r.StopTimeS <= r.DeliveryTimeS && r.DeliveryTimeS < r.ReleaseTimeS));
        Assert.InRange(clean.Count(r => r.OvershootM > 4.4), 0, 2);
        Assert.DoesNotContain(clean, r => r.PeakDecelMs2 > 1.7);
        Assert.InRange(clean.Select(r => r.PeakDecelMs2!.Value).Order().ElementAt(clean.Count / 2), 0.8, 1.3);
        Assert.InRange(clean.Select(r => r.SwingContactM!.Value).Order().ElementAt(clean.Count / 2), 0.4, 2);
    }

    // Closed form: a hook that follows its own velocity; the stored rates are the differences of the stored places.
    [Fact]
    public void Motion_RatesAgreeWithPlaces()
    {
        SimulatedDay day = DaySimulator.Fly(ScenarioDraw.Random(5, 2), 5);
        for (int i = 1; i < day.Motion.Count; i++)
        {
            Enu moved = day.Motion[i].Hook - day.Motion[i - 1].Hook;
            Enu mean = (SimulatedDay.StepS / 2) * (day.Motion[i].HookVelocity + day.Motion[i - 1].HookVelocity);
            Assert.True((moved - mean).Length < 0.03 * SimulatedDay.StepS * 4, $"sample {i}");
        }
    }
}
