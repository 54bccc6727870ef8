using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;

namespace Stillhook.Adjusting;

/// <summary>What deliveries at one site are held against.</summary>
/// <param name="Site">Name of the delivery site; null where the job names none and every delivery counts.</param>
/// <param name="CardAtS">When the card that stands was issued, s since 1970 UTC; null without one.</param>
/// <param name="Setup">The crew's figures with the marks of the approach that the card shows.</param>
public sealed record SiteCard(string? Site, double? CardAtS, LiftSetup Setup);

/// <summary>A lift as kept, with its rotation measured anew against the card's marks.</summary>
/// <param name="Lift">With people's corrections in place.</param>
/// <param name="AsKept">As first measured.</param>
/// <param name="Measured">Measured against the card's marks; null when it was not found again, or is none of this site.</param>
public sealed record KeptDelivery(KeptLift Lift, KeptLift AsKept, Rotation? Measured);

/// <summary>The next approach at one site, and what it rests on.</summary>
/// <param name="Card">Site, card and marks.</param>
/// <param name="Next">The next approach; null while no delivery counts.</param>
/// <param name="Deliveries">Deliveries that count.</param>
/// <param name="Rests">In words, such as 'from 7 deliveries since the card of 09:12'.</param>
/// <param name="LeftOut">Deliveries since the card that don't count, each with the reason.</param>
public sealed record SiteNext(SiteCard Card, NextApproach? Next, int Deliveries, string Rests, IReadOnlyList<string> LeftOut);

/// <summary>The next approach from all that is kept of a day since the card was issued: the flights of the day joined in order of time, corrections honoured.</summary>
/// <remarks>
/// Left out, and said: what somebody struck out; what was added by hand, since nothing was measured; a delivery whose time, place, line or kind was
/// corrected, since it was measured as something else; one whose corrected load belongs to another site. A corrected mass or number alone moves nothing.
/// </remarks>
public static class DayNext
{
    private const double SameMomentS = 30;

    /// <summary>The next approach at a site.</summary>
    /// <param name="card">What deliveries there are held against.</param>
    /// <param name="day">Every lift of the day.</param>
    /// <param name="job">The job, for the site of each load; null without one.</param>
    /// <param name="clock">From s since 1970 UTC to the sites' own clock.</param>
    public static SiteNext Of(SiteCard card, IReadOnlyList<KeptDelivery> day, LiftRequest? job, Func<double, DateTimeOffset> clock)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(day);
        ArgumentNullException.ThrowIfNull(clock);
        List<Rotation> counted = [];
        List<string> leftOut = [];
        foreach (KeptDelivery kept in day.Where(d => IsMeant(d, card)).OrderBy(d => At(d.Lift)))
            if (Why(kept, card, job) is { } why)
                leftOut.Add($"{(At(kept.Lift) is { } at ? Clock(at, clock) : "lift " + Number(kept.Lift.Number))}: {why}");
            else
                counted.Add(kept.Measured!);
        // A card's marks are told by the card that the deliveries are counted from.
        string against = card.Setup.Marks.Of is MarksOf.Nobody or MarksOf.Card ? "" : $", held against the {card.Setup.Marks.Words}";
        string since = card.CardAtS is { } issued ? $"since the card of {Clock(issued, clock)}" : "since the start of the day, as no card was issued";
        string rests = counted.Count switch { 0 => $"no delivery {since} counts", 1 => $"from 1 delivery {since}{against}", _ => $"from {Number(counted.Count)} deliveries {since}{against}" };
        return new(card, counted.Count == 0 ? null : Job.Next(counted, card.Setup), counted.Count, rests, leftOut);
    }

    // What was struck out or moved to another site was once of this one: it is told here too.
    private static bool IsMeant(KeptDelivery d, SiteCard card) =>
        (At(d.Lift) ?? At(d.AsKept)) is { } at && !(at < card.CardAtS) && (card.Site is not { } site || IsNamed(d.Lift.DeliverySite, site) || IsNamed(d.AsKept.DeliverySite, site));

    private static string? Why(KeptDelivery kept, SiteCard card, LiftRequest? job)
    {
        (KeptLift now, KeptLift was) = (kept.Lift, kept.AsKept);
        if (now.StruckOut)
            return "struck out.";
        if (now.AddedByHand)
            return "added by hand, nothing was measured.";
        if (card.Site is { } site && !IsNamed(now.DeliverySite, site))
            return $"corrected to another site, {now.DeliverySite ?? "none"}.";
        if (was.Family is { } kind && now.Family != kind)
            return $"its kind was corrected from {kind} to {now.Family ?? "none"}.";
        if (Moved(was.DeliveryTimeS, now.DeliveryTimeS, SameMomentS) || Moved(was.StopTimeS, now.StopTimeS, SameMomentS) || Moved(was.ApproachStartTimeS, now.ApproachStartTimeS, SameMomentS))
            return "its times were corrected, and it was measured with the old ones.";
        if (was.Delivery is { } place && now.Delivery != place)
            return "the place where it touched was corrected, and it was measured to the old one.";
        if (now.LineM is { } line && Math.Abs(line - card.Setup.Line.Value.Meters) > 0.5)
            return string.Create(CultureInfo.InvariantCulture, $"flown with {line:0.#} m of line, the card is for {card.Setup.Line.Value.Meters:0.#} m.");
        if (card.Site is { } here && now.LoadNumber != was.LoadNumber && job?.Loads.FirstOrDefault(l => l.Number == now.LoadNumber)?.Delivery is { } goes && !IsNamed(goes, here))
            return $"corrected to load {now.LoadNumber}, which goes to {goes}.";
        return kept.Measured?.Delivery is null ? "no delivery could be measured in its record." : null;
    }

    private static bool Moved(double? was, double? now, double byS) => was is { } a && (now is not { } b || Math.Abs(a - b) > byS);

    private static double? At(KeptLift lift) => lift.DeliveryTimeS ?? lift.ReleaseTimeS ?? lift.StopTimeS;

    private static bool IsNamed(string? site, string name) => string.Equals(site, name, StringComparison.OrdinalIgnoreCase);

    private static string Clock(double timeS, Func<double, DateTimeOffset> clock) => clock(timeS).ToString("HH:mm", CultureInfo.InvariantCulture);

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
