using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>The figures of an approach with their working.</summary>
internal static class ApproachFigures
{
    public static FigureBook Of(ApproachPlan plan)
    {
        ApproachSituation s = plan.Situation!;
        FigureBook book = new();
        Figure length = book.Add(new("approach.length", "hook to the load's middle", Meters(s.Load.LengthM, 0.1), "line + rigging + half of the load's height", Lengths(s), CheckItem.CommonPractice));
        Figure period = book.Add(new("approach.period", "one swing there and back, hook held still: the longer end", new(Duration.FromSeconds(s.PeriodS), 1), "2π·√(L/g), line mass as a rod", [FigureBook.Of(length)], "STATICS",
            FormattableString.Invariant($"shown as {s.SwingWords}: the shorter end is this times √(1 − m/M), the aircraft free to move, m {s.Load.MassKg:0} kg of load and kit, M {(s.GrossKg is { } gross ? FormattableString.Invariant($"{gross:0} kg in all") : "not known")}; a flight lies between")));
        if (s.Hover is { } hover)
            book.Add(Left(plan, hover));
        if (plan.Way is not { } way)
            return book;
        PathShape shape = way.Path.Shape;
        Figure limit = book.Add(new("approach.slow-down", "hardest slow-down of the hook", Gravities(way.Path.PeakHookSlowDownMs2()), "peak of the hook's deceleration along the path, held to the limit",
            [Chosen("limit", Gravities(s.Rules.SlowDownMs2.Value), s.Rules.SlowDownMs2)], CheckItem.CommonPractice));
        Figure entry = book.Add(new("approach.entry", "ground speed at the start mark", Knots(shape.EntryMs), "air speed brought in, less wind from ahead, by the wind triangle", [Chosen("air speed", Knots(s.Rules.EntrySpeedMs.Value), s.Rules.EntrySpeedMs), WindInput(s)], CheckItem.CommonPractice));
        Figure way0 = book.Add(new("approach.slow-down-way", "way of the slow-down", Meters(shape.SlowDownM, 5), "V₀·(T_b + W)/2: soft ends of W, T_b so that the hook's limit is just reached", [FigureBook.Of(entry), FigureBook.Of(limit), FigureBook.Of(period)], "DEBOOR"));
        book.Add(new("approach.start", "distance to go at the start mark", Meters(shape.StartM, 10), "the next round distance beyond the slow-down's way, or as pinned", [FigureBook.Of(way0), .. s.Options.Start is { } pinned ? new[] { Typed("pinned", Meters(pinned.Meters, 1), "--start") } : []], CheckItem.CommonPractice));
        book.Add(new("approach.glide", "path from the start mark to the spot", new(Angle.FromDegrees(shape.GlideDeg), 0.1), "atan(height of the load at the start mark / its distance)", [Chosen("steepest allowed", new(Angle.FromDegrees(s.Rules.SteepestGlideDeg.Value), 0.1), s.Rules.SteepestGlideDeg), .. s.Options.Glide is { } pinnedGlide ? new[] { Typed("pinned", new(pinnedGlide, 0.1), "--glide") } : []], "FAA-H-8083-21"));
        book.Add(new("approach.sink-limit", "highest sink under 20 kt of air speed", FeetPerMinute(s.SinkLimit.At(0)), "least of 300 ft/min, the operator's figure and 0.30 of the hover's induced velocity",
            [Chosen("operator's figure", FeetPerMinute(s.Rules.SlowSinkMs.Value), s.Rules.SlowSinkMs), .. s.HoverInducedMs is { } v ? new[] { new FigureInput("induced velocity in the hover", new Amount(Speed.FromMetersPerSecond(v), 0.1), InputFrom.Rule, "docs/method/power.md") } : []], "JOHNSON-VRS"));
        FigureInput[] lags = [Chosen("reaction", Seconds(s.Rules.ReactionS.Value), s.Rules.ReactionS), Chosen("lag of engine and rotor", Seconds(s.Rules.LagS.Value), s.Rules.LagS)];
        if (plan.PowerIn is { } powerIn)
        {
            Figure lost = book.Add(new("approach.arrest", "height that stopping the sink takes", Meters(powerIn.LostM, 0.1), "reaction and lag at the sink, then the acceleration that the power in hand gives: docs/method/power-in.md",
                [new("planned sink there", FeetPerMinute(powerIn.SinkMs), InputFrom.Rule, "docs/method/load-path.md"), FigureBook.Of(book.Find("approach.hover")!), .. lags], "LEISHMAN"));
            book.Add(new("approach.power-in", "height of the load at which hover power must be coming on", Meters(powerIn.LoadHeightM, 0.1), "last place on the path where the load is higher than what is lost and the reserve (20 ft, or half of what is lost), no later than 24 kt of air speed", [FigureBook.Of(lost)], CheckItem.CommonPractice,
                "before that place it can be stopped anywhere on the path"));
        }
        if (plan.Reject is { } reject)
            book.Add(new("approach.reject", "distance at which going around must be decided", Meters(ApproachGates.Out(reject.DistanceM), 10), "last place from which the way out, flown with the power in hand, keeps the load clear of ground, obstacles, wires and people", [FigureBook.Of(book.Find("approach.hover")!), .. lags, Chosen("height kept", Meters(s.Rules.ClearanceM.Value, 0.5), s.Rules.ClearanceM)], CheckItem.CommonPractice));
        book.Add(new("approach.fall-reach", "farthest reach of a load let go", Meters(plan.FallReachM, 1), "ground speed, with and without the wind, times the fall's time √(2h/g), and the margin", [Chosen("margin", Meters(s.Rules.PeopleClearanceM.Value, 1), s.Rules.PeopleClearanceM), WindInput(s)], "docs/method/way-in.md"));
        if (plan.Robustness is { } r)
            book.Add(new("approach.miss", "load's distance from the spot in 95 of 100 flights", Meters(r.MissM.NinetyFive, 0.1), FormattableString.Invariant($"{r.Flights} simulated flights of this path with drawn line, load, wind, timing and hand"), [new("spreads", Amount.Number(r.Flights, 1), InputFrom.Rule, "docs/method/robustness.md")], CheckItem.CommonPractice));
        return book;
    }

