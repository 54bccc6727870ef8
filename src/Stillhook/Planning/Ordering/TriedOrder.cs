namespace Stillhook.Planning.Ordering;

/// <summary>One load of an order that a person tries.</summary>
/// <param name="Number">The load's number.</param>
/// <param name="Place">Its place in the order tried, from 1.</param>
/// <param name="Lift">Fuel and times as it would be flown; null when it can't be flown in this place.</param>
/// <param name="Breaks">What breaks here, in one sentence; empty when it holds.</param>
public sealed record TriedLoad(string Number, int Place, LiftStep? Lift, string Breaks)
{
    /// <summary>Nothing breaks here.</summary>
    public bool Holds => Breaks.Length == 0;
}

/// <summary>What an order of a person's own comes to: refuelling and breaks are chosen for it, and nothing is flown past a limit.</summary>
/// <param name="Loads">Every load in the order tried.</param>
/// <param name="Sequence">The loads that can be flown, with what is done at base before each.</param>
/// <param name="Timeline">What happens when; loads that can't be flown in their place are not in it.</param>
public sealed record TriedOrder(IReadOnlyList<TriedLoad> Loads, OrderSequence Sequence, OrderTimeline Timeline)
{
    /// <summary>The first load where something breaks; null when the whole order holds.</summary>
    public TriedLoad? FirstBroken => Loads.FirstOrDefault(l => !l.Holds);

    /// <summary>Every load is flown and no rule is broken.</summary>
    public bool Holds => FirstBroken is null;
}
