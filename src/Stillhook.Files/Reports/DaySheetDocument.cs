using System.ComponentModel;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Files.Reports;

/// <summary>The day sheet for machines. Keys carry their unit; null means not known; times are ISO 8601 by the sites' own clock, to the second.</summary>
public sealed record DaySheetDocument(
    [property: Description("Always stillhook-day.")] string Schema,
    [property: Description("Rises when a key changes its meaning or goes away.")] int Version,
    DateOnly Day,
    string? Job,
    IReadOnlyList<string> Aircraft,
    [property: Description("To be shown wherever a figure of this sheet is shown.")] IReadOnlyList<string> Cautions,
    DayTotalsDocument Totals,
    [property: Description("Each lift that counts and has a time, in order, with the moving averages of lifts per hour flown: a count for maintenance.")] IReadOnlyList<PaceDocument> Pace,
    [property: Description("Recorded values beyond an entered limit: write up; maintenance decides.")] IReadOnlyList<WriteUpDocument> WriteUps,
    [property: Description("What may have to be reported: facts, no cause, nobody to blame.")] IReadOnlyList<PromptDocument> Prompts,
    ExposureDocument OverPeople,
    [property: Description("Flying against the break rule, one a pilot.")] IReadOnlyList<BreakDocument> Breaks,
    [property: Description("Breaks, flying, duty and rest against the rules, the worst first.")] IReadOnlyList<CheckDocument> Duty,
    ReconciliationDocument Reconciliation,
    IReadOnlyList<PartTallyDocument> Parts,
    [property: Description("Rules for which nobody keeps a count.")] IReadOnlyList<CheckDocument> PartsNotCounted,
    DayFuelDocument Fuel,
    [property: Description("null when no time of the day is known.")] DayTimeDocument? Time,
    [property: Description("All lifts kept, those struck out too.")] IReadOnlyList<KeptLiftDocument> Lifts,
    [property: Description("What people changed; the lifts above hold the changed values.")] IReadOnlyList<CorrectionDocument> Corrections,
    [property: Description("What was left out, is missing or contradicts itself.")] IReadOnlyList<DayFindingDocument> Findings,
    [property: Description("Every figure with its working.")] IReadOnlyList<FigureDocument> Figures);

/// <summary>Sums of the day.</summary>
public sealed record DayTotalsDocument(
    [property: Description("Lifts that count.")] int Lifts,
    int LiftsWithMass,
    [property: Description("Lifts whose mass was measured in flight.")] int LiftsMeasured,
    [property: Description("Sum of the known masses.")] double CarriedKg,
    [property: Description("Time in the air, records that overlap counted once.")] double FlownS,
    double? LiftsPerHourFlown,
    [property: Description("Lifts in the window of the moving average.")] int WindowLifts,
    [property: Description("Flown time in the window of the other.")] double WindowS);

/// <summary>How fast the lifting went when a lift was done.</summary>
public sealed record PaceDocument(long FlightId, int Lift, DateTimeOffset At, [property: Description("Flown that day until then.")] double FlownS, double? PerHourOverLastLifts, double? PerHourOverLastTime);

/// <summary>A recorded value beyond an entered limit.</summary>
public sealed record WriteUpDocument(
    [property: Description("torque (percent), hookLoad or riggingLoad (kg).")] string Kind, double Limit, double Peak, DateTimeOffset At, double DurationS, string Flight, int? Lift, string Facts,
    [property: Description("What to do about it.")] string Words);

/// <summary>Something that may have to be reported.</summary>
public sealed record PromptDocument(
    [property: Description("likelyReportable or askTheCrew.")] string Kind, string What, DateTimeOffset At, double? LatitudeDeg, double? LongitudeDeg,
    [property: Description("When somebody knew of it.")] DateTimeOffset? AwareAt, DateTimeOffset? ReportBy, IReadOnlyList<string> Facts, string Words);

