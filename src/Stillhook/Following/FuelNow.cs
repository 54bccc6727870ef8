using System.Globalization;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Planning.Ordering;
using Stillhook.Reporting;
using UnitsNet;

namespace Stillhook.Following;

/// <summary>Fuel aboard now: what was read or planned last, what was taken on since, less the plan's own burn over the time flown since.</summary>
/// <remarks>
/// kg = read + taken on − flown · burn, burn = fuel burnt / flying time of the plan's time line (loaded legs, hovers and empty legs together). As good as the plan's burn: the gauge stands over it. There
/// is no figure when nobody can tell: no plan, or a stand at the fuel site after which nothing was entered, since fuel may have been taken on there.
/// </remarks>
/// <param name="Figure">The figure with its working; null when it is not known.</param>
/// <param name="Words">Where it comes from, or why there is none; a clause.</param>
public sealed record FuelNow(Figure? Figure, string Words)
{
    /// <summary>Key of the figure.</summary>
    public const string Key = "fuel.now";

    // Written this long before the stand is told: somebody writes while the skids touch. A shorter stand is none that fuel is taken on in. Common practice, no source.
    private const double WrittenEarlyS = 120;

    /// <summary>Fuel aboard now, kg; null when it is not known.</summary>
    public double? Kg => Figure is { } f ? ((Mass)f.Value.Quantity).Kilograms : null;

    /// <summary>Works it out.</summary>
    /// <param name="plan">The lift plan; null without one.</param>
    /// <param name="entries">Gauge readings and fuel taken on, of the day.</param>
    /// <param name="flown">Time flown that day up to now.</param>
    /// <param name="fuelStops">Stands at the fuel site.</param>
    /// <param name="nowS">Now, s since 1970 UTC.</param>
    /// <param name="clock">Time of day in words.</param>
    public static FuelNow Of(LiftPlan? plan, IReadOnlyList<FuelEntry> entries, FlownTime flown, IReadOnlyList<Stretch> fuelStops, double nowS, Func<double, string> clock)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(flown);
        ArgumentNullException.ThrowIfNull(fuelStops);
        ArgumentNullException.ThrowIfNull(clock);
        if (plan?.Order?.Timeline is not { FlyingMinutes: > 0 } day)
            return new(null, "no plan says how much is burnt");
        FuelEntry[] known = [.. entries.Where(e => e.AtS <= nowS).OrderBy(e => e.AtS)];
        FuelEntry? gauge = known.LastOrDefault(e => e.OnBoardKg is not null);
        double firstAirS = flown.Stretches.Count > 0 ? flown.Stretches[0].FromS : nowS;
        double fromS = gauge?.AtS ?? firstAirS, readKg = gauge?.OnBoardKg ?? day.Steps[0].FuelFromKg;
        if (fuelStops.FirstOrDefault(s => s.ToS > fromS && s.FromS > firstAirS && known.All(e => e.AtS < s.FromS - WrittenEarlyS)) is { LengthS: > 0 } stop)
            return new(null, $"the aircraft stood at the fuel site at {clock(stop.FromS)} and no fuel was entered since");
        FuelEntry[] taken = [.. known.Where(e => e.AtS > fromS && e.TakenOnKg is not null)];
        double burn = day.BurntKg / day.FlyingMinutes, minutes = flown.BetweenS(fromS, nowS) / 60;
        double kg = readKg + taken.Sum(e => e.TakenOnKg!.Value) - burn * minutes;
        if (!(kg >= 0))
            return new(null, "by the plan's burn nothing would be left: read the gauge");
        string read = gauge is null
            ? Text($"from the plan, {readKg:0} kg at the start, nobody entered the fuel") : Text($"{readKg:0} kg entered at {clock(gauge.AtS)}");
        string on = taken.Length > 0 ? Text($", {taken.Sum(e => e.TakenOnKg!.Value):0} kg taken on since") : "";
        List<FigureInput> inputs =
        [
            gauge is null
                ? new("fuel at the start by the plan", Amount.Kilograms(readKg), InputFrom.Rule, "docs/method/order.md")
                : new($"gauge at {clock(gauge.AtS)}", Amount.Kilograms(readKg), InputFrom.Kept, "fuel entered for the day"),
            .. taken.Select(e => new FigureInput($"taken on at {clock(e.AtS)}", Amount.Kilograms(e.TakenOnKg!.Value), InputFrom.Kept, "fuel entered for the day")),
            new("flown since", Amount.Minutes(minutes), InputFrom.Kept, "the flight as followed"),
            new("burn, mean of the plan's time line", new(MassFlow.FromKilogramsPerHour(burn * 60), 1), InputFrom.Figure, "order.burn"),
        ];
        return new(new(Key, "fuel aboard now", Amount.Kilograms(kg), "fuel read or planned, and taken on since, less the time flown since times the plan's mean burn", inputs, CheckItem.CommonPractice,
            "as good as the plan's burn: the gauge stands over it"), Text($"{read}{on}, less {minutes:0} min flown at the plan's {burn:0.0} kg/min"));
    }

    /// <summary>Stands at a site with fuel that a refuelling may have been done in.</summary>
    /// <param name="request">The job.</param>
    /// <param name="stands">Times on the ground.</param>
    public static IReadOnlyList<Stretch> StopsForFuel(LiftRequest request, IReadOnlyList<Stand> stands)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(stands);
        if (OrderSetup.FuelSite(request) is not { } fuel)
            return [];
        Physics.Earth.LocalFrame frame = new(fuel.Latitude.Degrees, fuel.Longitude.Degrees, 0);
        return [.. stands.Where(s => s.When.LengthS >= LeastStopS && s.At is { } at && frame.ToEnu(at.LatitudeDeg, at.LongitudeDeg, 0).Horizontal <= AtSiteM).Select(s => s.When)];
    }

    // A minute on the ground, within 150 m of the site: design values, common practice, no source.
    private const double LeastStopS = 60, AtSiteM = 150;

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
