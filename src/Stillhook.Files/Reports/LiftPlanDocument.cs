using System.ComponentModel;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Files.Reports;

/// <summary>The lift plan for machines. Keys carry their unit; null means not given or not judged; clock times are the sites' own.</summary>
public sealed record LiftPlanDocument(
    [property: Description("Always stillhook-plan.")] string Schema,
    [property: Description("Rises when a key changes its meaning or goes away.")] int Version,
    string? Job,
    DateOnly? Date,
    string? TimeZone,
    [property: Description("To be shown wherever a figure of this plan is shown.")] IReadOnlyList<string> Cautions,
    [property: Description("What is wrong with or missing from the job; with an error nothing is planned.")] IReadOnlyList<FindingDocument> Findings,
    [property: Description("True when every load lifts.")] bool AllLift,
    IReadOnlyList<LoadDocument> Loads,
    OrderDocument? Order,
    [property: Description("The air and the day: what a person must look at before the figures can be trusted.")] IReadOnlyList<CheckDocument> Conditions,
    [property: Description("Every site at every clock hour that a load is hooked on in.")] IReadOnlyList<AirDocument> Air,
    IReadOnlyList<WireDocument> Wires,
    IReadOnlyList<CheckDocument> Papers,
    QuoteDocument? Quote,
    [property: Description("Interagency load calculation, when that method is chosen.")] IReadOnlyList<FormColumnDocument>? InteragencyForm,
    [property: Description("Largest error of the power model on chart points it was not shown, percent of mass.")] double? ModelErrorPercent,
    [property: Description("Defaults taken because nobody said; to be set by the operator.")] IReadOnlyList<InputDocument> Defaults,
    [property: Description("Every figure with its working.")] IReadOnlyList<FigureDocument> Figures);

/// <summary>A finding.</summary>
public sealed record FindingDocument(string Severity, string Code, string? Path, string What, string Mend);

/// <summary>The air at a site during a clock hour, of the aircraft with the load at the ground.</summary>
public sealed record AirDocument(string Site, string FromClock, double TemperatureC, double PressureAltitudeFt, double DensityAltitudeFt, double? HoverMassKg, double? GrossKg);

/// <summary>One load.</summary>
public sealed record LoadDocument(
    string Number,
    string? Name,
    [property: Description("lifts, doesNotLift or notJudged.")] string Verdict,
    string Why,
    [property: Description("Mass as entered.")] double MassKg,
    [property: Description("weighed, label or estimated.")] string HowKnown,
    [property: Description("Mass to plan for: entered and what it may be off.")] double NeedKg,
    [property: Description("What hangs on the hook besides the load.")] double KitKg,
    [property: Description("Most it may weigh, the worse of both sites, in its place of the order.")] double? AllowedKg,
    double? SpareKg,
    SitePayloadDocument? PickUp,
    SitePayloadDocument? Delivery,
    [property: Description("Place in the order, from 1.")] int? Position,
    [property: Description("First of its family: a proving lift.")] bool ProvingLift,
    [property: Description("Highest temperature at the governing site at which it still fits.")] double? FitsUpToC,
    [property: Description("The chart ends there; the load fits at its hottest column.")] bool? FitsToEndOfChart,
    [property: Description("Clock time at which the forecast passes that temperature.")] string? StopsFittingAt,
    IReadOnlyList<HoverDocument> Hover,
    IReadOnlyList<PartDocument> Rigging,
    string? WeakestPart,
    IReadOnlyList<CheckDocument> RiggingChecks,
    [property: Description("What would make it fit, within all limits.")] IReadOnlyList<string> Remedies);

/// <summary>The most a load may weigh at a site.</summary>
public sealed record SitePayloadDocument(
    string Site, string FromClock, string ToClock, double TemperatureC, double PressureAltitudeFt, double DensityAltitudeFt, double? HoverMassKg, double? GrossKg, double FuelKg, double? AllowedKg, string LimitedBy);

/// <summary>Power expected in the hover.</summary>
public sealed record HoverDocument(string Site, double GrossKg, double? ChartTorquePercent, double? ModelTorquePercent, double? ModelMarginPercent, bool InsideChart);

/// <summary>A part between hook and load.</summary>
public sealed record PartDocument(string Name, string Kind, double StaticLoadKg, double? LimitKg, double? UsePercent, string Verdict, string Reason);

/// <summary>Something that was checked.</summary>
public sealed record CheckDocument(string Verdict, string Code, string What, string Text, string Source);

/// <summary>A wire.</summary>
public sealed record WireDocument(string Site, string Wire, double NeededM, double? ClosestPlannedM, string Verdict, string Text);

/// <summary>Order, fuel and time line.</summary>
public sealed record OrderDocument(
    [property: Description("proven, bestFound, cutOff, searchOnly or given (set in the job file).")] string Verdict,
    [property: Description("Site with the fuel, where the day starts and ends.")] string Base,
    string BackAtBase,
    [property: Description("No order ends before this clock time under the same rules.")] string BoundClock,
    [property: Description("How much sooner the best order could be at most, percent of the working time.")] double GapPercent,
    double StartFuelKg, double EndFuelKg, double ReserveKg, double BurntKg, double FlyingMin, int Refuels,
    IReadOnlyList<StepDocument> Steps,
    IReadOnlyList<string> Notes);

/// <summary>One step of the time line.</summary>
public sealed record StepDocument(
    [property: Description("start, move, lift, refuel or break.")] string Kind,
    string FromClock, string ToClock, double FuelFromKg, double FuelToKg, string? From, string? To, string? Load, int? Position, double? NeedKg, double? SpareKg, bool? ProvingLift, string? Reason);

/// <summary>A quote as a range: one in ten is below low, one in ten above high.</summary>
public sealed record QuoteDocument(int Lifts, int Refuels, RangeDocument FlightHours, [property: Description("With refuelling stops and breaks.")] RangeDocument? OnSiteHours, RangeDocument? FuelKg, RangeDocument? Cost, string? Currency, [property: Description("What was assumed and what is missing.")] IReadOnlyList<CheckDocument> Assumed, string Caution);

/// <summary>Low, likely, high.</summary>
public sealed record RangeDocument(double Low, double Likely, double High);

/// <summary>A column of the interagency form.</summary>
public sealed record FormColumnDocument(string Name, double ComputedKg, double ReductionKg, double AdjustedKg, double LimitKg, double SelectedKg, double OperatingKg, double AllowableKg);

/// <summary>A figure with its working.</summary>
public sealed record FigureDocument(string Key, string Name, double Value, string Unit, string Formula, IReadOnlyList<InputDocument> Inputs, string Source, string Note);

/// <summary>An input of a figure.</summary>
public sealed record InputDocument(
    string Name, double Value, string Unit,
    [property: Description("jobFile, figure, default, typed or rule.")] string From,
    string Where,
    [property: Description("Line of the job file, where it came from there.")] long? Line);