/// <summary>Time with a load over people; the aim is none.</summary>
public sealed record ExposureDocument(double? Seconds, int LiftsKnown, int LiftsUnknown);

/// <summary>A pilot's flying against the break rule.</summary>
public sealed record BreakDocument(
    string? Pilot, double FlownS, [property: Description("Most flown without a break.")] double LongestS, double SinceBreakS, double BreakAfterS, double BreakS,
    IReadOnlyList<BreakDueDocument> Due,
    [property: Description("Breaks that count.")] IReadOnlyList<StretchDocument> Taken,
    [property: Description("On the ground as long as a break, not marked as one and not counted.")] IReadOnlyList<StretchDocument> NotMarked);

/// <summary>A break that fell due.</summary>
public sealed record BreakDueDocument(DateTimeOffset DueAt, DateTimeOffset? TakenAt, double FlownOverS);

/// <summary>A stretch of time.</summary>
public sealed record StretchDocument(DateTimeOffset From, DateTimeOffset To);

/// <summary>Plan, tally and record against each other.</summary>
public sealed record ReconciliationDocument(int Planned, int Tallied, int Recorded, [property: Description("Every entry of the three stands in exactly one row.")] IReadOnlyList<ReconciledDocument> Rows);

/// <summary>One lift as plan, tally and record know it.</summary>
public sealed record ReconciledDocument(
    string? Load, DateTimeOffset? At, bool InPlan, bool InTally, bool InRecord,
    [property: Description("nothing, loadNumber, time or order: what put them together.")] string MatchedBy,
    [property: Description("Tally and record agree about the time and not about the load.")] bool NumbersDiffer);

/// <summary>Counts of a part.</summary>
public sealed record PartTallyDocument(string Name, string Kind, long LiftsBefore, int LiftsThisDay, long LiftsToDate, double HoursBefore, double HoursThisDay, double HoursToDate, IReadOnlyList<CheckDocument> Rules);

/// <summary>Fuel between gauge readings.</summary>
public sealed record DayFuelDocument(double? UsedKg, double TakenOnKg, double? PerLiftKg, double? PerHourFlownKg, [property: Description("Flown outside the readings: its fuel is not known.")] double UnknownFlownS);

/// <summary>How the time went.</summary>
public sealed record DayTimeDocument(
    DateTimeOffset From, DateTimeOffset To, int TotalMin,
    [property: Description("Whole minutes of each use; they add up to the total.")] TimeUsesDocument Minutes,
    [property: Description("In order; they fill the day without gap or overlap.")] IReadOnlyList<TimeStretchDocument> Stretches);

/// <summary>Whole minutes of each use.</summary>
public sealed record TimeUsesDocument(int FlownMin, int WaitingOnCustomerMin, int WeatherMin, int FuelMin, int DefectMin, int OtherMin);

/// <summary>A stretch of the day.</summary>
public sealed record TimeStretchDocument(
    DateTimeOffset From, DateTimeOffset To, [property: Description("flown, waitingOnCustomer, weather, fuel, defect or other.")] string Use, [property: Description("False when nobody said.")] bool Marked, bool IsBreak, string? Note);

/// <summary>A lift as it is kept.</summary>
public sealed record KeptLiftDocument(
    long FlightId, int Lift, string? Load, string? Family, double? LoadKg, bool LoadMeasured, DateTimeOffset? PickedUpAt, DateTimeOffset? SetDownAt, DateTimeOffset? ReleasedAt, string? PickUpSite, string? DeliverySite,
    double? LatitudeDeg, double? LongitudeDeg, double? LineM, int ApproachesGivenUp, [property: Description("low, medium or high: how sure the finding is.")] string Confidence, bool StruckOut, bool AddedByHand);

/// <summary>A change made by a person.</summary>
public sealed record CorrectionDocument(string By, DateTimeOffset At, string Of, string Was, string Is, string? Why);

/// <summary>Something left out, missing or contradictory.</summary>
public sealed record DayFindingDocument(string Severity, string Code, long Count, string What, string Done);