    /// <summary>Power left over the spot: the figure of page, card and command, rounded down as there.</summary>
    private static Figure Left(ApproachPlan plan, HoverRatio hover) => new("approach.hover", "power left over the spot, of the most there is", Amount.Percent(HoverRatio.Shown(hover.LeftPercent)),
        $"1 - 1/x, rounded down; x = power there is / power the hover takes = {hover.Formula}: the least of torque page, power model and hover chart, here {hover.From}",
        [.. hover.Inputs, new("x", Amount.Number(hover.Value, 0.001), InputFrom.Rule, "worked from the lines above")], "LEISHMAN",
        "hover out of ground effect with the load, in still air: no wind is counted on, nothing is taken off for gusts or a margin" +
        (plan.Gates is [.., { TorquePercent: { } used }] ? FormattableString.Invariant($"; the {used:0} % torque expected over the spot is another figure: power used by the model in the wind of the plan, of full torque") : ""));

    /// <summary>Rules that nobody set.</summary>
    public static IReadOnlyList<FigureInput> Defaults(ApproachSituation s)
    {
        ApproachRules r = s.Rules;
        FigureInput[] all =
        [
            Chosen("steepest path", new(Angle.FromDegrees(r.SteepestGlideDeg.Value), 0.1), r.SteepestGlideDeg), Chosen("air speed at the start mark", Knots(r.EntrySpeedMs.Value), r.EntrySpeedMs),
            Chosen("largest slow-down", Gravities(r.SlowDownMs2.Value), r.SlowDownMs2), Chosen("highest sink under 20 kt", FeetPerMinute(r.SlowSinkMs.Value), r.SlowSinkMs),
            Chosen("highest sink", FeetPerMinute(r.HighestSinkMs.Value), r.HighestSinkMs), Chosen("touch-down sink", FeetPerMinute(r.TouchDownSinkMs.Value), r.TouchDownSinkMs),
            Chosen("height of the load at rest over the spot", Meters(r.LetDownM.Value, 0.1), r.LetDownM), Chosen("height kept under the load", Meters(r.ClearanceM.Value, 0.5), r.ClearanceM),
            Chosen("distance kept from people", Meters(r.PeopleClearanceM.Value, 1), r.PeopleClearanceM), Chosen("strongest wind from the side", Knots(r.CrosswindMs.Value), r.CrosswindMs),
            Chosen("most nose up", new(Angle.FromDegrees(r.NoseUpDeg.Value), 0.1), r.NoseUpDeg), Chosen("wind beyond the mean to be ready for", Knots(r.GustSpreadMs.Value), r.GustSpreadMs),
            Chosen("reaction", Seconds(r.ReactionS.Value), r.ReactionS), Chosen("lag of engine and rotor", Seconds(r.LagS.Value), r.LagS),
            Chosen("power left under which a reject is planned", Amount.Percent(r.HoverReservePercent.Value), r.HoverReservePercent),
        ];
        FigureInput[] rotor = s.Request.Aircraft?.Rotor is null ? [new("rotor radius that obstacles are kept clear of", Meters(Surroundings.AssumedRotorRadiusM, 0.1), InputFrom.Default, "aircraft.rotor.radius")] : [];
        return [.. all.Where(i => i.From == InputFrom.Default), .. rotor];
    }

