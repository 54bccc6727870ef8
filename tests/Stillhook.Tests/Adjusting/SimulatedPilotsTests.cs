using Stillhook.Adjusting;

namespace Stillhook.Tests.Adjusting;

/// <summary>Simulated truth in every test: see <see cref="SimulatedPilots"/>. The whole table stands in docs/method/adjusting.md.</summary>
public class SimulatedPilotsTests(ITestOutputHelper output)
{
    private static readonly AdjustLimits Open = new() { HoldPlan = false };
    private static readonly AdjustLimits Held = new() { LowestStartHeightM = 60, SteepestPathDeg = 16, SinkGateMs = 6.5, ProvenSpeedMs = 31 };
    private static readonly AdjustSettings Settings = new() { Plan = SimulatedPilots.Targets, AdviceWasSpoken = true };
    private static readonly SimulatedPilots.World Usual = new(Rotations: 9);

    // The goal: 75 % in tolerance after 8 rotations; a pilot left alone and one knob for each fault stay far below it.
    [Theory]
    [InlineData(1, 0.12, 0.90)]
    [InlineData(2, 0.20, 0.75)]
    public void TwoThousandPilots_AfterEightRotations_InTolerance(double offsets, double habits, double atLeast)
    {
        SimulatedPilots.World world = Usual with { OffsetTimes = offsets, HabitSpread = habits };
        double alone = Share("no change", world, SimulatedPilots.NoChange);
        double each = Share("each knob alone, half", world, SimulatedPilots.EachKnobAlone(0.5));
        double full = Share("each knob alone, whole", world, SimulatedPilots.EachKnobAlone(1));
        Share("continuous, four knobs at once", world, SimulatedPilots.ContinuousOffset());
        double ours = Share("whole trade steps, at most two", world, SimulatedPilots.Ours(Open, Settings));
        Assert.True(ours >= atLeast, $"{ours:P0}");
        Assert.True(ours > alone + 0.5 && ours > each + 0.5 && ours > full + 0.5);
    }

    [Fact]
    public void TwiceTheScatter_SevenInTen() =>
        Assert.True(Share("noise x2", Usual with { Noise = 2 }, SimulatedPilots.Ours(Open, Settings), 1000) >= 0.70);

    [Fact]
    public void ShiftAtRotationEight_SevenLater_SevenInTen() =>
        Assert.True(Share("shift 8 m and 5 m", new(ShiftM: 8, HeightShiftM: 5), SimulatedPilots.Ours(Open, Settings), 1000) >= 0.70);

    // The start mark never later, power never lower, the rest inside entered limits.
    [Fact]
    public void HeldToLimits_SevenAndAHalfInTen() =>
        Assert.True(Share("held to limits", Usual, SimulatedPilots.Ours(Held, Settings), 1000) >= 0.75);

    private double Share(string name, SimulatedPilots.World world, Func<SimulatedPilots.Rule> rule, int pilots = 2000)
    {
        SimulatedPilots.Result r = SimulatedPilots.Fly(pilots, world, rule);
        output.WriteLine(FormattableString.Invariant($"{name}: after 3 {r.InTolerance[3]:P0}, last {r.InTolerance[^1]:P0}; after 2: {r.P50AfterTwo:0.0} / {r.P90AfterTwo:0.0} tolerances; scatter {r.StopScatter:0.00} m"));
        return r.InTolerance[^1];
    }
}
