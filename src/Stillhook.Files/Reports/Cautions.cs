namespace Stillhook.Files.Reports;

/// <summary>What is said wherever a figure could be acted on.</summary>
public static class Cautions
{
    /// <summary>On every debrief.</summary>
    public const string Debrief =
        "Advice only, worked from a recorder that may be wrong. Flight manual, operations manual, local rules and the pilot decide. Read on the ground or on the empty leg, never on the approach.";

    /// <summary>On everything made from the demo day.</summary>
    public const string Invented = "Invented scenario: place, aircraft, loads and people do not exist. Not for flight.";
}
