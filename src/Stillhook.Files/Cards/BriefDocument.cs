using System.ComponentModel;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Files.Cards;

/// <summary>A brief for machines. Keys carry their unit; null means not given, not judged or not offered. Courses and bearings are true.</summary>
public sealed record BriefDocument(
    [property: Description("Always stillhook-brief.")] string Schema,
    [property: Description("Rises when a key changes its meaning or goes away.")] int Version,
    string? Job,
    DateOnly? Date,
    [property: Description("Moment of issue.")] DateTimeOffset IssuedAt,
    string? IssuedBy,
    [property: Description("Units of the facts in 'lines' and 'changes': ft, m or lb.")] string Units,
    [property: Description("To be shown wherever a figure of this brief is shown.")] IReadOnlyList<string> Cautions,
    [property: Description("Names of the cards' files, without their ending.")] IReadOnlyList<string> Cards,
    [property: Description("One for each approach.")] IReadOnlyList<CockpitDocument> Cockpit,
    [property: Description("One for each pick-up.")] IReadOnlyList<LoadMasterDocument> LoadMasters,
    [property: Description("One for each delivery site.")] IReadOnlyList<ReceiverDocument> Receivers,
    [property: Description("Every fact of the brief, to hold a later one against.")] IReadOnlyList<BriefLineDocument> Lines,
    [property: Description("Moment of the brief that 'changes' are held against.")] DateTimeOffset? Since,
    [property: Description("What changed since; null when nothing was held against it.")] IReadOnlyList<BriefChangeDocument>? Changes);

/// <summary>A cockpit card.</summary>
public sealed record CockpitDocument(
    string Site, string Load,
    [property: Description("planned, or askedFor for a further wind.")] string Reason,
    [property: Description("Why there are no marks; null when there are.")] string? Blocked,
    IReadOnlyList<string> Remedies,
    double? QnhHPa, double? WindFromDeg, double? WindKt, double? CourseDeg,
    [property: Description("Altimeter with the load touching.")] double? OverTheSpotFt,
    [property: Description("Down to the first gate.")] IReadOnlyList<CockpitMarkDocument> Marks,
    CockpitMarkDocument? PowerIn,
    [property: Description("Sink at the power-in gate over which the answer is a reject.")] double? LargestSinkFtPerMin,
    CockpitMarkDocument? Reject,
    [property: Description("Turn of the way out, right positive.")] double? RejectTurnDeg,
    [property: Description("One swing there and back, hook held still.")] double? SwingPeriodS,
    double? PowerLeftPercent);

/// <summary>A mark.</summary>
public sealed record CockpitMarkDocument(string Label, string? Name, string? Landmark, double DistanceM, double AltimeterFt, double GroundSpeedKt, double? AirSpeedKt, double SinkFtPerMin);

/// <summary>A load master's sheet.</summary>
public sealed record LoadMasterDocument(string PickUp, IReadOnlyList<LoadRowDocument> Loads, IReadOnlyList<string> NotFlown);

/// <summary>A load of the sheet.</summary>
public sealed record LoadRowDocument(int Position, string Number, string? Name, double MassKg, string HowKnown, double PlanForKg, double MostKg, string LimitedBy, string HookOn, bool ProvingLift, string Delivery);

/// <summary>A receiver's sheet.</summary>
public sealed record ReceiverDocument(string Site, [property: Description("From the spot, until the load has touched.")] double? StandOffM, double? EscapeSideDeg, [property: Description("Numbers of the loads in their order.")] IReadOnlyList<string> Order);

/// <summary>A fact.</summary>
public sealed record BriefLineDocument(string Topic, string Name, string Value);

/// <summary>A fact that changed.</summary>
public sealed record BriefChangeDocument(string Topic, string Name, [property: Description("Null when it is new.")] string? Was, [property: Description("Null when it is gone.")] string? Now);
