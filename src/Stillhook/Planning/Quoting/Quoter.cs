using System.Globalization;
using UnitsNet;
using UnitsNet.Units;

namespace Stillhook.Planning.Quoting;

/// <summary>Hours, fuel and cost of the work as low, likely and high: 10th, 50th and 90th percentile.</summary>
/// <remarks>The only doubt carried through is that of the rotation time; stops, breaks, burn and prices are taken as entered. docs/method/papers-and-quote.md.</remarks>
public static class Quoter
{
    private const double HourStep = 0.05, FuelStepKg = 5;

    /// <summary>Works out the quote; what can't be worked out is null and said in the items.</summary>
    public static Quote Quote(QuoteBasis basis, QuotedDay day)
    {
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(day);
        List<CheckItem> items = [];
        PlanValue<int>? lifts = day.Lifts ?? FromFile(basis.Lifts, "quote.lifts");
        RotationGiven? rotation = RotationGiven.From(basis, day);
        if (lifts is null)
            items.Add(Missing("quote-lifts", "quote.lifts", "No load list and no number of lifts: nothing to quote."));
        if (rotation is null)
            items.Add(Missing("quote-cycle", "quote.cycle", "No time of a rotation, measured or planned: nothing to quote."));
        if (lifts is null || rotation is null)
            return new(null, null, null, null, items);

        RotationTime rotations = RotationTime.Of(lifts.Value, rotation);
        items.AddRange(Assumed(rotation));
        if (day.Measured is { } kept)
            items.Add(rotation.Kept is null ? Beside(kept, rotation.Mean.Value) : new(CheckVerdict.Passes, "quote-measured", "quote.cycle", "quote", $"The rotation is as flown: {Words(kept)}.", CheckItem.CommonPractice));
        QuoteRange flight = FlightTime(rotations, basis);
        QuoteRange? fuel = day.Burn is { } burn ? Fuel(flight, burn) : null;
        if (fuel is null)
            items.Add(Missing("quote-burn", "aircraft.fuel", "No burn is known: fuel is not quoted."));
        if (basis.PricePerHour is null)
            items.Add(Missing("quote-price", "quote.pricePerHour", "No price of a flight hour: cost is not quoted."));
        if (basis.PricePerHour is not null && basis.FuelPricePerKg is not null && fuel is null)
            items.Add(Missing("quote-fuel-cost", "aircraft.fuel", "The cost is without fuel: no burn is known."));
        return new(flight, OnSite(flight, day), fuel, basis.PricePerHour is { } price ? Cost(flight, fuel, price, basis) : null, items);
    }

    private static QuoteRange FlightTime(RotationTime rotations, QuoteBasis basis)
    {
        double ferryS = basis.Ferry?.Seconds ?? 0;
        FigureInput ferry = basis.Ferry is null
            ? new("ferry, not entered and counted as nothing", Hours(0), InputFrom.Default, "quote.ferry")
            : new("ferry there and back", Hours(ferryS), InputFrom.JobFile, "quote.ferry");
        return Range("quote.flight", "Flight time", side => Hours(Math.Max(0, rotations.MeanS + side * rotations.ToPercentileS) + ferryS), rotations.Formula + " + ferry",
            _ => [.. rotations.Inputs, ferry], rotations.Source, rotations.Note);
    }

    private static QuoteRange OnSite(QuoteRange flight, QuotedDay day)
    {
        double stopsS = Stops(day.Refuels, day.RefuelStop) + Stops(day.Breaks, day.BreakLength);
        FigureInput[] stops =
        [
            Count("refuelling stops", day.Refuels, "day"), Length("length of a refuelling stop", day.RefuelStop, "day.refuelStop"),
            Count("breaks", day.Breaks, "policy.breakAfter"), Length("length of a break", day.BreakLength, "policy.break"),
        ];
        return Range("quote.onsite", "Time with refuelling and breaks", side => Hours(Seconds(Of(flight, side)) + stopsS),
            "flight time + refuelling stops x their length + breaks x their length", side => [Input("flight time", Of(flight, side)), .. stops], CheckItem.CommonPractice,
            "Waiting for weather or customer is not in it.");
    }

    private static QuoteRange Fuel(QuoteRange flight, PlanValue<MassFlow> burn) =>
        Range("quote.fuel", "Fuel", side => new(Mass.FromKilograms(Seconds(Of(flight, side)) / 3600 * burn.Value.KilogramsPerHour), FuelStepKg), "flight time x mean burn",
            side => [Input("flight time", Of(flight, side)), new("mean burn", new(burn.Value, 1), burn.From, burn.Where)], CheckItem.CommonPractice, "Fuel burnt on the ground during stops is not in it.");

