namespace Stillhook.Physics.Load;

/// <summary>Plan and modes laid out in the order the steps read them.</summary>
internal sealed class BatchTrack
{
    /// <summary>Numbers a layer (plan or mode) has in each step: speed along, speed up, acceleration along, acceleration up.</summary>
    public const int Width = 4;

    private readonly IReadOnlyList<BatchMode> modes;
    private readonly BatchApproach plan;

    public BatchTrack(BatchApproach plan, IReadOnlyList<BatchMode> modes, ReadOnlySpan<int> gateSteps)
    {
        (this.plan, this.modes) = (plan, modes);
        Rows = new double[Points * RowLength];
        Lay(0, plan.AlongMs, plan.UpMs, plan.AlongMs2, plan.UpMs2);
        for (int m = 0; m < modes.Count; m++)
            Lay(m + 1, modes[m].AlongMs, modes[m].UpMs, modes[m].AlongMs2, modes[m].UpMs2);
        GateSteps = gateSteps.ToArray();
        GateOrder = [.. Enumerable.Range(0, GateSteps.Length).OrderBy(g => GateSteps[g])];
        LastSeconds = Math.Max(0, Points - 1 - (int)Math.Round(20 / plan.StepS));
    }

    public double StepS => plan.StepS;

    public int Points => plan.AlongM.Length;

    public int ModeCount => modes.Count;

    public int RowLength => Width * (modes.Count + 1);

    /// <summary>All rows, one after another: the plan's layer, then the modes'.</summary>
    public double[] Rows { get; }

    public int[] GateSteps { get; }

    /// <summary>Gates by step.</summary>
    public int[] GateOrder { get; }

    /// <summary>First step of the last 20 s.</summary>
    public int LastSeconds { get; }

    public double PlannedAlongM(int step) => plan.AlongM[step];

    public double PlannedUpM(int step) => plan.UpM[step];

    public double ModeAlongM(int mode, int step) => modes[mode].AlongM[step];

    public double ModeUpM(int mode, int step) => modes[mode].UpM[step];

    private void Lay(int layer, params ReadOnlySpan<double[]> columns)
    {
        for (int i = 0; i < Points; i++)
            for (int c = 0; c < Width; c++)
                Rows[i * RowLength + layer * Width + c] = columns[c][i];
    }
}
