using Stillhook.Planning.Ordering;

namespace Stillhook.Briefing;

/// <summary>The lifts between two stops.</summary>
/// <param name="Lifts">Lifts in order; may be empty when fuel is taken on before the first.</param>
/// <param name="Stop">The stop that ends them; null at the end of the day.</param>
public sealed record TankRun(IReadOnlyList<LiftStep> Lifts, FuelStop? Stop)
{
    /// <summary>The day's order cut at its stops.</summary>
    public static IReadOnlyList<TankRun> Of(OrderPlan? order)
    {
        List<TankRun> runs = [];
        List<LiftStep> lifts = [];
        FuelStop? stop = null;
        foreach (OrderStep step in order?.Timeline.Steps ?? [])
            switch (step)
            {
                case LiftStep lift:
                    Close();
                    lifts.Add(lift);
                    break;
                case RefuelStep or BreakStep:
                    FuelStop before = stop ?? new(false, false, step.FromMinute, step.ToMinute, step.FuelToKg);
                    stop = before with { Refuel = before.Refuel || step is RefuelStep, Break = before.Break || step is BreakStep, ToMinute = Math.Max(before.ToMinute, step.ToMinute), FuelToKg = Math.Max(before.FuelToKg, step.FuelToKg) };
                    break;
            }
        Close();
        if (lifts.Count > 0)
            runs.Add(new(lifts, null));
        return runs;

        void Close()
        {
            if (stop is null)
                return;
            runs.Add(new(lifts, stop));
            (lifts, stop) = ([], null);
        }
    }
}

/// <summary>A stop at base: fuel, a break, or both.</summary>
/// <param name="Refuel">Fuel is taken on.</param>
/// <param name="Break">A break is taken; hot refuelling alone is none.</param>
/// <param name="FromMinute">Clock minute of its beginning.</param>
/// <param name="ToMinute">Clock minute of its end.</param>
/// <param name="FuelToKg">Fuel aboard after it, kg.</param>
public sealed record FuelStop(bool Refuel, bool Break, double FromMinute, double ToMinute, double FuelToKg);