    private static QuoteRange Cost(QuoteRange flight, QuoteRange? fuel, double pricePerHour, QuoteBasis basis)
    {
        double fuelPrice = fuel is null ? 0 : basis.FuelPricePerKg ?? 0, fixedPrice = basis.FixedPrice ?? 0;
        IReadOnlyList<FigureInput> Inputs(int side)
        {
            List<FigureInput> inputs = [Input("flight time", Of(flight, side)), new("price of a flight hour", Amount.Number(pricePerHour), InputFrom.JobFile, "quote.pricePerHour")];
            if (fuel is not null)
                inputs.AddRange([Input("fuel", Of(fuel, side)), Price("price of fuel per kg", basis.FuelPricePerKg, "quote.fuelPricePerKg")]);
            inputs.Add(Price("fixed price", basis.FixedPrice, "quote.fixedPrice"));
            return inputs;
        }

        double At(int side) => Seconds(Of(flight, side)) / 3600 * pricePerHour + (fuel is null ? 0 : Kilograms(Of(fuel, side)) * fuelPrice) + fixedPrice;
        string name = string.IsNullOrWhiteSpace(basis.Currency) ? "Cost" : $"Cost, {basis.Currency}";
        return Range("quote.cost", name, side => Amount.Number(At(side), ThreeDigits(At(side))), "flight time x price of the hour + fuel x its price + fixed price", Inputs, CheckItem.CommonPractice,
            "Stops and waiting are not charged in it.");
    }

    private static double ThreeDigits(double value) => value > 0 ? Math.Pow(10, Math.Floor(Math.Log10(value)) - 2) : 1;

    private static QuoteRange Range(string key, string name, Func<int, Amount> at, string formula, Func<int, IReadOnlyList<FigureInput>> inputs, string source, string note)
    {
        Figure Side(int side, string word) => new($"{key}.{word}", $"{name}, {word}", at(side), formula, inputs(side), source, note);
        return new(Side(-1, "low"), Side(0, "likely"), Side(1, "high"));
    }

    private static IEnumerable<CheckItem> Assumed(RotationGiven rotation)
    {
        if (rotation.Spread is null)
            yield return Missing("quote-spread", "quote.cycleSpread", "No spread of the rotation time is entered: a fifth of it is taken.");
        if (!rotation.IsMeasured)
            yield return Missing("quote-estimate", "quote.measuredOn", "The rotation time is an estimate: measured rotations would narrow the range.");
    }

    /// <summary>What was entered as measured stands; that it differs from what is kept is said.</summary>
    private static CheckItem Beside(MeasuredRotation kept, Duration entered) => new(Math.Abs(kept.Mean.Seconds - entered.Seconds) > kept.Spread.Seconds ? CheckVerdict.ToConfirm : CheckVerdict.Passes, "quote-kept", "quote.cycle", "quote",
        string.Create(CultureInfo.InvariantCulture, $"The entered rotation of {entered.Seconds:0} s is used; as flown it is {Words(kept)}. Take quote.measuredOn out to use that."), CheckItem.CommonPractice);

    private static string Words(MeasuredRotation kept) => string.Create(CultureInfo.InvariantCulture,
        $"{kept.Mean.Seconds:0} s, spread {kept.Spread.Seconds:0} s, {kept.Rotations} rotations on {kept.Days} day{(kept.Days == 1 ? "" : "s")} ({string.Join("; ", kept.Legs)})");

    private static CheckItem Missing(string code, string path, string text) => new(CheckVerdict.ToConfirm, code, path, "quote", text, CheckItem.CommonPractice);

    private static PlanValue<T>? FromFile<T>(T? value, string path)
        where T : struct => value is { } given ? new(given, InputFrom.JobFile, path) : null;

    private static double Stops(PlanValue<int>? count, PlanValue<Duration>? length) => (count?.Value ?? 0) * (length?.Value.Seconds ?? 0);

    private static FigureInput Count(string name, PlanValue<int>? count, string path) => count is { } given
        ? new(name, Amount.Number(given.Value, 1), given.From, given.Where)
        : new(name + ", not worked out and counted as none", Amount.Number(0, 1), InputFrom.Default, path);

    private static FigureInput Length(string name, PlanValue<Duration>? length, string path) => length is { } given
        ? new(name, Amount.Minutes(given.Value.Minutes), given.From, given.Where)
        : new(name + ", not entered", Amount.Minutes(0), InputFrom.Default, path);

    private static FigureInput Price(string name, double? price, string path) => price is { } given
        ? new(name, Amount.Number(given), InputFrom.JobFile, path)
        : new(name + ", not entered and counted as nothing", Amount.Number(0), InputFrom.Default, path);

    private static FigureInput Input(string name, Figure figure) => new(name, figure.Value, InputFrom.Figure, figure.Key);

    private static Figure Of(QuoteRange range, int side) => side < 0 ? range.Low : side > 0 ? range.High : range.Likely;

    private static double Seconds(Figure figure) => (double)figure.Value.Quantity.As(DurationUnit.Second);

    private static double Kilograms(Figure figure) => (double)figure.Value.Quantity.As(MassUnit.Kilogram);

    private static Amount Hours(double seconds) => new(Duration.FromHours(seconds / 3600), HourStep);
}
