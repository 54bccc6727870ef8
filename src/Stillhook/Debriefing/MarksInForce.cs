using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Planning;

namespace Stillhook.Debriefing;

/// <summary>Whose marks a delivery is held against.</summary>
public enum MarksOf
{
    /// <summary>Nobody's: no way in is planned and none entered is to be flown.</summary>
    Nobody,

    /// <summary>The card that was issued.</summary>
    Card,

    /// <summary>The planned approach, while no card is issued.</summary>
    Plan,

    /// <summary>Gates entered in the job, which says to fly those.</summary>
    Entered,
}

/// <summary>Whose marks, and of a card when it was issued.</summary>
/// <param name="Of">Whose.</param>
/// <param name="CardAt">When the card was issued, in the sites' own time; null without one.</param>
public readonly record struct MarksFrom(MarksOf Of, DateTimeOffset? CardAt = null)
{
    /// <summary>In words, to stand wherever marks are shown, such as 'card of 08:12'.</summary>
    public string Words => Of switch
    {
        MarksOf.Card => CardAt is { } at ? string.Create(CultureInfo.InvariantCulture, $"card of {at:HH:mm}") : "card issued",
        MarksOf.Plan => "planned approach",
        MarksOf.Entered => "gates entered in the job",
        _ => "none",
    };

    /// <summary>Before the figures of a mark: 'Card of 08:12:'.</summary>
    public string Heading => char.ToUpperInvariant(Words[0]) + Words[1..] + ":";
}

/// <summary>The one rule of whose marks stand: an issued card's; else the gates entered in the job where it says to fly those; else the planned approach's.</summary>
public static class MarksInForce
{
    /// <summary>The crew's figures with the marks in force.</summary>
    /// <param name="setup">The crew's figures of the job; its gates are those entered to be flown, or none.</param>
    /// <param name="planned">The approach as the job plans it, when there is a card as the job of that time did; null when nobody planned it.</param>
    /// <param name="cardAt">When the card was issued, in the sites' own time; null when none was.</param>
    public static LiftSetup On(LiftSetup setup, ApproachPlan? planned, DateTimeOffset? cardAt)
    {
        ArgumentNullException.ThrowIfNull(setup);
        bool entered = setup.Gates.Count > 0 && setup.Approach is null;
        if (planned is not { IsOffered: true } || (entered && cardAt is null))
            return setup with { Marks = new(entered ? MarksOf.Entered : MarksOf.Nobody) };
        return planned.Onto(setup) with { Marks = cardAt is null ? new(MarksOf.Plan) : new(MarksOf.Card, cardAt) };
    }

    /// <summary>The crew's figures of a job with the marks in force at one of its delivery sites.</summary>
    /// <param name="job">The job, of a card the job that it was issued from.</param>
    /// <param name="site">Name of the delivery site.</param>
    /// <param name="cardAt">When the card was issued, in the sites' own time; null when none was.</param>
    /// <param name="briefed">What the issued brief was made of; null without one.</param>
    /// <param name="options">How approaches are planned.</param>
    public static LiftSetup At(LiftRequest job, string site, DateTimeOffset? cardAt, BriefedOrder? briefed, ApproachOptions options)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(options);
        LiftRequest request = briefed?.InOrder(job) ?? job;
        LiftSetup all = LiftSetup.From(request);
        LiftSetup own = LiftSetup.From(request with { Sites = [.. request.Sites.Where(s => s.Use != SiteUse.Delivery || s.Name == site)] }) with { Sites = all.Sites, People = all.People };
        bool needed = request.Sites.Any(s => s.Name == site) && (cardAt is not null || own.Gates.Count == 0);
        return On(own, needed ? Planned(request, options with { Site = site, Load = briefed?.LoadAt(request, site) }) : null, cardAt);
    }

    // The same approach that a card of that job shows: for the load it was made for, else the heaviest that goes there and lifts.
    private static ApproachPlan Planned(LiftRequest request, ApproachOptions options)
    {
        LiftPlan lift = Job.Plan(request, options.Plan);
        return BriefedApproaches.Of(request, lift, options, []).FirstOrDefault()?.Plan ?? Job.Approach(request, lift, options);
    }

    /// <summary>Gates that the job says to fly; none when it only holds them.</summary>
    public static IReadOnlyList<GateGiven> ToFly(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request.FlyEnteredGates == true ? request.Gates : [];
    }
}
