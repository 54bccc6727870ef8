using Stillhook.Planning;
using Stillhook.Planning.Rechecking;

namespace Stillhook.Reporting;

/// <summary>All that is kept of one working day of one aircraft: what was planned, what the crew tallied and marked, what the records show. Times are s since 1970 UTC.</summary>
public sealed record DayWork
{
    /// <summary>The day, in the sites' time zone.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The job of the day; null when none was entered.</summary>
    public LiftRequest? Job { get; init; }

    /// <summary>From s since 1970 UTC to the sites' own clock; UTC when no time zone is known.</summary>
    public Func<double, DateTimeOffset> Clock { get; init; } = timeS => DateTimeOffset.UnixEpoch.AddSeconds(timeS);

    /// <summary>Flights in order of time.</summary>
    public IReadOnlyList<KeptFlight> Flights { get; init; } = [];

    /// <summary>Lifts of all flights in order of time.</summary>
    public IReadOnlyList<KeptLift> Lifts { get; init; } = [];

    /// <summary>The crew's tally in the order written.</summary>
    public IReadOnlyList<TallyEntry> Tally { get; init; } = [];

    /// <summary>What time on the ground was for, as the crew says.</summary>
    public IReadOnlyList<TimeMark> TimeMarks { get; init; } = [];

    /// <summary>Events that somebody marked.</summary>
    public IReadOnlyList<EventMark> Events { get; init; } = [];

    /// <summary>Gauge readings and fuel taken on.</summary>
    public IReadOnlyList<FuelEntry> Fuel { get; init; } = [];

    /// <summary>Setting, temperature and wind as read during the day.</summary>
    public IReadOnlyList<AirReading> Readings { get; init; } = [];

    /// <summary>Checks that were offered, and taken or put aside.</summary>
    public IReadOnlyList<RecheckMark> Rechecks { get; init; } = [];

    /// <summary>Parts with their cycles and hours before this day.</summary>
    public IReadOnlyList<PartCount> Parts { get; init; } = [];

    /// <summary>Who was on duty and when.</summary>
    public IReadOnlyList<DutySpell> Duty { get; init; } = [];

    /// <summary>Duty of the day before, on any aircraft: rest is counted from its end.</summary>
    public IReadOnlyList<DutySpell> DutyBefore { get; init; } = [];

    /// <summary>What people changed in the day's lifts; the lifts above hold the changed values.</summary>
    public IReadOnlyList<Correction> Corrections { get; init; } = [];
}

/// <summary>A stretch of time, s since 1970 UTC.</summary>
public readonly record struct Stretch(double FromS, double ToS)
{
    /// <summary>Length, s.</summary>
    public double LengthS => ToS - FromS;
}

/// <summary>One flight of a day.</summary>
/// <param name="Id">Its number in the store; 0 before it is kept.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Recorded">First to last fix.</param>
/// <param name="Airborne">Stretches in the air.</param>
/// <param name="Exceedances">Recorded values beyond an entered limit.</param>
/// <param name="Pilot">Who flew; null when not told.</param>
/// <param name="Aircraft">Aircraft's name; null when not told.</param>
public sealed record KeptFlight(long Id, string Name, Stretch Recorded, IReadOnlyList<Stretch> Airborne, IReadOnlyList<Exceedance> Exceedances, string? Pilot, string? Aircraft);

/// <summary>A limit that a recorded value went beyond.</summary>
public enum LimitKind
{
    /// <summary>Torque, percent.</summary>
    Torque,

    /// <summary>Load on the cargo hook, kg.</summary>
    HookLoad,

    /// <summary>Load on the weakest rigging part, kg.</summary>
    RiggingLoad,
}

/// <summary>A recorded value beyond an entered limit.</summary>
/// <param name="Kind">Which limit.</param>
/// <param name="Limit">The limit as entered, %, or kg.</param>
/// <param name="Peak">Largest value, %, or kg.</param>
/// <param name="AtS">Time of the largest value.</param>
/// <param name="DurationS">How long it stood beyond the limit, s.</param>
public sealed record Exceedance(LimitKind Kind, double Limit, double Peak, double AtS, double DurationS);

/// <summary>One line of the crew's tally.</summary>
/// <param name="Number">Its number on the sheet, from 1.</param>
/// <param name="AtS">Time of the delivery as written; null when none was.</param>
/// <param name="LoadNumber">Number of the load; null when not written.</param>
/// <param name="LoadKg">Mass as written, kg.</param>
/// <param name="Note">Remark.</param>
public sealed record TallyEntry(int Number, double? AtS, string? LoadNumber, double? LoadKg, string? Note);

/// <summary>What a stretch of the day was for.</summary>
public enum TimeUse
{
    /// <summary>In the air.</summary>
    Flown,

    /// <summary>Ready, and the customer was not.</summary>
    WaitingOnCustomer,

    /// <summary>Weather.</summary>
    Weather,

    /// <summary>Fuelling.</summary>
    Fuel,

    /// <summary>Aircraft or rigging unserviceable.</summary>
    Defect,

    /// <summary>Anything else, breaks included, and what nobody marked.</summary>
    Other,
}

/// <summary>What the crew says a stretch was for.</summary>
/// <param name="When">The stretch.</param>
/// <param name="Use">What for.</param>
/// <param name="Note">Remark.</param>
/// <param name="IsBreak">The crew rested: engine off, nobody fuelling.</param>
public sealed record TimeMark(Stretch When, TimeUse Use, string? Note, bool IsBreak = false);

/// <summary>Events that somebody may have to report.</summary>
public enum EventKind
{
    /// <summary>The hook opened or the load fell without being meant to.</summary>
    UnplannedRelease,

    /// <summary>The load was dropped on purpose.</summary>
    Jettison,

    /// <summary>Load, line or hook caught.</summary>
    Snag,

    /// <summary>The aircraft did less than was expected of it.</summary>
    PerformanceShortfall,

    /// <summary>Somebody was hurt.</summary>
    Injury,

    /// <summary>Something was hit or broken.</summary>
    Damage,

    /// <summary>A moment marked with one touch, to be named afterwards: nobody has said yet what it was.</summary>
    TimeMark,
}

/// <summary>An event as somebody marked it.</summary>
/// <param name="AtS">When.</param>
/// <param name="Kind">What.</param>
/// <param name="Note">What was seen, in their words.</param>
public sealed record EventMark(double AtS, EventKind Kind, string? Note);

/// <summary>A gauge reading, or fuel taken on.</summary>
/// <param name="AtS">When.</param>
/// <param name="OnBoardKg">Gauge, kg; null when only fuel taken on was written.</param>
/// <param name="TakenOnKg">Taken on, kg; null when only the gauge was written.</param>
public sealed record FuelEntry(double AtS, double? OnBoardKg, double? TakenOnKg);

/// <summary>A part and its counts before the day.</summary>
/// <param name="Name">Name or number on the tag.</param>
/// <param name="Kind">Kind of part.</param>
/// <param name="Cycles">Lifts so far.</param>
/// <param name="HoursInUse">Flight time in use so far, h.</param>
public sealed record PartCount(string Name, PartKind Kind, long Cycles, double HoursInUse);

/// <summary>A change made by a person: the record stays as it was.</summary>
/// <param name="By">Who.</param>
/// <param name="At">When.</param>
/// <param name="Of">What was changed: lift number and member, such as "lift 3 loadKg".</param>
/// <param name="Old">As it was, in words with its unit.</param>
/// <param name="New">As it is now.</param>
/// <param name="Why">Reason, when one was given.</param>
public sealed record Correction(string By, DateTimeOffset At, string Of, string Old, string New, string? Why);
