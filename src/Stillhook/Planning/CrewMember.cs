using System.ComponentModel;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>What a person does on the job.</summary>
public enum CrewRole
{
    /// <summary>Flies the aircraft and has the last word on every lift.</summary>
    Pilot,

    /// <summary>Weighs, rigs and hooks on at the pick-up.</summary>
    LoadMaster,

    /// <summary>Talks the pilot down at the delivery.</summary>
    Signaller,

    /// <summary>Hooks on or off.</summary>
    HookUp,

    /// <summary>Fuel.</summary>
    Refueller,
}

/// <summary>One person on the job with what the papers say. Only what is entered can be checked.</summary>
public sealed record CrewMember
{
    [Description("Name.")]
    public required string Name { get; init; }

    [Description("Role on this job.")]
    public required CrewRole Role { get; init; }

    [Description("Mass with clothing and kit; counted when aboard."), Between(30, 200)]
    public Mass? Mass { get; init; }

    [Description("Flies along during the lifts.")]
    public bool? Aboard { get; init; }

    [Description("Last valid day of the licence.")]
    public DateOnly? LicenceUntil { get; init; }

    [Description("Last valid day of the medical.")]
    public DateOnly? MedicalUntil { get; init; }

    [Description("Highest external-load training level held, 1 short line, 2 long line, 3 specialised, 4 advanced."), Between(1, 4)]
    public int? SlingLevel { get; init; }

    [Description("Day of the last recurrent sling-load training or check.")]
    public DateOnly? LastSlingCheck { get; init; }

    [Description("Sling-load hours flown in the last 12 months."), Between(0, 2000 * 3600)]
    public Duration? SlingTimeLastYear { get; init; }

    [Description("Hours in this kind of terrain: mountain, sea and so on."), Between(0, 50_000 * 3600)]
    public Duration? TimeInThisTerrain { get; init; }

    [Description("Ground crew: last day of the task training.")]
    public DateOnly? TaskTrainingUntil { get; init; }

    /// <summary>Whether this person is aboard during the lifts: pilots unless it says otherwise, others when it says so.</summary>
    public bool FliesAlong() => Aboard ?? Role == CrewRole.Pilot;
}
