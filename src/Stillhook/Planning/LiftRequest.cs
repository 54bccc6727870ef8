using System.ComponentModel;
using Stillhook.Debriefing;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>The job as the crew enters it: what is to be lifted, with what, where, by whom and under whose rules.</summary>
/// <remarks>
/// This is the shape of the job file too. A member that is null was not given; nothing is filled in silently: the planner names each default
/// it had to take. <see cref="DescriptionAttribute"/> and <see cref="BetweenAttribute"/> are what the published schema says of a member.
/// </remarks>
public sealed record LiftRequest
{
    /// <summary>The same job held to an order of its loads; unchanged without an order.</summary>
    /// <param name="numbers">Numbers of the loads.</param>
    public LiftRequest InOrder(IReadOnlyList<string> numbers)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        return numbers.Count > 0 ? this with { Day = (Day ?? new()) with { Order = numbers } } : this;
    }

    [Description("Name of the job.")]
    public string? Job { get; init; }

    [Description("Day of the work, such as 2026-06-01.")]
    public DateOnly? Date { get; init; }

    [Description("Time zone of the sites by its IANA name, such as Europe/Zurich. Clock times in this file are in it.")]
    public string? TimeZone { get; init; }

    [Description("Units that plans are shown in unless asked otherwise: ft (ft, kt, kg, hPa), m (m, km/h, kg, hPa) or lb (ft, kt, lb, inHg).")]
    public ShownUnits? Units { get; init; }

    [Description("Who the work is for.")]
    public string? Customer { get; init; }

    [Description("Who typed this file in.")]
    public string? EnteredBy { get; init; }

    [Description("When it was typed in.")]
    public DateTimeOffset? EnteredAt { get; init; }

    [Description("Who must be reached before and during the work: owners, police, air traffic, grid.")]
    public IReadOnlyList<Contact> Contacts { get; init; } = [];

    [Description("The aircraft with its weighed mass, limits, charts and burn.")]
    public Aircraft? Aircraft { get; init; }

    [Description("Everybody on the job, with what the papers say of them.")]
    public IReadOnlyList<CrewMember> Crew { get; init; } = [];

    [Description("Pick-up, delivery and base sites with their weather, obstacles and people.")]
    public IReadOnlyList<Site> Sites { get; init; } = [];

    [Description("The long line.")]
    public LongLine? Line { get; init; }

    [Description("Every part between the cargo hook and the loads' own slings, in order from the hook down.")]
    public IReadOnlyList<RiggingPart> Rigging { get; init; } = [];

    [Description("The load list.")]
    public IReadOnlyList<PlannedLoad> Loads { get; init; } = [];

    [Description("How the day is to run: start, fuel, refuelling.")]
    public DayPlan? Day { get; init; }

    [Description("The operator's own rules. Whatever is left out takes a stated default.")]
    public OperatorPolicy? Policy { get; init; }

    [Description("How approaches are flown: what pins the path, and limits on it.")]
    public ApproachGiven? Approach { get; init; }

    [Description("What a rotation takes and what the work costs.")]
    public QuoteBasis? Quote { get; init; }

    [Description("One load for a debrief, when there is no load list.")]
    public SingleLoad? Load { get; init; }

    [Description("Wind for a debrief.")]
    public WindGiven? Wind { get; init; }

    [Description("Gates of an approach that somebody worked out elsewhere. Used only where the job says to fly them.")]
    public IReadOnlyList<GateGiven> Gates { get; init; } = [];

    [Description("The gates entered are the ones to be flown: deliveries are held against them while no card is issued. Else against the planned approach.")]
    public bool? FlyEnteredGates { get; init; }

    /// <summary>The site of a name, or the first of a use where a load names none; null when there is none.</summary>
    internal Site? SiteOf(string? name, SiteUse use) =>
        name is null ? Sites.FirstOrDefault(s => s.Use == use) : Sites.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.OrdinalIgnoreCase));
}

/// <summary>Somebody to be reached.</summary>
public sealed record Contact
{
    [Description("Name or office.")]
    public required string Name { get; init; }

    [Description("What for, such as closes the road or grid control.")]
    public string? For { get; init; }

    [Description("Telephone number or radio frequency.")]
    public required string Reach { get; init; }
}

/// <summary>The units a crew reads.</summary>
public enum ShownUnits
{
    /// <summary>ft, kt, kg, hPa.</summary>
    Ft,

    /// <summary>m, km/h, kg, hPa.</summary>
    M,

    /// <summary>ft, kt, lb, inHg.</summary>
    Lb,
}

/// <summary>Wind as observed or forecast.</summary>
public sealed record WindGiven
{
    [Description("True direction it blows from."), Between(0, 360)]
    public required Angle From { get; init; }

    [Description("Mean speed."), Between(0, 100)]
    public required Speed Speed { get; init; }

    [Description("Gust speed."), Between(0, 150)]
    public Speed? Gust { get; init; }
}

/// <summary>The load of a debrief without a load list.</summary>
public sealed record SingleLoad
{
    [Description("What it is.")]
    public string? Name { get; init; }

    [Description("Mass with its slings."), Between(0, 20_000)]
    public Mass? Mass { get; init; }

    [Description("Height of the load itself."), Between(0, 50)]
    public Length? Height { get; init; }

    [Description("Drag area Cd times A."), Between(0, 200)]
    public Area? DragArea { get; init; }
}

/// <summary>A planned gate of an approach.</summary>
public sealed record GateGiven
{
    [Description("Distance to go."), Between(0, 20_000)]
    public required Length Distance { get; init; }

    [Description("Height of the hook above the target."), Between(0, 3000)]
    public required Length HeightAboveTarget { get; init; }

    [Description("Ground speed there."), Between(0, 150)]
    public required Speed GroundSpeed { get; init; }

    [Description("Sink there, down positive."), Between(-10, 20)]
    public required Speed Sink { get; init; }
}
