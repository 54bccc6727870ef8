using System.ComponentModel;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>The long line.</summary>
public sealed record LongLine
{
    [Description("Length of the line alone."), Between(3, 150)]
    public Length? Length { get; init; }

    [Description("Length of what hangs between line and load: remote hook, swivel, slings."), Between(0, 50)]
    public Length? Rigging { get; init; }

    [Description("Drag area of line and remote hook together."), Between(0, 10)]
    public Area? DragArea { get; init; }
}

/// <summary>Kinds of part between hook and load.</summary>
public enum PartKind
{
    /// <summary>Cargo hook on the aircraft.</summary>
    CargoHook,

    /// <summary>Ring that lies in a hook.</summary>
    Ring,

    /// <summary>Shackle.</summary>
    Shackle,

    /// <summary>The long line.</summary>
    Line,

    /// <summary>Hook at the end of the line.</summary>
    RemoteHook,

    /// <summary>Swivel.</summary>
    Swivel,

    /// <summary>Sling of wire rope.</summary>
    WireRopeSling,

    /// <summary>Sling of chain.</summary>
    ChainSling,

    /// <summary>Sling of textile.</summary>
    TextileSling,

    /// <summary>Net.</summary>
    Net,

    /// <summary>Bucket.</summary>
    Bucket,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>One part between the cargo hook and the load.</summary>
public sealed record RiggingPart
{
    [Description("Name or number on the tag.")]
    public required string Name { get; init; }

    [Description("Kind of part.")]
    public required PartKind Kind { get; init; }

    [Description("Rated load marked on the part: one straight leg. Leave out when there is no mark; the part then fails."), Between(10, 100_000)]
    public Mass? RatedLoad { get; init; }

    [Description("Smallest breaking strength from its certificate."), Between(10, 1_000_000)]
    public Mass? BreakingStrength { get; init; }

    [Description("Mass of the part; counted as part of what hangs on the hook."), Between(0, 2000)]
    public Mass? Mass { get; init; }

    [Description("Day of the last inspection.")]
    public DateOnly? Inspected { get; init; }

    [Description("Last day it may be used before the next inspection.")]
    public DateOnly? InspectionDue { get; init; }

    [Description("For a ring: somebody checked by hand that it fits the hook above it and can't ride over the beam or keeper.")]
    public bool? FitsHookAbove { get; init; }
}

/// <summary>How a load hangs under the rigging.</summary>
public sealed record Attachment
{
    [Description("Number of legs."), Between(1, 8)]
    public required int Legs { get; init; }

    [Description("Angle of a leg to the horizontal."), Between(1, 90)]
    public Angle? LegAngle { get; init; }

    [Description("Legs share the load by a device that evens it out; otherwise two legs are counted of three or more.")]
    public bool? Equalised { get; init; }

    [Description("Distance between the two attachment points of a two-leg sling."), Between(0.1, 50)]
    public Length? Span { get; init; }

    [Description("How far the load's centre of gravity is off the middle of the span."), Between(0, 25)]
    public Length? CentreOfGravityOffset { get; init; }

    [Description("The sling: its kind, mark and inspection. Rated load is that of one leg.")]
    public RiggingPart? Sling { get; init; }
}
