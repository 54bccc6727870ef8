using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Planning;

namespace Stillhook.Files.Cards;

/// <summary>The load master's sheet: order and weights, the chain, the stops, the checks.</summary>
internal static class LoadMasterPrint
{
    public static PrintedCard Of(Brief brief, LoadMasterSheet sheet, CardUnits u) =>
        CardPrints.Card(brief, $"load master {sheet.PickUp}", "Load master: " + sheet.PickUp, "Weigh, rig, hook on. Call number and weight before each lift.", Parts(sheet, u));

    private static IEnumerable<CardPart> Parts(LoadMasterSheet sheet, CardUnits u)
    {
        yield return new CardText(CardCautions.HookOn, Strong: true, Boxed: true);
        yield return new CardHeading("Order of loads");
        if (sheet.Steps.OfType<LoadRow>().Any())
            yield return Loads(sheet, u);
        else
            yield return new CardText("No load has a place in the order.", Strong: true);
        yield return new CardText("Most: the most the load may weigh on this lift. Over it: call the pilot, do not hook on. Kinds marked 1st are proving lifts: " + CardCautions.ProvingLift);
        if (sheet.Loads.Any(l => l.HowKnown != MassKnownBy.Weighed))
            yield return new CardText(CardCautions.Weights, Strong: true);
        if (sheet.NotFlown.Count > 0)
        {
            yield return new CardHeading("Not flown as planned");
            yield return new CardList([.. sheet.NotFlown.GroupBy(n => n.Why).Select(g => $"{NumberRuns.Of([.. g.Select(n => n.Number)])}: {u.Sentence(g.Key)}")]);
        }
        yield return new CardText(CardCautions.LostRadio, Strong: true, Boxed: true);
        for (int i = 0; i < sheet.Chains.Count; i++)
        {
            ChainSketch chain = sheet.Chains[i];
            yield return Chain(chain, [.. sheet.Chains.Take(i)], u);
            // Said once where it is the same for the next chain.
            if (i + 1 == sheet.Chains.Count || sheet.Chains[i + 1].Ring != chain.Ring)
                yield return new CardText((chain.RingPasses ? "Ring and hook: " : "CHECK ring and hook: ") + chain.Ring, Strong: !chain.RingPasses, Boxed: !chain.RingPasses);
        }
        yield return new CardHeading("Before the first lift");
        yield return new CardList(CrewWords.HookCheck, ToTick: true);
        yield return new CardHeading("Stop words");
        yield return new CardFacts(CrewWords.Stop, StrongNames: true);
    }

    private static CardTable Loads(LoadMasterSheet sheet, CardUnits u)
    {
        bool sites = sheet.Loads.Select(l => l.Delivery).Distinct().Count() > 1;
        CardColumn[] columns =
        [
            new("Turn", 7, ToTheRight: true), new("Load", 9, Strong: true), new("What", sites ? 24 : 38), .. sites ? new CardColumn[] { new("To", 18) } : [], new(u.MassUnit, 8, ToTheRight: true, Strong: true), new("Known by", 15), new("Most", 8, ToTheRight: true, Strong: true), new("Hook-on", 11, ToTheRight: true),
        ];
        return new("Order of loads", columns, [.. sheet.Steps.Select(s => s is LoadRow l ? Row(l, sites, u) : new CardRow(Stop(((StopRow)s).Stop, u)))]);
    }

    private static CardRow Row(LoadRow l, bool sites, CardUnits u)
    {
        string turn = CardUnits.Text($"{l.Position}"), what = (l.Proving ? "1st " : "") + (l.Name ?? ""), known = l.HowKnown switch { MassKnownBy.Weighed => "weighed", MassKnownBy.Label => "label", _ => "ESTIMATED" };
        string[] head = [turn, l.Number, what], tail = [u.MassNumber(l.MassKg), known, u.MassDown(l.MostKg), ClockText.Of(l.HookOnMinute)];
        return new([.. head, .. sites ? [l.Delivery] : Array.Empty<string>(), .. tail]);
    }

    private static string Stop(FuelStop stop, CardUnits u) => $"{CockpitPrint.StopWords(stop)} to {ClockText.Of(stop.ToMinute)}{(stop.Refuel ? $", fill to {u.Mass(stop.FuelToKg)}" : "")}";

    private static CardChain Chain(ChainSketch chain, IReadOnlyList<ChainSketch> before, CardUnits u)
    {
        string title = $"Rigging of load {NumberRuns.Of(chain.Numbers)}";
        List<CardLink> links = [new(LinkSign.Hook, "Cargo hook of the aircraft", "")];
        if (chain.Parts.Count == 0)
            links.Add(new(LinkSign.Line, "Nothing is entered between hook and load", "", "Not judged. Write down every part and its mark before the first lift."));
        int shared = Shared(chain, before, out string under);
        if (shared > 1)
            links.Add(new(LinkSign.Line, string.Join(", ", chain.Parts.Take(shared).Select(p => p.Name)), $"the same parts, none carries more than under load {under}; {(chain.Parts.Take(shared).FirstOrDefault(p => p.Weakest) is { } weakest ? $"weakest part {weakest.Name}, carries {u.Mass(weakest.CarriesKg)}" : "")}".TrimEnd(' ', ';'), "", false));
        links.AddRange(chain.Parts.Skip(shared > 1 ? shared : 0).Select(p => new CardLink(Sign(p.Kind), p.Name, Carries(p, u), u.Sentence(p.Remark), p.Weakest)));
        links.Add(new(LinkSign.Load, $"Load {chain.For}{(chain.LoadName is { Length: > 0 } name ? ", " + name : "")}", $"{u.Mass(chain.NeedKg)} planned for{(chain.MostLoadKg is { } most ? $"; the marked parts take {u.MassDown(most)} {u.MassUnit}" : "")}", string.Join(' ', chain.Remarks)));
        return new(title, links);
    }

    /// <summary>How many parts from the top hang alike in a chain drawn before, each marked, without a remark, and carrying no more here.</summary>
    private static int Shared(ChainSketch chain, IReadOnlyList<ChainSketch> before, out string under)
    {
        (int most, under) = (0, "");
        foreach (ChainSketch other in before)
            if (chain.Parts.Zip(other.Parts).TakeWhile(p => p.First.Name == p.Second.Name && p.First.Kind == p.Second.Kind && p.First.MayCarryKg is not null && p.First.MayCarryKg == p.Second.MayCarryKg
                && p.First.CarriesKg <= p.Second.CarriesKg && p.First.Remark.Length + p.Second.Remark.Length == 0).Count() is var count && count > most)
                (most, under) = (count, other.For);
        return most;
    }

    private static string Carries(ChainPart p, CardUnits u) => p.Kind == PartKind.CargoHook && p.MayCarryKg is null ? ""
        : $"carries {u.Mass(p.CarriesKg)}{(IsSling(p.Kind) ? " on one leg" : "")}; {(p.MayCarryKg is { } may ? $"may carry {u.MassDown(may)} {u.MassUnit}" : "NO MARK")}";

    private static bool IsSling(PartKind kind) => kind is PartKind.WireRopeSling or PartKind.ChainSling or PartKind.TextileSling;

    private static LinkSign Sign(PartKind kind) => kind switch
    {
        PartKind.CargoHook or PartKind.RemoteHook => LinkSign.Hook,
        PartKind.Ring or PartKind.Shackle or PartKind.Swivel => LinkSign.Ring,
        PartKind.WireRopeSling or PartKind.ChainSling or PartKind.TextileSling or PartKind.Net or PartKind.Bucket => LinkSign.Sling,
        _ => LinkSign.Line,
    };
}
