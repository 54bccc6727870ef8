using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>What is handed out before the work: who reads which figures, card by card.</summary>
public sealed record Brief
{
    /// <summary>The job.</summary>
    public required LiftRequest Request { get; init; }

    /// <summary>When and by whom it was issued.</summary>
    public required BriefIssue Issue { get; init; }

    /// <summary>For the cockpit: one for each approach planned or asked for.</summary>
    public required IReadOnlyList<CockpitCard> Cockpit { get; init; }

    /// <summary>For whoever hooks on: one for each pick-up.</summary>
    public required IReadOnlyList<LoadMasterSheet> LoadMasters { get; init; }

    /// <summary>For whoever receives: one for each delivery site.</summary>
    public required IReadOnlyList<ReceiverSheet> Receivers { get; init; }

    /// <summary>For everybody.</summary>
    public required CrewBrief Crew { get; init; }

    /// <summary>True when every approach of the brief can be flown.</summary>
    public bool AllFlyable => Cockpit.Count > 0 && Cockpit.All(c => c.Blocked is null);
}
