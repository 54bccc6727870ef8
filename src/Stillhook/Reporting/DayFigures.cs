using System.Globalization;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Reporting;

/// <summary>The figures of a day sheet with their working.</summary>
internal static class DayFigures
{
    public static FigureBook Of(DayWork work, PolicyInForce policy, LiftTotals totals, FuelUse fuel, TimeSplit? time, IReadOnlyList<BreakClock> breaks, IReadOnlyList<PartTally> parts, CrewExposure exposure)
    {
        FigureBook book = new();
        (Figure lifts, Figure flown) = Totals(book, work, totals);
        Fuel(book, fuel, lifts, flown);
        Time(book, work, time);
        foreach (BreakClock clock in breaks)
            Break(book, clock, policy);
        HashSet<string> used = [];
        foreach (PartTally part in parts)
            Part(book, part, FigureKey.Unique(part.Part.Name, used), lifts, flown);
        if (exposure.Seconds is { } seconds)
            book.Add(new("day.overPeople", "time with a load over people", Seconds(seconds), "sum over the lifts of which it is known",
                [Kept("lifts of which it is known", exposure.LiftsKnown, "lifts"), Kept("lifts of which it is not", exposure.LiftsUnknown, "lifts")], CheckItem.CommonPractice, "the aim is none"));
        return book;
    }

    private static (Figure Lifts, Figure Flown) Totals(FigureBook book, DayWork work, LiftTotals totals)
    {
        Figure lifts = book.Add(new("day.lifts", "lifts", Amount.Number(totals.Lifts, 1), "lifts kept less those struck out",
            [Kept("lifts kept", work.Lifts.Count, "lifts"), Kept("struck out", work.Lifts.Count(l => l.StruckOut), "lifts"), Kept("of these added by hand", work.Lifts.Count(l => l is { AddedByHand: true, StruckOut: false }), "lifts")], CheckItem.CommonPractice));
        Figure flown = book.Add(new("day.flown", "time in the air", Amount.Minutes(totals.FlownS / 60), "stretches in the air of all flights, counted once where records overlap", [Kept("flights", work.Flights.Count, "flights")], CheckItem.CommonPractice));
        book.Add(new("day.carried", "mass carried", Amount.Kilograms(totals.CarriedKg), "sum of the loads of known mass",
            [Kept("loads measured in flight", totals.LiftsMeasured, "lifts"), Kept("loads by the list", totals.LiftsWithMass - totals.LiftsMeasured, "lifts")], CheckItem.CommonPractice,
            totals.LiftsWithMass < totals.Lifts ? string.Create(CultureInfo.InvariantCulture, $"without {totals.Lifts - totals.LiftsWithMass} lifts of unknown mass") : ""));
        if (totals.PerHour is { } pace)
            book.Add(new("day.liftsPerHour", "lifts per hour flown", Amount.Number(pace, 0.1), "lifts over time in the air", [FigureBook.Of(lifts), FigureBook.Of(flown)], "FAA-AD-2007-01-05", "a count for maintenance"));
        if (totals.Pace.Where(p => p.OfLastLifts is not null).MaxBy(p => p.OfLastLifts) is { } most)
            book.Add(new("day.liftsPerHour.window", "most lifts per hour over the window", Amount.Number(most.OfLastLifts!.Value, 0.1), "largest of: lifts in the window over the time flown in it",
                [new("lifts in the window", Amount.Number(totals.WindowLifts, 1), InputFrom.Default, "rules.paceLifts"), Kept("reached at lift", most.Lift.Number, "lifts")], "FAA-AD-2007-01-05", "a count for maintenance"));
        return (lifts, flown);
    }

