using System.Globalization;
using Stillhook.Debriefing;

namespace Stillhook.Planning.Checking;

/// <summary>Loads: numbers used once, sites that exist and are meant.</summary>
internal static class LoadCheck
{
    public static IEnumerable<RequestFinding> Findings(LiftRequest request)
    {
        Dictionary<string, int> numbers = new(StringComparer.OrdinalIgnoreCase);
        SiteNames pickUps = new(request, SiteUse.PickUp), deliveries = new(request, SiteUse.Delivery);
        for (int i = 0; i < request.Loads.Count; i++)
        {
            PlannedLoad load = request.Loads[i];
            string path = Path(i);
            // Numbers that differ by signs or spaces alone sound the same on the radio, and a figure could not tell them apart.
            if (load.Number.Length > 0 && !numbers.TryAdd(FigureKey.Part(load.Number), i))
                yield return RequestCheck.Error("load-number-twice", path + ".number", string.Create(CultureInfo.InvariantCulture, $"The number '{load.Number}' reads like that of load {numbers[FigureKey.Part(load.Number)] + 1} in the list, '{request.Loads[numbers[FigureKey.Part(load.Number)]].Number}'."), "Give each load its own number, in letters and digits.");
            if (load.Uncertainty is { } off && off >= load.Mass)
                yield return RequestCheck.Error("load-uncertainty", path + ".uncertainty", "The mass may be off by as much as itself.", "Weigh it, or write how far the mass may be off either way.");
            foreach (RequestFinding? finding in new[] { pickUps.Check(load.PickUp, path + ".pickUp", "pick-up"), deliveries.Check(load.Delivery, path + ".delivery", "delivery") })
                if (finding is not null)
                    yield return finding;
        }
    }

    public static string Path(int load) => ChartAxes.At("loads", load);

    /// <summary>The sites of one use, by name.</summary>
    private sealed class SiteNames(LiftRequest request, SiteUse use)
    {
        private readonly HashSet<string> ofUse = request.Sites.Where(s => s.Use == use).Select(s => s.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        private readonly HashSet<string> all = request.Sites.Select(s => s.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);

        public RequestFinding? Check(string? name, string path, string word)
        {
            // A site without a name was reported for itself.
            if (all.Contains(""))
                return null;
            if (name is null)
                return ofUse.Count > 1 ? RequestCheck.Error("load-site-open", path, $"There are {Count} {word} sites and the load names none.", $"Write one of {string.Join(", ", ofUse.Order(StringComparer.Ordinal).Take(8))}.") : null;
            if (ofUse.Contains(name))
                return null;
            if (all.Contains(name))
                return RequestCheck.Error("load-site-use", path, $"'{name}' is no {word} site.", $"Name a site with the use {(use == SiteUse.PickUp ? "pickUp" : "delivery")}, or give that site this use.");
            string mend = NearestWord.To(name, ofUse) is { } nearest ? $"Did you mean '{nearest}'?" : "Write the name as it stands in the list of sites.";
            return RequestCheck.Error("load-site-unknown", path, $"There is no site '{Shown(name)}'.", mend);
        }

        private string Count => ofUse.Count.ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>A name fit for one line.</summary>
    internal static string Shown(string name)
    {
        const int longest = 40;
        return string.Concat((name.Length > longest ? name[..longest] + "..." : name).Select(c => char.IsControl(c) || char.IsSurrogate(c) ? '?' : c));
    }
}
