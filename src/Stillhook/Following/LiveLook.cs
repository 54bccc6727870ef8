using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Following;

/// <summary>The next approach at one site while the flight goes on.</summary>
/// <param name="Card">Site, card and marks.</param>
/// <param name="Next">The next approach; null while no delivery counts.</param>
/// <param name="Deliveries">Deliveries there that count.</param>
/// <param name="Settled">Whether every one of them is settled.</param>
public sealed record LiveNext(SiteCard Card, NextApproach? Next, int Deliveries, bool Settled);

/// <summary>Measures the newest part of a flight against the cards, and says what to change.</summary>
public static class LiveLook
{
    /// <summary>A delivery further than this from a site is none of the site's, m.</summary>
    private const double AtSiteM = 150;

    /// <summary>The debrief of a part of a flight, each delivery measured against the card of the site that it was made at.</summary>
    /// <param name="part">The newest part of the flight.</param>
    /// <param name="setup">The crew's figures, for deliveries at no site of a card.</param>
    /// <param name="cards">One a delivery site.</param>
    /// <param name="cancellation">Ends the work early with an exception.</param>
    public static Debrief Of(FlightRecord part, LiftSetup setup, IReadOnlyList<SiteCard> cards, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(cards);
        LiftSetup first = cards.Count > 0 ? cards[0].Setup : setup;
        Debrief debrief = Debriefer.Debrief(part, first, cancellation: cancellation);
        if (cards.Count < 2 || debrief.Track is not { } track)
            return debrief;
        Dictionary<SiteCard, Debrief> measured = cards.Skip(1).ToDictionary(c => c, c => Debriefer.FromTrack(part, track, debrief.Quality, c.Setup, cancellation: cancellation));
        measured[cards[0]] = debrief;
        return debrief with { Rotations = [.. debrief.Rotations.Select(r => At(r, track.Frame, cards) is { } card ? Same(measured[card], r) : r)] };
    }

    /// <summary>The next approach at each card's site, from the deliveries there since the card was issued.</summary>
    public static IReadOnlyList<LiveNext> Next(LiveDeliveries deliveries, IReadOnlyList<SiteCard> cards)
    {
        ArgumentNullException.ThrowIfNull(deliveries);
        ArgumentNullException.ThrowIfNull(cards);
        List<LiveNext> all = [];
        foreach (SiteCard card in cards)
        {
            LiveDelivery[] here = [.. deliveries.All.Where(d => !d.Withdrawn && !(d.Rotation.DeliveryTimeS < card.CardAtS) && (card.Site is null || At(d.Rotation, d.Frame, cards) == card))];
            all.Add(new(card, here.Length == 0 ? null : Job.Next([.. here.Select(d => d.Rotation with { Number = d.Number })], card.Setup), here.Length, here.All(d => d.Settled)));
        }
        return all;
    }

    /// <summary>The card of the site that a delivery was made at; null when it was at none.</summary>
    public static SiteCard? At(Rotation rotation, LocalFrame frame, IReadOnlyList<SiteCard> cards)
    {
        ArgumentNullException.ThrowIfNull(rotation);
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(cards);
        if (rotation.DeliveryEnu is not { } place)
            return null;
        return cards.Select(c => (Card: c, M: c.Setup.Sites.Where(s => s.Use == SiteUse.Delivery && s.Name == c.Site)
                .Select(s => (frame.ToEnu(s.LatitudeDeg, s.LongitudeDeg, frame.HeightM) - place).Horizontal).DefaultIfEmpty(double.PositiveInfinity).Min()))
            .Where(c => c.M <= AtSiteM).OrderBy(c => c.M).Select(c => c.Card).FirstOrDefault();
    }

    private static Rotation Same(Debrief debrief, Rotation rotation) =>
        debrief.Rotations.FirstOrDefault(r => r.DeliveryTimeS == rotation.DeliveryTimeS) ?? rotation;
}
