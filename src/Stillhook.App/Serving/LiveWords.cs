using System.Globalization;
using Stillhook.Files.Pictures;
using Stillhook.Following;

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
        yield return Tally(shown.Loads);
        if (NextLoad(shown.Loads, units) is { } load)
            yield return load;
        yield return Refuel(shown.Loads);
        yield return Flown(shown);
        if (shown.State.Stands is { Count: > 1 })
            yield return "If fuel was taken, or wind, temperature or setting moved: read again on the Next page before the next load.";
    }

    /// <summary>Loads delivered.</summary>
    public static string Tally(LiveLoads loads) => loads.Planned > 0
        ? string.Create(CultureInfo.InvariantCulture, $"{loads.Delivered.Count} of {loads.Planned} loads delivered.")
        : string.Create(CultureInfo.InvariantCulture, $"{loads.Delivered.Count} loads delivered.");

    /// <summary>The next load with what it may weigh; null without a plan.</summary>
    public static string? NextLoad(LiveLoads loads, DisplayUnits units)
    {
        if (loads is not { NextLoad: { } next, NextLift: { } lift })
            return loads.Planned > 0 ? "No load of the plan is left." : null;
        string limit = next.Payload is { } payload
            ? $"up to {units.MassDown(payload.Governing.AllowedKg)} {units.MassUnit} there with the plan's {units.Mass(lift.FuelFromKg)} of fuel"
            : "no limit could be worked out";
        return $"Next: load {next.OnHook.Load.Number}{(next.OnHook.Load.Name is { Length: > 0 } name ? ", " + name : "")}, {units.Mass(next.OnHook.NeedKg)} to plan for; {limit}.";
    }

    /// <summary>When fuel is taken on.</summary>
    public static string Refuel(LiveLoads loads) => loads switch
    {
        { Planned: 0 } => "No plan says when to refuel.",
        { LoadsToRefuel: 0 } => "Refuel now, by the plan.",
        { LoadsToRefuel: int n, LastBeforeRefuel: { } last } => string.Create(CultureInfo.InvariantCulture, $"Refuel after load {last}, by the plan ({(n == 1 ? "that is the next one" : $"{n} loads from now")})."),
        _ => "No further refuelling is planned.",
    };

    /// <summary>Flying since the last break.</summary>
    public static string Flown(LiveShown shown) => string.Create(CultureInfo.InvariantCulture,
        $"Flown {Minutes(shown.State.FlownSinceBreakS)} since the start or the last stand of a break's length; a break is due after {Minutes(shown.BreakAfterS)}.{(shown.State.FlownSinceBreakS >= shown.BreakAfterS ? " It is due." : "")}");

    /// <summary>Hours and minutes.</summary>
    public static string Minutes(double seconds)
    {
        int minutes = (int)Math.Floor(seconds / 60 + 1e-9);
        return minutes < 60 ? string.Create(CultureInfo.InvariantCulture, $"{minutes} min") : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60:00} min");
    }

    /// <summary>With a capital letter at its beginning.</summary>
    public static string Sentence(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
