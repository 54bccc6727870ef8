using Stillhook.Approaching;
using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>What the marks of a brief rest on beside the job.</summary>
/// <param name="Numbers">Numbers of the loads in the order flown.</param>
/// <param name="Loads">By delivery site the load that its card was worked for, in the card's words.</param>
public sealed record BriefedOrder(IReadOnlyList<string> Numbers, IReadOnlyDictionary<string, string> Loads)
{
    /// <summary>The job with its loads in that order, which decides fuel and hour of each and with them the marks on the cards.</summary>
    public LiftRequest InOrder(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request.InOrder(Numbers);
    }

    /// <summary>Number of the load that a site's card was worked for; null without a card, or where the job has no such load.</summary>
    public string? LoadAt(LiftRequest request, string site)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Loads.TryGetValue(site, out string? said) ? request.Loads.FirstOrDefault(l => ApproachSituation.NameOf(l) == said)?.Number : null;
    }
}
