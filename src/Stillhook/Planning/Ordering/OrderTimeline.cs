namespace Stillhook.Planning.Ordering;

/// <summary>What a sequence comes to, minute by minute and kilogram by kilogram.</summary>
public sealed record OrderTimeline
{
    /// <summary>The steps in order; when a rule is broken, up to and with the step that breaks it.</summary>
    public required IReadOnlyList<OrderStep> Steps { get; init; }

    /// <summary>Clock minute back at base.</summary>
    public required double FinishMinute { get; init; }

    /// <summary>Fuel on board back at base, kg.</summary>
    public required double FinishFuelKg { get; init; }

    /// <summary>Minutes in the air, loaded, empty and at the hook; not those of refuelling and breaks.</summary>
    public required double FlyingMinutes { get; init; }

    /// <summary>Fuel burnt, kg.</summary>
    public required double BurntKg { get; init; }

    /// <summary>How often fuel is taken on after the start.</summary>
    public required int Refuels { get; init; }

    /// <summary>The first rule that is broken; null: none.</summary>
    public BrokenRule? Broken { get; init; }

    /// <summary>Every rule that is broken, where the sequence was followed past the first one.</summary>
    internal IReadOnlyList<BrokenRule> EveryBroken { get; init; } = [];
}

/// <summary>A rule that a sequence breaks.</summary>
/// <param name="Rule">Which.</param>
/// <param name="Position">At which lift, from 1; 0 before the first.</param>
/// <param name="Text">What is wrong, with the figures.</param>
public sealed record BrokenRule(OrderRule Rule, int Position, string Text);

/// <summary>The rules of an order.</summary>
public enum OrderRule
{
    /// <summary>Start fuel as given, or in whole steps.</summary>
    StartFuel,
    /// <summary>Uplift in whole steps.</summary>
    UpliftStep,
    /// <summary>Not more fuel than the tank takes.</summary>
    Tank,
    /// <summary>Base reached with the reserve.</summary>
    Reserve,
    /// <summary>Load need and fuel within the capacity of the hour.</summary>
    Capacity,
    /// <summary>Load need within hook, line and rigging.</summary>
    FixedMax,
    /// <summary>What must come before has been delivered.</summary>
    Precedence,
    /// <summary>Groups stay together.</summary>
    Grouping,
    /// <summary>Base reached before the break is overdue.</summary>
    BreakDue,
    /// <summary>Base reached before the latest end.</summary>
    LatestEnd,
    /// <summary>Every load at most once.</summary>
    LoadTwice,
}

/// <summary>Something that takes its place in the time line.</summary>
/// <param name="FromMinute">Clock minute of its beginning.</param>
/// <param name="ToMinute">Clock minute of its end.</param>
/// <param name="FuelFromKg">Fuel on board at its beginning, kg.</param>
/// <param name="FuelToKg">Fuel on board at its end, kg.</param>
public abstract record OrderStep(double FromMinute, double ToMinute, double FuelFromKg, double FuelToKg);

/// <summary>The day starts at base with this fuel.</summary>
public sealed record StartStep(double FromMinute, double FuelFromKg) : OrderStep(FromMinute, FromMinute, FuelFromKg, FuelFromKg);

/// <summary>A flight without a load.</summary>
public sealed record EmptyMoveStep(double FromMinute, double ToMinute, double FuelFromKg, double FuelToKg)
    : OrderStep(FromMinute, ToMinute, FuelFromKg, FuelToKg)
{
    /// <summary>Site left.</summary>
    public required int From { get; init; }

    /// <summary>Site reached.</summary>
    public required int To { get; init; }
}

/// <summary>Fuel is taken on at base.</summary>
public sealed record RefuelStep(double FromMinute, double ToMinute, double FuelFromKg, double FuelToKg)
    : OrderStep(FromMinute, ToMinute, FuelFromKg, FuelToKg);

/// <summary>A break at base. A refuelling of the same beginning is done during it.</summary>
public sealed record BreakStep(double FromMinute, double ToMinute, double FuelFromKg, double FuelToKg)
    : OrderStep(FromMinute, ToMinute, FuelFromKg, FuelToKg);

/// <summary>A load is flown: from hook-on to release.</summary>
public sealed record LiftStep(double FromMinute, double ToMinute, double FuelFromKg, double FuelToKg)
    : OrderStep(FromMinute, ToMinute, FuelFromKg, FuelToKg)
{
    /// <summary>Place in the day's order, from 1.</summary>
    public required int Position { get; init; }

    /// <summary>Place in the order since the last refuelling or the start, from 1.</summary>
    public required int PositionInTank { get; init; }

    /// <summary>Place of the load in the problem's list.</summary>
    public required int Load { get; init; }

    /// <summary>The load's number.</summary>
    public required string Number { get; init; }

    /// <summary>What the load takes of the capacity, kg.</summary>
    public required double NeedKg { get; init; }

    /// <summary>Most load need allowed with the fuel at hook-on in that hour, kg.</summary>
    public required double AllowedKg { get; init; }

    /// <summary>Allowed less need, kg; negative where the rule is broken.</summary>
    public double SpareKg => AllowedKg - NeedKg;

    /// <summary>First of its family in the day: the proving lift.</summary>
    public required bool ProvingLift { get; init; }

    /// <summary>Why it stands here, in plain words; empty from the bare simulator.</summary>
    public string Reason { get; init; } = "";

    /// <summary>Clock minute of hook-on.</summary>
    public double HookOnMinute => FromMinute;

    /// <summary>Clock minute of release.</summary>
    public double ReleaseMinute => ToMinute;
}
