using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>What moved since an approach was planned. Whatever is null stands as planned.</summary>
/// <param name="Qnh">Altimeter setting now.</param>
/// <param name="Wind">Wind now.</param>
/// <param name="Temperature">Outside air temperature now.</param>
/// <param name="Line">Length of the line now.</param>
/// <param name="Load">A load that weighs otherwise than planned.</param>
public sealed record ApproachShift(Pressure? Qnh = null, Wind? Wind = null, Temperature? Temperature = null, Length? Line = null, LoadMass? Load = null)
{
    /// <summary>True when nothing moved.</summary>
    public bool IsEmpty => Qnh is null && Wind is null && Temperature is null && Line is null && Load is null;

    /// <summary>What moved of it that enters the lift plan: all but the wind.</summary>
    public ApproachShift OfTheLift() => this with { Wind = null };

    /// <summary>The job with what moved put in at every site: the readings stand from now on, forecasts are dropped.</summary>
    /// <remarks>
    /// A site without weather takes the wind as the job's; a setting or a temperature alone can't stand there, and is taken by <see cref="ApproachSituation"/> from <see cref="ApproachOptions.Shift"/>:
    /// neither is made up for the other's sake.
    /// </remarks>
    public LiftRequest Applied(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request with
        {
            Sites = [.. request.Sites.Select(s => Qnh is null && Temperature is null && Wind is null ? s : s with { Weather = Moved(s.Weather), Forecast = Temperature is null ? [.. s.Forecast.Select(Moved)] : [] })],
            Wind = Wind is { } w ? Given(w) : request.Wind,
            Line = Line is { } length ? (request.Line ?? new()) with { Length = length } : request.Line,
            Loads = Load is { Number: { } number, Mass: var mass } ? [.. request.Loads.Select(l => l.Number == number ? l with { Mass = mass, HowKnown = MassKnownBy.Estimated } : l)] : request.Loads,
            Load = Load is { Number: null, Mass: var single } && request.Load is { } only ? only with { Mass = single } : request.Load,
        };
    }

    private WeatherNow? Moved(WeatherNow? weather) => weather is null
        ? Qnh is { } qnh && Temperature is { } temperature ? new() { Qnh = qnh, Temperature = temperature, Wind = Wind is { } w ? Given(w) : null } : null
        : weather with { Qnh = Qnh ?? weather.Qnh, Temperature = Temperature ?? weather.Temperature, Wind = Wind is { } now ? Given(now) : weather.Wind };

    private ForecastHour Moved(ForecastHour hour) => hour with { Qnh = Qnh ?? hour.Qnh, Wind = Wind is { } w ? Given(w) : hour.Wind };

    private static WindGiven Given(Wind wind) => new() { From = Angle.FromDegrees(wind.FromDeg), Speed = wind.Speed };
}

/// <summary>The mass of a load, as tried.</summary>
/// <param name="Number">Number in the load list; null for the job's single load.</param>
/// <param name="Mass">Its mass; taken as an estimate.</param>
public sealed record LoadMass(string? Number, Mass Mass);

/// <summary>What moved between two plans of the same approach, in sentences: what stops first.</summary>
public static class ApproachChanges
{
    /// <summary>The changes.</summary>
    public static IReadOnlyList<string> Between(ApproachPlan before, ApproachPlan after, ApproachShift shift)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentNullException.ThrowIfNull(shift);
        List<string> changes = [];
        if (!after.IsOffered)
            changes.Add("STOP: " + (after.Refused ?? "Nothing can be planned for what was read."));
        if (shift.Qnh is { } qnh && before.Situation?.QnhPa is { } was && Math.Abs(qnh.Pascals - was) > 5)
        {
            // With the old setting still on it the altimeter shows what the pressure difference is worth.
            double high = Altimeter.ReadsHighM(was, qnh.Pascals) / 0.3048;
            changes.Add(Text($"{was / 100:0.#} -> {qnh.Hectopascals:0.#} hPa: the altimeter now reads about {Math.Abs(Math.Round(high / 10) * 10):0} ft {(high > 0 ? "high" : "low")} if not reset. Readings below are for {qnh.Hectopascals:0.#} hPa."));
        }
        if (after.IsOffered && !before.IsOffered)
            changes.Add(Text($"An approach is offered now: course {after.CourseDeg:000}. Before there was none: {before.Refused}"));
        if (before.Situation is { Listed: not null, Minute: { } then } && after.Situation?.Minute is { } now && Math.Abs(then - now) >= 1)
            changes.Add(Text($"The order of the day changed: this load is now lifted at {ClockText.Of(now)}, not {ClockText.Of(then)}, with other fuel aboard; power moved with it."));
        if (before.IsOffered && after.IsOffered)
            changes.AddRange(Ways(before, after));
        return changes;
    }

    private static IEnumerable<string> Ways(ApproachPlan before, ApproachPlan after)
    {
        PathShape b = before.Way!.Path.Shape, a = after.Way!.Path.Shape;
        if (WaySearch.Apart(before.CourseDeg, after.CourseDeg) >= 1)
            yield return Text($"STOP: course {before.CourseDeg:000} -> {after.CourseDeg:000}: re-brief the direction of the way in.");
        if (Math.Abs(b.StartM - a.StartM) >= 1)
            yield return Text($"Start mark {b.StartM:0} -> {a.StartM:0} m before the spot.");
        if (Math.Abs(b.EntryMs - a.EntryMs) > 0.5 * ApproachGates.KnotMs)
            yield return Text($"Ground speed at the start mark {b.EntryMs / ApproachGates.KnotMs:0} -> {a.EntryMs / ApproachGates.KnotMs:0} kt.");
        foreach (ApproachGate gate in after.Gates)
            if (before.Gates.FirstOrDefault(g => g.Name == gate.Name && Math.Abs(g.DistanceM - gate.DistanceM) < 1) is { } same && Math.Abs(same.AltimeterFt - gate.AltimeterFt) >= 20)
                yield return Text($"Altimeter {(gate.DistanceM > 0 ? $"{gate.DistanceM:0} m before the spot" : "over the spot")}{(gate.Name.Length > 0 ? $" ({gate.Name})" : "")}: {same.AltimeterFt:0} -> {gate.AltimeterFt:0} ft.");
        if (before.PowerIn is { } p && after.PowerIn is { } q && Math.Abs(p.LoadHeightM - q.LoadHeightM) >= 0.5)
            yield return Text($"Power in with the load at {Math.Ceiling(p.LoadHeightM / 0.3048):0} -> {Math.Ceiling(q.LoadHeightM / 0.3048):0} ft.");
        if (before.Reject is { } r && after.Reject is { } t && Math.Abs(r.DistanceM - t.DistanceM) >= 10)
            yield return Text($"Reject {ApproachGates.Out(r.DistanceM):0} -> {ApproachGates.Out(t.DistanceM):0} m before the spot.");
        if (before.Situation!.Hover is { } x && after.Situation!.Hover is { } y && HoverRatio.Shown(x.LeftPercent) != HoverRatio.Shown(y.LeftPercent))
            yield return Text($"Power left over the spot {HoverRatio.Shown(x.LeftPercent):0} -> {HoverRatio.Shown(y.LeftPercent):0} %.");
        if (before.Situation.SwingWords != after.Situation!.SwingWords)
            yield return Text($"One swing {before.Situation.SwingWords} -> {after.Situation.SwingWords}.");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
