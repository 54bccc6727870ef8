using System.Globalization;
using Stillhook.Planning;

namespace Stillhook.Reporting.Printing;

/// <summary>Words of the day sheet, the same in text and on paper and under every culture.</summary>
public static class DayWords
{
    /// <summary>A mass in tonnes to the tenth.</summary>
    public static string Tonnes(double kg) => string.Create(CultureInfo.InvariantCulture, $"{kg / 1000:0.0} t");

    /// <summary>A time in hours to the tenth.</summary>
    public static string Hours(double s) => string.Create(CultureInfo.InvariantCulture, $"{s / 3600:0.0} h");

    /// <summary>When a break fell due and whether it was taken.</summary>
    public static string Due(DayWork work, BreakDue due)
    {
        ArgumentNullException.ThrowIfNull(due);
        return $"Break due at {DayText.Clock(work, due.DueAtS)}{(due.TakenAtS is { } taken ? $", taken at {DayText.Clock(work, taken)}" : ", not taken")}.";
    }

    /// <summary>What three counts say of the day's lifts.</summary>
    public static string Counts(Reconciliation r)
    {
        ArgumentNullException.ThrowIfNull(r);
        return string.Create(CultureInfo.InvariantCulture, $"Plan {r.Planned}, crew tally {r.Tallied}, record {r.Recorded}");
    }

    /// <summary>That lifts stand against the list by turn alone; null where none does.</summary>
    public static string? ByTurn(Reconciliation r)
    {
        ArgumentNullException.ThrowIfNull(r);
        return r.ByTurn == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"No load number is told all day: {r.ByTurn} {(r.ByTurn == 1 ? "lift is" : "lifts are")} counted against the list by turn, and which load each was can't be told. Enter the numbers in the tally, or correct the lifts.");
    }

    /// <summary>What came of a check.</summary>
    public static string Of(CheckItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Colour switch { CheckColour.Green => "in order", CheckColour.Amber => "to confirm", _ => "LOOK AT" };
    }

    /// <summary>A kind of part in words.</summary>
    public static string Of(PartKind kind) => kind switch
    {
        PartKind.CargoHook => "cargo hook",
        PartKind.RemoteHook => "remote hook",
        PartKind.WireRopeSling => "wire rope sling",
        PartKind.ChainSling => "chain sling",
        PartKind.TextileSling => "textile sling",
        _ => kind.ToString().ToLowerInvariant(),
    };

    /// <summary>How a lift's mass is known.</summary>
    public static string MassBy(KeptLift lift)
    {
        ArgumentNullException.ThrowIfNull(lift);
        return lift.LoadKg is null ? "-" : lift.LoadMeasured ? "load cell" : "list";
    }

    /// <summary>What a person said of a lift that the record does not show.</summary>
    public static string Remark(KeptLift lift)
    {
        ArgumentNullException.ThrowIfNull(lift);
        return lift.StruckOut ? "struck out, counts nowhere" : lift.AddedByHand ? "added by hand" : lift.Confidence == Debriefing.Confidence.Low ? "found with low confidence" : "";
    }
}