    private static void Fuel(FigureBook book, FuelUse fuel, Figure lifts, Figure flown)
    {
        if (fuel.UsedKg is not { } kg)
            return;
        string note = fuel.Lifts < Number(lifts) || fuel.UnknownFlownS >= 60 ? "readings cover part of the day only" : "";
        Figure used = book.Add(new("day.fuel", "fuel used", Amount.Kilograms(kg), "first reading + taken on − last reading, stretch by stretch",
            [.. fuel.Legs.Select((l, i) => new FigureInput(string.Create(CultureInfo.InvariantCulture, $"stretch {i + 1}: {l.FromKg:0.#} kg + {l.TakenOnKg:0.#} kg − {l.ToKg:0.#} kg"), Amount.Kilograms(l.UsedKg), InputFrom.Kept, "fuel"))], CheckItem.CommonPractice, note));
        if (fuel.PerLiftKg is { } each)
            book.Add(new("day.fuelPerLift", "fuel per lift", new(Mass.FromKilograms(each), 0.1), "fuel used over the lifts between its readings", [FigureBook.Of(used), Kept("lifts between the readings", fuel.Lifts, "lifts")], CheckItem.CommonPractice, note));
        if (fuel.PerHourKg is { } hourly)
            book.Add(new("day.fuelPerHour", "fuel per hour flown", new(MassFlow.FromKilogramsPerHour(hourly), 1), "fuel used over the time in the air between its readings", [FigureBook.Of(used), new("time in the air between the readings", Amount.Minutes(fuel.FlownS / 60), InputFrom.Kept, "flights"), FigureBook.Of(flown)], CheckItem.CommonPractice, "ground running is in it"));
    }

    private static void Time(FigureBook book, DayWork work, TimeSplit? time)
    {
        foreach (TimeUse use in time is null ? [] : Enum.GetValues<TimeUse>())
            book.Add(new($"day.time.{FigureKey.Part(TimeSplit.UseWords(use))}", $"time: {TimeSplit.UseWords(use)}", new(Duration.FromMinutes(time!.Minutes[use]), 1), "stretches of this use; whole minutes by largest remainder, so that all uses add up to the day",
                [new("to the second", new(Duration.FromSeconds(time.Seconds[use]), 1), InputFrom.Kept, use == TimeUse.Flown ? "flights" : "time marks"), new("the whole day", new(Duration.FromMinutes(time.TotalMinutes), 1), InputFrom.Kept, "duty, flights and time marks"), Kept("marks", work.TimeMarks.Count(m => m.Use == use), "time marks")],
                CheckItem.CommonPractice, use == TimeUse.Other && time.UnmarkedS > 0 ? string.Create(CultureInfo.InvariantCulture, $"{time.UnmarkedS / 60:0} min of it nobody marked") : ""));
    }

    private static void Break(FigureBook book, BreakClock clock, PolicyInForce policy) => book.Add(new($"day.sinceBreak.{FigureKey.Part(clock.Pilot ?? "pilot")}", $"most flown without a break, {clock.Pilot ?? "pilot not named"}", Amount.Minutes(clock.LongestS / 60),
        "time in the air between breaks; hot refuelling is no break",
        [Chosen("flying after which a break is due", policy.BreakAfterMinutes), Chosen("length of a break", policy.BreakMinutes), Kept("breaks that count", clock.Breaks.Count, "time marks")], "BARS"));

    private static void Part(FigureBook book, PartTally part, string key, Figure lifts, Figure flown)
    {
        book.Add(new($"part.{key}.lifts", $"lifts to date, {part.Part.Name}", Amount.Number(part.LiftsToDate, 1), "before this day + this day", [Kept("before this day", part.Part.Cycles, "parts"), FigureBook.Of(lifts, "this day")], CheckItem.CommonPractice, "every lift of the day is counted"));
        book.Add(new($"part.{key}.hours", $"time in use to date, {part.Part.Name}", new(Duration.FromHours(part.HoursToDate), 0.1), "before this day + this day",
            [new("before this day", new(Duration.FromHours(part.Part.HoursInUse), 0.1), InputFrom.Kept, "parts"), FigureBook.Of(flown, "this day")], CheckItem.CommonPractice, "all time in the air is counted"));
    }

    private static FigureInput Kept(string name, double count, string where) => new(name, Amount.Number(count, 1), InputFrom.Kept, where);

    private static FigureInput Chosen(string name, Chosen<double> minutes) => new(name, Amount.Minutes(minutes.Value), minutes.From, minutes.Where);

    private static Amount Seconds(double s) => new(Duration.FromSeconds(s), 1);

    private static double Number(Figure figure) => ((Scalar)figure.Value.Quantity).Amount;
}
