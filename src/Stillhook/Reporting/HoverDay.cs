using System.Globalization;

namespace Stillhook.Reporting;

/// <summary>A day's hovers of one aircraft against all its hovers before: facts for the sheet, no judgement.</summary>
/// <param name="Aircraft">Aircraft.</param>
/// <param name="FromS">First hover of the day, s since 1970 UTC; null when there is none.</param>
/// <param name="Baseline">Learned from the hovers before; null when they carry none.</param>
/// <param name="Shift">How the day stands; null when it can't be said.</param>
/// <param name="WhyNone">Why it can't be said; null when it can.</param>
/// <param name="FuelFrom">The least certain source of its fuel on board; null when not told.</param>
/// <param name="WriteUpPercent">The operator's own threshold, %; null when none was entered.</param>
public sealed record HoverDay(string Aircraft, double? FromS, HoverBaseline? Baseline, HoverShift? Shift, string? WhyNone, FuelFrom? FuelFrom, double? WriteUpPercent)
{
    private const double LessThanSaid = 0.05;

    /// <summary>True where the day stands over the operator's threshold by more than its band leaves open: it is to be written up, and maintenance decides.</summary>
    public bool ToWriteUp => WriteUpPercent is { } most && Shift is { IsReal: true } s && s.Percent >= most;

    /// <summary>How the day stands in a sentence, or why it can't be said.</summary>
    public string Facts => FactsOf("today is");

    /// <summary>The facts, and what to do where the operator's threshold is passed.</summary>
    public string Sentence => ToWriteUp ? string.Create(CultureInfo.InvariantCulture, $"{Facts} The operator's threshold is {WriteUpPercent:0.#} %. {WriteUp.Words}") : Facts;

    /// <summary>A day's hovers against those before.</summary>
    /// <param name="aircraft">Aircraft.</param>
    /// <param name="before">Its hovers on earlier days.</param>
    /// <param name="today">Its hovers of the day.</param>
    /// <param name="writeUpPercent">The operator's threshold, %; null when none was entered.</param>
    public static HoverDay Of(string aircraft, IReadOnlyList<HoverPoint> before, IReadOnlyList<HoverPoint> today, double? writeUpPercent = null)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(today);
        HoverPoint[] own = [.. today.Where(h => h.Aircraft == aircraft)];
        (HoverBaseline? baseline, string? why) = HoverBaseline.Learn(aircraft, before);
        HoverShift? shift = baseline?.Compare(own);
        string? whyNone = baseline is null ? $"No hover baseline yet: {why}"
            : own.Length == 0 ? "No steady hover of the day is kept to hold against the baseline."
            : shift is null ? string.Create(CultureInfo.InvariantCulture, $"None of the day's {own.Length} hovers lies within the masses ({baseline.MassKg.Least:0} to {baseline.MassKg.Most:0} kg) and density altitudes ({baseline.DensityAltitudeM.Least:0} to {baseline.DensityAltitudeM.Most:0} m) of the baseline.")
            : null;
        return new(aircraft, own.Length > 0 ? own.Min(h => h.AtS) : null, baseline, shift, whyNone, own.Max(h => h.FuelFrom), writeUpPercent);
    }

    /// <summary>The last day among hovers against those before it; null when there is no hover.</summary>
    /// <param name="aircraft">Aircraft.</param>
    /// <param name="hovers">Its hovers in order of time.</param>
    public static HoverDay? Last(string aircraft, IReadOnlyList<HoverPoint> hovers)
    {
        ArgumentNullException.ThrowIfNull(hovers);
        if (hovers.Count == 0)
            return null;
        int from = hovers.Count - 1;
        while (from > 0 && hovers[from].AtS - hovers[from - 1].AtS < CycleBaseline.NightS)
            from--;
        return Of(aircraft, [.. hovers.Take(from)], [.. hovers.Skip(from)]);
    }

    /// <summary>The facts with the day named.</summary>
    /// <param name="dayIs">Such as "today is".</param>
    public string FactsOf(string dayIs)
    {
        if (Baseline is not { } baseline || Shift is not { } shift)
            return WhyNone ?? "";
        string what = baseline.Unit == "%" ? "torque" : "power", way = shift.Percent >= 0 ? "above" : "below";
        string share = Math.Abs(shift.Percent) < LessThanSaid ? "at" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(shift.Percent):0.0} % {way}");
        string fuel = FuelFrom switch
        {
            Reporting.FuelFrom.Assumed => " Fuel on board was assumed: gauge readings narrow the band.",
            Reporting.FuelFrom.Plan => " Fuel on board is the plan's: gauge readings narrow the band.",
            _ => "",
        };
        return string.Create(CultureInfo.InvariantCulture,
            $"Hover {what} {dayIs} {share} baseline at the same mass and air (90 % band {shift.Percent - shift.HalfBandPercent:0.0} to {shift.Percent + shift.HalfBandPercent:0.0} %; {shift.Count} hovers against {baseline.Count} before){(shift.IsReal ? "" : ": no difference that the band does not cover")}. Wind, mass, air intake and engine look alike in it.{fuel}");
    }
}
