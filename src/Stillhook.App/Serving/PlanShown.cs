using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;

namespace Stillhook.App.Serving;

/// <summary>A lift plan as it is put before a person.</summary>
/// <param name="Job">The job.</param>
/// <param name="Plan">Its plan.</param>
/// <param name="Units">Units of the person.</param>
/// <param name="Token">Token of the forms.</param>
public sealed record PlanShown(OpenJob Job, LiftPlan Plan, DisplayUnits Units, string Token)
{
    /// <summary>An order that the person tries instead; null shows the planned one.</summary>
    public TriedOrder? Tried { get; init; }

    /// <summary>Numbers of the loads in the order shown.</summary>
    public IReadOnlyList<string> Order => Tried is { } tried ? [.. tried.Loads.Select(l => l.Number)] : [.. Plan.Order?.Lifts.Select(l => l.Number) ?? []];

    /// <summary>True when the order tried is another than the planned one.</summary>
    public bool IsMoved => Tried is not null && !Order.SequenceEqual(Plan.Order?.Lifts.Select(l => l.Number) ?? []);
}
