namespace Stillhook.Planning.Payload;

/// <summary>A load with the most it may weigh now.</summary>
/// <param name="Load">The load as planned.</param>
/// <param name="Payload">The most with the fuel aboard now, in this clock hour.</param>
public sealed record LoadNow(LoadPlan Load, LoadPayload Payload)
{
    /// <summary>True when the chart gives a figure.</summary>
    public bool IsJudged => Payload.Governing.LimitedBy != LoadLimitedBy.NotJudged;

    /// <summary>True when more must be planned for than may be lifted now.</summary>
    public bool IsOver => IsJudged && Load.OnHook.NeedKg > Payload.Governing.AllowedKg;
}

/// <summary>What the loads still to be flown may weigh with the fuel aboard now: the plan's own payload with another fuel and hour.</summary>
/// <param name="Fuel">Fuel aboard now.</param>
/// <param name="Loads">The loads asked for, in that order.</param>
/// <param name="Figures">The working; what it leans on of the plan is in it too.</param>
public sealed record PayloadNow(Figure Fuel, IReadOnlyList<LoadNow> Loads, FigureBook Figures)
{
    /// <summary>Works it out.</summary>
    /// <param name="plan">A plan that something is planned in.</param>
    /// <param name="options">How it was made, with the weather typed since.</param>
    /// <param name="fuel">Fuel aboard now, with its working.</param>
    /// <param name="minute">Minute of the day on the sites' clock, 0 to 1440.</param>
    /// <param name="numbers">Numbers of the loads asked about.</param>
    public static PayloadNow Of(LiftPlan plan, PlanOptions options, Figure fuel, double minute, IReadOnlyList<string> numbers)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(fuel);
        ArgumentNullException.ThrowIfNull(numbers);
        if (!(minute is >= 0 and < 24 * 60))
            throw new ArgumentOutOfRangeException(nameof(minute), minute, "A minute of the day, 0 to under 1440.");
        FigureBook figures = new();
        figures.Add(fuel);
        PayloadCalculator payload = PayloadCalculator.ForTheDay(plan.Request, new(plan.Request), figures, options);
        LoadNow[] loads = [.. numbers.Select(n => plan.Loads.FirstOrDefault(l => l.OnHook.Load.Number == n)).OfType<LoadPlan>().Select(l => new LoadNow(l, payload.Payload(l.OnHook, (int)(minute / 60), fuel)))];
        foreach (Figure planned in plan.Figures.All)
            figures.Add(planned);
        return new(fuel, loads, figures);
    }
}
