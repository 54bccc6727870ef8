using System.ComponentModel;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Files.Reports;

/// <summary>The customer's report for machines. Keys carry their unit; null means not known; times are ISO 8601 by the sites' own clock, to the second.</summary>
public sealed record CustomerReportDocument(
    [property: Description("Always stillhook-report.")] string Schema,
    [property: Description("Rises when a key changes its meaning or goes away.")] int Version,
    string? Job,
    string? Customer,
    IReadOnlyList<string> Aircraft,
    [property: Description("Days of work, in order.")] IReadOnlyList<DateOnly> Days,
    [property: Description("Last moment that the report knows of.")] DateTimeOffset UpTo,
    [property: Description("To be shown wherever a figure of this report is shown.")] IReadOnlyList<string> Cautions,
    ReportTotalsDocument Totals,
    IReadOnlyList<ReportSiteDocument> Sites,
    [property: Description("Loads that stand where they were left, in order of time.")] IReadOnlyList<PlacedLoadDocument> Placed,
    IReadOnlyList<LoadNotPlacedDocument> NotPlaced,
    [property: Description("Every stop of a minute or more.")] IReadOnlyList<WorkStopDocument> Stops,
    [property: Description("Minutes stopped by cause; every cause is there.")] IReadOnlyList<StandbyDocument> Standby,
    IReadOnlyList<HourCountDocument> LoadsByHour,
    [property: Description("A draft, without taxes.")] InvoiceDocument Invoice,
    [property: Description("What a reader must know of the figures.")] IReadOnlyList<string> Remarks);

/// <summary>Sums of a report.</summary>
public sealed record ReportTotalsDocument(
    [property: Description("Loads on the list.")] int Planned, int PlacedOfPlanned, int NotOnList, [property: Description("As far as masses are known.")] double MassKg, int WithoutMass, [property: Description("Time in the air.")] double FlightTimeS);

/// <summary>A site.</summary>
public sealed record ReportSiteDocument(string Name, [property: Description("pickUp, delivery or base.")] string Use, double LatitudeDeg, double LongitudeDeg, int LoadsPlaced);

/// <summary>A load where it was left.</summary>
public sealed record PlacedLoadDocument(
    string? Load, string? Name, double? MassKg, [property: Description("loadCell, weighed, label, estimated, crew or notKnown.")] string MassKnownBy, DateTimeOffset? PlacedAt, string? Site,
    [property: Description("Where the aircraft's recorder stood as it touched: some metres off, not a survey.")] double? LatitudeDeg, double? LongitudeDeg, bool OnLoadList);

/// <summary>A load of the list that was not placed.</summary>
public sealed record LoadNotPlacedDocument(string Load, string? Name, double MassKg, string? Site, string? Why);

/// <summary>A stop of the work, in whole minutes of the clock.</summary>
public sealed record WorkStopDocument(DateTimeOffset From, DateTimeOffset To, int Minutes, [property: Description("waitingOnCustomer, weather, fuel, defect or other.")] string Cause, bool IsBreak, bool Marked, string? Note);

/// <summary>Time lost to one cause.</summary>
public sealed record StandbyDocument(string Cause, int Minutes, int Stops);

/// <summary>Loads placed in a clock hour.</summary>
public sealed record HourCountDocument(DateTimeOffset Hour, int Loads);

/// <summary>Invoice lines, a draft.</summary>
public sealed record InvoiceDocument(string? Currency, IReadOnlyList<InvoiceLineDocument> Lines, [property: Description("Sum of the lines with an amount.")] decimal? Total);

/// <summary>A line of an invoice.</summary>
public sealed record InvoiceLineDocument([property: Description("flightHours, fuel, fixedPrice or waitingOnCustomer.")] string Kind, string Text, decimal? Quantity, string Unit, decimal? UnitPrice, decimal? Amount);
