using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>What an invoice line is for.</summary>
public enum ChargeKind
{
    /// <summary>Time in the air.</summary>
    FlightHours,

    /// <summary>Fuel.</summary>
    Fuel,

    /// <summary>Fixed price of the day.</summary>
    FixedPrice,

    /// <summary>Ready, and the customer was not.</summary>
    WaitingOnCustomer,
}

/// <summary>A line of an invoice.</summary>
/// <param name="Kind">What for.</param>
/// <param name="Text">The same in words.</param>
/// <param name="Quantity">How many units; null when it is not known.</param>
/// <param name="Unit">h, kg or day.</param>
/// <param name="UnitPrice">Price of one; null when none was entered.</param>
public sealed record InvoiceLine(ChargeKind Kind, string Text, decimal? Quantity, string Unit, decimal? UnitPrice)
{
    /// <summary>Quantity as shown times price, to two decimals, half away from zero; null when either is missing.</summary>
    public decimal? Amount => Quantity is { } q && UnitPrice is { } p ? Math.Round(q * p, 2, MidpointRounding.AwayFromZero) : null;
}

/// <summary>Invoice lines, without taxes; a draft for the office, not an invoice.</summary>
/// <remarks>
/// Stops for weather, fuel, defects and breaks make no line: a crew that is paid for pressing on is under the wrong pressure. Waiting for the customer is listed
/// without a price, because the job file holds none.
/// </remarks>
/// <param name="Currency">Currency as entered; null when none was.</param>
/// <param name="Lines">Lines.</param>
public sealed record InvoiceDraft(string? Currency, IReadOnlyList<InvoiceLine> Lines)
{
    /// <summary>Sum of the lines that have an amount; null when none has.</summary>
    public decimal? Total => Lines.Any(l => l.Amount is not null) ? Lines.Sum(l => l.Amount ?? 0) : null;

    /// <summary>Lines with a quantity and no amount: to be agreed.</summary>
    public IEnumerable<InvoiceLine> ToAgree => Lines.Where(l => l.Amount is null && l.Quantity is not 0);

    internal static InvoiceDraft Of(IReadOnlyList<FuelUse> fuelByDay, QuoteBasis? basis, double flightTimeS, int waitingMinutes)
    {
        List<InvoiceLine> lines = [new(ChargeKind.FlightHours, "Flight time", Hours(flightTimeS), "h", Price(basis?.PricePerHour))];
        double? fuelKg = fuelByDay.Select(Fuel).Aggregate((double?)0, (sum, day) => sum + day);
        if (fuelKg is not null || basis?.FuelPricePerKg is not null)
            lines.Add(new(ChargeKind.Fuel, "Fuel", fuelKg is { } kg ? (decimal)Math.Round(kg) : null, "kg", Price(basis?.FuelPricePerKg)));
        if (basis?.FixedPrice is { } fixedPrice)
            lines.Add(new(ChargeKind.FixedPrice, "Fixed price of a day", fuelByDay.Count, "day", Price(fixedPrice)));
        lines.Add(new(ChargeKind.WaitingOnCustomer, "Waiting for the customer", Hours(60.0 * waitingMinutes), "h", null));
        return new(string.IsNullOrWhiteSpace(basis?.Currency) ? null : basis.Currency.Trim(), lines);
    }

    // Without two gauge readings what was taken on is charged; a day with neither leaves the sum unknown.
    private static double? Fuel(FuelUse day) => day.UsedKg ?? (day.TakenOnKg > 0 ? day.TakenOnKg : null);

    // To a hundredth of an hour, 36 s: the step that is shown and multiplied.
    private static decimal Hours(double seconds) => Math.Round((decimal)seconds / 3600, 2, MidpointRounding.AwayFromZero);

    private static decimal? Price(double? price) => price is { } p && double.IsFinite(p) ? (decimal)p : null;
}