    private static FigureInput[] Lengths(ApproachSituation s) =>
    [
        s.Options.Shift.Line is null ? new("line", Meters(s.Request.Line!.Length!.Value.Meters, 0.1), InputFrom.JobFile, "line.length") : Typed("line", Meters(s.Request.Line!.Length!.Value.Meters, 0.1), "--line"),
        new("rigging", Meters(s.Request.Line.Rigging?.Meters ?? 0, 0.1), s.Request.Line.Rigging is null ? InputFrom.Default : InputFrom.JobFile, "line.rigging"),
        new("load's height", Meters(s.LoadHeightM, 0.1), s.Listed?.Height is null ? InputFrom.Default : InputFrom.JobFile, s.Listed is null ? "load.height" : $"loads[{s.Request.Loads.ToList().IndexOf(s.Listed)}].height"),
    ];

    private static FigureInput Typed(string name, Amount value, string option) => new(name, value, InputFrom.Typed, option);

    private static FigureInput WindInput(ApproachSituation s) => s.Wind is { } wind
        ? s.Options.Shift.Wind is not null ? Typed(FormattableString.Invariant($"wind from {wind.FromDeg:000}°"), Knots(wind.Speed.MetersPerSecond), "--wind") : new(FormattableString.Invariant($"wind from {wind.FromDeg:000}°"), Knots(wind.Speed.MetersPerSecond), InputFrom.JobFile, $"sites[{s.Request.Sites.ToList().IndexOf(s.Site)}].weather.wind")
        : new("wind", Knots(0), InputFrom.Default, $"sites[{s.Request.Sites.ToList().IndexOf(s.Site)}].weather.wind");

    private static FigureInput Chosen(string name, Amount value, Chosen<double> chosen) => new(name, value, chosen.From, chosen.Where);

    private static Amount Meters(double m, double step) => new(Length.FromMeters(m), step);

    private static Amount Seconds(double s) => new(Duration.FromSeconds(s), 0.1);

    private static Amount Knots(double ms) => new(Speed.FromKnots(ms / ApproachGates.KnotMs), 1);

    private static Amount FeetPerMinute(double ms) => new(Speed.FromFeetPerMinute(ms / 0.3048 * 60), 50);

    private static Amount Gravities(double ms2) => new(Acceleration.FromMetersPerSecondSquared(ms2), 0.001);
}
