using System.ComponentModel;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>The operator's limit on a part, or on the aircraft, that counts lifts or hours.</summary>
public sealed record PartRule
{
    [Description("Part or aircraft it is for, by the name its counts are kept under; leave out for every part of a kind.")]
    public string? Name { get; init; }

    [Description("Kind of part it is for, where no name is given.")]
    public PartKind? Kind { get; init; }

    [Description("Lifts at which maintenance must look."), Between(1, 10_000_000)]
    public int? Lifts { get; init; }

    [Description("Hours in use at which maintenance must look."), Between(0.1, 1_000_000)]
    public double? Hours { get; init; }

    [Description("Lifts per hour flown above which maintenance must know."), Between(0.1, 1000)]
    public double? LiftsPerHour { get; init; }

    [Description("Where the rule stands, such as a page of the maintenance manual.")]
    public string? Source { get; init; }
}
