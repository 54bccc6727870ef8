using System.Globalization;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Reporting.Printing;

/// <summary>Figures of a report as people read them, the same under every culture.</summary>
public static class ReportWords
{
    /// <summary>Shown for what is not known.</summary>
    public const string NotKnown = "not known";

    /// <summary>A mass to the whole kg or lb, without its unit.</summary>
    public static string Mass(double? massKg, ShownUnits units) => massKg is { } kg ? Number(units == ShownUnits.Lb ? UnitsNet.Mass.FromKilograms(kg).Pounds : kg, 0) : NotKnown;

    /// <summary>The unit of masses.</summary>
    public static string MassUnit(ShownUnits units) => units == ShownUnits.Lb ? "lb" : "kg";

    /// <summary>A sum of masses: t to the hundredth, or lb.</summary>
    public static string SumOfMasses(double massKg, ShownUnits units) => units == ShownUnits.Lb ? Mass(massKg, units) + " lb" : Number(massKg / 1000, 2) + " t";

    /// <summary>How a mass is known, in words.</summary>
    public static string Of(PlacedMassBy by) => by switch
    {
        PlacedMassBy.LoadCell => "load cell",
        PlacedMassBy.Weighed => "weighed",
        PlacedMassBy.Label => "label",
        PlacedMassBy.Estimated => "estimated",
        PlacedMassBy.Crew => "crew's note",
        _ => "-",
    };

    /// <summary>A cause of a stop.</summary>
    public static string Of(TimeUse cause) => cause switch
    {
        TimeUse.Flown => "In the air",
        TimeUse.WaitingOnCustomer => "Waiting for the customer",
        TimeUse.Weather => "Weather",
        TimeUse.Fuel => "Fuelling",
        TimeUse.Defect => "Aircraft or rigging not serviceable",
        _ => "Other work, breaks, not noted",
    };

    /// <summary>A length of time: 3 h 07 min.</summary>
    public static string Time(double seconds)
    {
        long minutes = (long)Math.Round(seconds / 60, MidpointRounding.AwayFromZero);
        return minutes < 60 ? string.Create(CultureInfo.InvariantCulture, $"{minutes} min") : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60:00} min");
    }

    /// <summary>A calendar day: 2026-06-01.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A latitude or longitude to a hundred-thousandth of a degree, about a metre.</summary>
    public static string Degrees(double degrees) => Number(degrees, 5);

    /// <summary>A number with so many decimals.</summary>
    public static string Number(double value, int decimals) => (Math.Round(value, decimals) + 0.0).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>An amount of money to the hundredth.</summary>
    public static string Money(decimal amount) => amount.ToString("F2", CultureInfo.InvariantCulture);
}
