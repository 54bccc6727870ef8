using System.Globalization;
using Stillhook.Files.Pictures;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Planning.Payload;

namespace Stillhook.App.Serving;

/// <summary>What the pages of a flight that goes on say.</summary>
internal static class LiveWords
{
    /// <summary>What a line for the next approach rests on.</summary>
    public static string Rests(LiveNext next) => next.Deliveries switch
    {
        0 => "no delivery yet",
        1 => $"from 1 delivery{(next.Settled ? "" : ", first measure")}",
        int n => string.Create(CultureInfo.InvariantCulture, $"from {n} deliveries{(next.Settled ? "" : ", the last one at first measure")}"),
    };

    /// <summary>The rest, for a pilot who stands on the ground.</summary>
    public static IEnumerable<string> OnTheGround(LiveShown shown, LiveNext next, DisplayUnits units)
    {
        yield return Sentence(Rests(next)) + ".";
        if (next.Next is { Evidence.Length: > 0 } measured)
            yield return Sentence(units.Sentence(measured.Evidence));
        foreach (string held in next.Next?.Stopped ?? [])
            yield return "Held back: " + units.Sentence(held);
        if (Offer(shown, units) is { } offer)
            yield return offer + " It is on the Live page.";
        yield return Tally(shown.Loads);
        if (NotPlaced(shown.Loads, units) is { } odd)
            yield return odd;
        if (NextLoad(shown, units) is { } load)
            yield return load;
        if (Over(shown, units) is { } over)
            yield return over;
        yield return Fuel(shown, units);
        yield return Refuel(shown.Loads);
        yield return Flown(shown);
    }

    /// <summary>Loads delivered.</summary>
    public static string Tally(LiveLoads loads) => loads switch
    {
        { Planned: 0 } => string.Create(CultureInfo.InvariantCulture, $"{loads.Delivered.Count} loads delivered."),
        { NotPlaced: 0 } => string.Create(CultureInfo.InvariantCulture, $"{loads.Gone.Count} of {loads.Planned} loads delivered."),
        _ => string.Create(CultureInfo.InvariantCulture, $"{loads.Gone.Count} of {loads.Planned} loads delivered, and {loads.NotPlaced} {(loads.NotPlaced == 1 ? "delivery" : "deliveries")} not placed."),
    };

    /// <summary>Deliveries whose mass fits no load at their place of the order; null when there is none.</summary>
    public static string? NotPlaced(LiveLoads loads, DisplayUnits units)
    {
        LiveLoad[] odd = loads.Planned == 0 ? [] : [.. loads.Delivered.Where(d => d.LoadNumber is null)];
        if (odd.Length == 0)
            return null;
        string which = string.Join(", ", odd.Select(d => d.Delivery.Number.ToString(CultureInfo.InvariantCulture) + (d.CarriedKg is { } kg ? $" ({units.Mass(kg)} by the load cell)" : "")));
        return $"Not placed: delivery {which}. The mass fits no load at that place of the order; write the number.";
    }

    /// <summary>The next load with what it may weigh with the fuel aboard now; null without a plan.</summary>
    public static string? NextLoad(LiveShown shown, DisplayUnits units)
    {
        if (shown.Loads.NextLoad is not { } next)
            return shown.Loads.Planned > 0 ? "No load of the plan is left." : null;
        string limit = shown.NextLimit switch
        {
            null => "no figure for its limit: the fuel aboard is not known",
            { IsJudged: false } => "no figure for its limit: it lies outside the chart now",
            { IsOver: true } at => $"OVER its limit with the fuel aboard now, which is {Limit(at, units)}",
            var at => $"at most {Limit(at, units)} with the fuel aboard now",
        };
        return $"Next: load {next.OnHook.Load.Number}{(next.OnHook.Load.Name is { Length: > 0 } name ? ", " + name : "")}, {units.Mass(next.OnHook.NeedKg)} to plan for; {limit}.";
    }

