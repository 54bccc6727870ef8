using System.ComponentModel;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>How a load's mass is known. A blank is refused: a guess that looks like a weight is how overloads happen.</summary>
public enum MassKnownBy
{
    /// <summary>On a scale or a load cell.</summary>
    Weighed,

    /// <summary>Maker's label or delivery note.</summary>
    Label,

    /// <summary>Worked out or guessed.</summary>
    Estimated,
}

/// <summary>How a load behaves on the line.</summary>
public enum LoadShape
{
    /// <summary>Heavy for its size: steadiest.</summary>
    Dense,

    /// <summary>Light for its size: least steady.</summary>
    Bulky,

    /// <summary>Flies: unsteady until it settles into the wind.</summary>
    Aerodynamic,
}

/// <summary>Classes of external load.</summary>
public enum LoadClass
{
    /// <summary>Fixed to the aircraft.</summary>
    A,

    /// <summary>Droppable and lifted clear.</summary>
    B,

    /// <summary>Droppable and still touching ground or water: line stringing. Outside what is planned here.</summary>
    C,

    /// <summary>People or other special approval. Outside what is planned here.</summary>
    D,
}

/// <summary>One load of the list.</summary>
public sealed record PlannedLoad
{
    [Description("Number on the load, used once.")]
    public required string Number { get; init; }

    [Description("What it is.")]
    public string? Name { get; init; }

    [Description("Mass of the load alone."), Between(1, 20_000)]
    public required Mass Mass { get; init; }

    [Description("How the mass is known: weighed, label or estimated.")]
    public required MassKnownBy HowKnown { get; init; }

    [Description("How far the mass may be off, either way."), Between(0, 10_000)]
    public Mass? Uncertainty { get; init; }

    [Description("Kind of load, such as rock bag: the first of each kind is a proving lift.")]
    public string? Family { get; init; }

    [Description("How it behaves on the line.")]
    public LoadShape? Shape { get; init; }

    [Description("Class of external load; B when left out. C and D are outside what is planned here.")]
    public LoadClass? Class { get; init; }

    [Description("Drag area Cd times A."), Between(0, 200)]
    public Area? DragArea { get; init; }

    [Description("Height of the load itself."), Between(0, 50)]
    public Length? Height { get; init; }

    [Description("Spins in flight or may spin.")]
    public bool? Spins { get; init; }

    [Description("Construction work, where the operator's margin of sling capacity applies.")]
    public bool? Construction { get; init; }

    [Description("How it hangs.")]
    public Attachment? Attachment { get; init; }

    [Description("Name of the pick-up site; may be left out when there is only one.")]
    public string? PickUp { get; init; }

    [Description("Name of the delivery site; may be left out when there is only one.")]
    public string? Delivery { get; init; }

    [Description("Numbers of loads that must be delivered before this one.")]
    public IReadOnlyList<string> After { get; init; } = [];

    [Description("People needed at the delivery."), Between(0, 50)]
    public int? CrewNeeded { get; init; }

    [Description("Which way round it is set down, and anything else the receiver must know.")]
    public string? Note { get; init; }
}
