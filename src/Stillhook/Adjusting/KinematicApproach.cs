namespace Stillhook.Adjusting;

/// <summary>How one approach ends: against the target, all zero when it ends as planned.</summary>
/// <param name="StopM">Stop against the target along the course, m, past it positive.</param>
/// <param name="ArrivalHeightM">Height of the load on arrival against the plan, m, high positive.</param>
/// <param name="PeakDecelMs2">Largest slow-down against the plan, m/s², harder positive.</param>
public readonly record struct ApproachOutcome(double StopM, double ArrivalHeightM, double PeakDecelMs2)
{
    /// <summary>Stop, arrival height, slow-down.</summary>
    internal double this[int i] => i switch { 0 => StopM, 1 => ArrivalHeightM, _ => PeakDecelMs2 };
}

/// <summary>How a person flies the approach: the constants of <see cref="KinematicApproach"/>.</summary>
public sealed record ApproachHabit
{
    /// <summary>From the start mark to the beginning of the slow-down, s.</summary>
    public double DelayS { get; init; } = 1.6;

    /// <summary>How much of a needed change of slow-down is made by eye, 0 to 1.</summary>
    public double EyeGain { get; init; } = 0.88;

    /// <summary>Peak over mean slow-down.</summary>
    public double PeakRatio { get; init; } = 1.5;

    /// <summary>Share of a height excess over the planned path that is still there on arrival.</summary>
    public double HeightCarried { get; init; } = 0.25;

    /// <summary>Sink near the end as a share of speed times height over distance.</summary>
    public double EndSinkRatio { get; init; } = 0.3;

    /// <summary>Reaction and engine lag after power is called for, s.</summary>
    public double PowerLagS { get; init; } = 1.5;

    /// <summary>How far arrival follows the power-in height, the rest is corrected by eye.</summary>
    public double PowerGain { get; init; } = 0.4;

    /// <summary>Speed of the last part, where a late reaction carries on without being seen, m/s.</summary>
    public double EndSpeedMs { get; init; } = 5;

    /// <summary>How much shorter the stop is for power a metre higher: thrust of a raised nose slows, m per m.</summary>
    public double PowerSlows { get; init; } = 0.33;

    /// <summary>How much further the stop is for a start a metre higher: a steeper path takes longer to slow on, m per m.</summary>
    public double HeightCarriesOn { get; init; } = 0.25;
}

/// <summary>A small kinematic model of an approach: how the end follows from the four knobs. Only its slopes are used for advice.</summary>
/// <remarks>
/// Slow-down a = a₀ + k (a₁ − a₀), with a₀ = V₀² / 2(D₀ − V₀ t) of the planned approach and a₁ = V² / 2(D − V t) the one the knobs need:
/// a pilot makes part k of a needed change by eye. Stop = (V + v) t + V²/(2a) − D − q (P − P₀) + u (H − H₀). Peak = ratio · a.
/// End sink w = r V H / D; arrival = g P − w T − w²/(2·1 m/s²) + c (H − H₀ D/D₀), P counted from P₀.
/// All constants are habits (own choice, no source); docs/method/adjusting.md says what they are measured against.
/// </remarks>
public static class KinematicApproach
{
    private const double ArrestMs2 = 1;

    /// <summary>End of an approach relative to the planned approach flown with the default habit.</summary>
    /// <param name="knobs">The approach flown.</param>
    /// <param name="plan">The approach planned.</param>
    /// <param name="habit">The person.</param>
    public static ApproachOutcome Fly(ApproachKnobs knobs, ApproachKnobs plan, ApproachHabit habit)
    {
        ApproachOutcome flown = End(knobs, plan, habit), planned = End(plan, plan, new ApproachHabit());
        return new(flown.StopM - planned.StopM, flown.ArrivalHeightM - planned.ArrivalHeightM, flown.PeakDecelMs2 - planned.PeakDecelMs2);
    }

    /// <summary>Slopes of the end by each knob round the plan, per trade step: row outcome, column knob; central differences over one step.</summary>
    public static double[,] Sensitivities(ApproachKnobs plan)
    {
        var slopes = new double[3, 4];
        Span<int> step = stackalloc int[4];
        for (int k = 0; k < 4; k++)
        {
            step.Clear();
            step[k] = 1;
            ApproachOutcome up = Fly(plan.Plus(step), plan, new());
            step[k] = -1;
            ApproachOutcome down = Fly(plan.Plus(step), plan, new());
            for (int i = 0; i < 3; i++)
                slopes[i, k] = (up[i] - down[i]) / 2;
        }
        return slopes;
    }

    private static ApproachOutcome End(ApproachKnobs p, ApproachKnobs plan, ApproachHabit habit)
    {
        double usual = Needed(plan, new ApproachHabit().DelayS);
        double decel = usual + habit.EyeGain * (Needed(p, habit.DelayS) - usual);
        double stop = p.EntrySpeedMs * habit.DelayS + p.EntrySpeedMs * p.EntrySpeedMs / (2 * decel) - p.StartDistanceM
            + habit.EndSpeedMs * habit.DelayS - habit.PowerSlows * (p.PowerInHeightM - plan.PowerInHeightM)
            + habit.HeightCarriesOn * (p.StartHeightM - plan.StartHeightM);
        double sink = habit.EndSinkRatio * p.EntrySpeedMs * p.StartHeightM / p.StartDistanceM;
        double arrival = habit.PowerGain * (p.PowerInHeightM - plan.PowerInHeightM) - sink * habit.PowerLagS - sink * sink / (2 * ArrestMs2)
            + habit.HeightCarried * (p.StartHeightM - plan.StartHeightM * p.StartDistanceM / plan.StartDistanceM);
        return new(stop, arrival, habit.PeakRatio * decel);
    }

    private static double Needed(ApproachKnobs p, double delayS)
    {
        double room = Math.Max(p.StartDistanceM - p.EntrySpeedMs * delayS, 0.25 * p.StartDistanceM);
        return p.EntrySpeedMs * p.EntrySpeedMs / (2 * room);
    }
}
