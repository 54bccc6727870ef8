namespace Stillhook.Planning.Ordering;

/// <summary>What is decided: start fuel, the loads in order, and what is done at base before each.</summary>
/// <param name="StartFuelKg">Fuel on board at the start, kg.</param>
/// <param name="Lifts">The loads in the order flown.</param>
public sealed record OrderSequence(double StartFuelKg, IReadOnlyList<LiftDecision> Lifts)
{
    /// <summary>No load is flown.</summary>
    public static OrderSequence Empty { get; } = new(0, []);
}

/// <summary>One load in its place.</summary>
/// <param name="Load">Place of the load in the problem's list.</param>
/// <param name="UpliftBeforeKg">Fuel taken on at base before it, kg; 0: none.</param>
/// <param name="BreakBefore">Whether a break is taken at base before it.</param>
public readonly record struct LiftDecision(int Load, double UpliftBeforeKg = 0, bool BreakBefore = false);