    /// <summary>Loads still to be flown that may not be lifted with the fuel aboard now; null when there is none.</summary>
    public static string? Over(LiveShown shown, DisplayUnits units)
    {
        LoadNow[] over = [.. shown.Limits?.Loads.Where(l => l.IsOver) ?? []];
        if (over.Length == 0)
            return null;
        IEnumerable<string> alike = over.GroupBy(l => Limit(l, units)).Select(g => $"load {string.Join(", ", g.Select(l => l.Load.OnHook.Load.Number))} ({Range([.. g.Select(l => l.Load.OnHook.NeedKg)], units)} to plan for, at most {g.Key})");
        return $"Over the limit with the fuel aboard now: {string.Join("; ", alike)}.";
    }

    /// <summary>Fuel aboard now and where the figure comes from.</summary>
    public static string Fuel(LiveShown shown, DisplayUnits units) => shown.Fuel.Kg is { } kg
        ? $"Fuel aboard now: about {units.Mass(kg)} ({units.Sentence(shown.Fuel.Words)}). The gauge stands over it."
        : $"Fuel aboard now: no figure, {units.Sentence(shown.Fuel.Words)}.{(shown.Loads.Planned > 0 ? " Read the gauge and enter it on the Live page." : "")}";

    /// <summary>The check of the plan that is offered; null for none.</summary>
    public static string? Offer(LiveShown shown, DisplayUnits units) => shown.Offer is { } offer ? $"Re-check offered: {units.Sentence(string.Join("; ", offer.Reasons))}." : null;

    /// <summary>When fuel is taken on.</summary>
    public static string Refuel(LiveLoads loads) => loads switch
    {
        { Planned: 0 } => "No plan says when to refuel.",
        { LoadsToRefuel: 0 } => "Refuel now, by the plan.",
        { LoadsToRefuel: int n, LastBeforeRefuel: { } last } => string.Create(CultureInfo.InvariantCulture, $"Refuel after load {last}, by the plan ({(n == 1 ? "that is the next one" : $"{n} loads from now")})."),
        _ => "No further refuelling is planned.",
    };

    /// <summary>Flying since the last break, by the rule of the Day.</summary>
    public static string Flown(LiveShown shown) => string.Create(CultureInfo.InvariantCulture,
        $"Flown {Minutes(shown.Break.SinceBreakS)} since {(shown.Break.Breaks.Count > 0 ? "the last break" : "the day began")}; a break is due after {Minutes(shown.Break.AfterS)}.{(shown.Break.SinceBreakS >= shown.Break.AfterS ? " It is due." : "")}{(shown.MayBeBreaks.Count > 0 ? " A time on the ground that nobody marked as a break does not count as one." : "")}");

    /// <summary>How the number of a load is known, behind it.</summary>
    public static string By(LiveLoad? load) => load?.By switch { NumberKnownBy.Turn => " by turn", NumberKnownBy.TurnAndMass => " by turn, the mass fits", _ => "" };

    /// <summary>Hours and minutes.</summary>
    public static string Minutes(double seconds)
    {
        int minutes = (int)Math.Floor(seconds / 60 + 1e-9);
        return minutes < 60 ? string.Create(CultureInfo.InvariantCulture, $"{minutes} min") : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60:00} min");
    }

    /// <summary>With a capital letter at its beginning.</summary>
    public static string Sentence(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Range(double[] kg, DisplayUnits units) => units.MassNumber(kg.Min()) == units.MassNumber(kg.Max()) ? units.Mass(kg[0]) : $"{units.MassNumber(kg.Min())} to {units.Mass(kg.Max())}";

    private static string Limit(LoadNow at, DisplayUnits units) => $"{units.MassDown(at.Payload.Governing.AllowedKg)} {units.MassUnit}, {PayloadCalculator.Words(at.Payload.Governing.LimitedBy, at.Load.OnHook)} at {at.Payload.Governing.At.Site.Name}";
}
