namespace Stillhook.Planning.Rechecking;

/// <summary>How much a change matters.</summary>
public enum ChangeKind
{
    /// <summary>Something no longer holds: land and re-brief, leave a load.</summary>
    Stop,

    /// <summary>Something must be done: reset the altimeter, refuel elsewhere in the order.</summary>
    Do,

    /// <summary>Worth knowing.</summary>
    Know,
}

/// <summary>One thing that changed.</summary>
/// <param name="Kind">How much it matters.</param>
/// <param name="Text">One sentence with its figures.</param>
public sealed record Change(ChangeKind Kind, string Text);

/// <summary>A load whose allowed mass moved.</summary>
/// <param name="Number">The load.</param>
/// <param name="NeedKg">Mass to plan for, kg.</param>
/// <param name="BeforeKg">Allowed before, kg; null when it had no place.</param>
/// <param name="AfterKg">Allowed now, kg; null when it has no place.</param>
/// <param name="PositionBefore">Place in the order before.</param>
/// <param name="PositionAfter">Place in the order now.</param>
public sealed record LoadChange(string Number, double NeedKg, double? BeforeKg, double? AfterKg, int? PositionBefore, int? PositionAfter);

/// <summary>What moved between the plan and what was read since: one screen.</summary>
/// <param name="Before">The plan as made.</param>
/// <param name="After">The plan for what was read.</param>
/// <param name="Changes">What changed, what stops first.</param>
/// <param name="Loads">Loads that are still to fly, with what moved.</param>
/// <param name="Gates">The gates reprinted, for every delivery site.</param>
/// <param name="QnhHPa">Setting that the gates are for, hPa.</param>
public sealed record Recheck(LiftPlan Before, LiftPlan After, IReadOnlyList<Change> Changes, IReadOnlyList<LoadChange> Loads, IReadOnlyList<GateReading> Gates, double QnhHPa);
