namespace Stillhook.Physics.Load;

/// <summary>Refuses what can't be flown.</summary>
internal static class BatchChecks
{
    public static void Check(BatchApproach plan, IReadOnlyList<BatchMode> modes, BatchDraws draws, ReadOnlySpan<int> gateSteps)
    {
        if (!(plan.StepS is >= 0.01 and <= 0.2))
            throw new ArgumentOutOfRangeException(nameof(plan), plan.StepS, "Step is 0.01 to 0.2 s.");
        int points = plan.AlongM.Length;
        if (points < 2)
            throw new ArgumentOutOfRangeException(nameof(plan), points, "A plan has 2 points or more.");
        Columns("plan", points, plan.AlongM, plan.UpM, plan.AlongMs, plan.UpMs, plan.AlongMs2, plan.UpMs2);
        foreach (BatchMode m in modes)
            Columns("mode", points, m.AlongM, m.UpM, m.AlongMs, m.UpMs, m.AlongMs2, m.UpMs2);
        foreach (int step in gateSteps)
            if (step < 0 || step >= points)
                throw new ArgumentOutOfRangeException(nameof(gateSteps), step, $"A gate's step is 0 to {points - 1}.");
        Check(draws, modes.Count);
    }

    private static void Check(BatchDraws draws, int modes)
    {
        int flights = draws.Flights;
        if (flights < 0)
            throw new ArgumentOutOfRangeException(nameof(draws), flights, "Flights are 0 or more.");
        if (draws.Modes.Length != modes)
            throw new ArgumentOutOfRangeException(nameof(draws), draws.Modes.Length, $"There is one column of draws for each of {modes} modes.");
        if (!(draws.VerticalShare is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(draws), draws.VerticalShare, "Vertical share is 0 to 1.");
        Columns("wind", flights, draws.WindAlongMs, draws.WindAcrossMs);
        Columns("mode draws", flights, draws.Modes);
        Columns("length, drag, gust or hand", flights, draws.LengthM, draws.DragPerMassPerM, draws.GustMs, draws.HandSlowM, draws.HandFastM);
        NotNegative(nameof(draws.DragPerMassPerM), draws.DragPerMassPerM);
        NotNegative(nameof(draws.GustMs), draws.GustMs);
        NotNegative(nameof(draws.HandSlowM), draws.HandSlowM);
        NotNegative(nameof(draws.HandFastM), draws.HandFastM);
        foreach (double length in draws.LengthM)
            if (!(length > 0))
                throw new ArgumentOutOfRangeException(nameof(draws), length, "Hook to load is above 0 m.");
    }

    private static void Columns(string what, int length, params ReadOnlySpan<double[]> columns)
    {
        foreach (double[] column in columns)
        {
            if (column.Length != length)
                throw new ArgumentOutOfRangeException(what, column.Length, $"This column has {length} values.");
            foreach (double x in column)
                if (!double.IsFinite(x))
                    throw new ArgumentOutOfRangeException(what, x, "A finite number.");
        }
    }

    private static void NotNegative(string what, double[] column)
    {
        foreach (double x in column)
            if (!(x >= 0))
                throw new ArgumentOutOfRangeException(what, x, "0 or more.");
    }
}
