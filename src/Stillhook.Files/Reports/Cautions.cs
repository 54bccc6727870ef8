using Stillhook.Briefing;

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
    public const string Plan = CardCautions.Advice;

    /// <summary>Beside every load check.</summary>
    public const string Charts = CardCautions.Charts;

    /// <summary>Where a load's mass was not weighed.</summary>
    public const string Weights = CardCautions.Weights;

    /// <summary>Where a load is the first of its kind.</summary>
    public const string ProvingLift = CardCautions.ProvingLift;

    /// <summary>Beside every planned gate.</summary>
    public const string Gates = CardCautions.Gates;

    /// <summary>At a downwind or high site.</summary>
    public const string PlanReject = CardCautions.PlanReject;

    /// <summary>Beside the empty way back.</summary>
    public const string EmptyLine = CardCautions.EmptyLine;

    /// <summary>Beside what is read between two loads.</summary>
    public const string BetweenLoads = "Read now or on the ground. Empty leg, above the height the operator set, hands free.";

    /// <summary>On every quote.</summary>
    public const string Quote = "Estimate. Safety stops are not chargeable pressure.";
}
