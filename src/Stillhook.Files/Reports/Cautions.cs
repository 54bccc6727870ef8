namespace Stillhook.Files.Reports;

/// <summary>What is said wherever a figure could be acted on.</summary>
public static class Cautions
{
    /// <summary>On every debrief.</summary>
    public const string Debrief =
        "Advice only, worked from a recorder that may be wrong. Flight manual, operations manual, local rules and the pilot decide. Read on the ground or on the empty leg, never on the approach.";

    /// <summary>On everything made from the demo day.</summary>
    public const string Invented = "Invented scenario: place, aircraft, loads and people do not exist. Not for flight.";

    /// <summary>At the top of every lift plan.</summary>
    public const string Plan = "Advice only. Flight manual, operations manual, local rules and the pilot decide.";

    /// <summary>Beside every load check.</summary>
    public const string Charts = "Uses the chart pages you typed in; not checked by us.";

    /// <summary>Where a load's mass was not weighed.</summary>
    public const string Weights = "Weights not weighed are guesses: keep the spare.";

    /// <summary>Where a load is the first of its kind.</summary>
    public const string ProvingLift = "Unproven. Build speed slowly, watch line and mirror.";

    /// <summary>Beside every planned gate.</summary>
    public const string Gates = "Gates are for this QNH and this wind. Reset or reprint if either moves.";

    /// <summary>At a downwind or high site.</summary>
    public const string PlanReject = "Expect more power and a faster sink. Plan a reject.";

    /// <summary>Beside the empty way back.</summary>
    public const string EmptyLine = "Bare line can fly up. Use the empty-line speed. Confirm line clear of skids before moving off.";

    /// <summary>On every quote.</summary>
    public const string Quote = "Estimate. Safety stops are not chargeable pressure.";
}
