namespace Stillhook.Physics.Load;

/// <summary>The hook's planned way on an even time grid, relative to the spot: along the approach course and up from the spot's ground.</summary>
/// <param name="StepS">Step of the grid and of the integration, s; 0.01 to 0.2.</param>
/// <param name="AlongM">Place along the course, m; negative before the spot. All columns have the same length, 2 or more.</param>
/// <param name="UpM">Height above the spot's ground, m.</param>
/// <param name="AlongMs">Speed along, m/s.</param>
/// <param name="UpMs">Speed up, m/s.</param>
/// <param name="AlongMs2">Acceleration along, m/s²; linear between the steps.</param>
/// <param name="UpMs2">Acceleration up, m/s².</param>
public sealed record BatchApproach(double StepS, double[] AlongM, double[] UpM, double[] AlongMs, double[] UpMs, double[] AlongMs2, double[] UpMs2);

/// <summary>A departure from the plan in proportion to one number a flight (late slow-down, faster entry, higher start): what one unit of it adds to the plan's columns.</summary>
/// <param name="AlongM">Added place along, m; as many values as the plan has.</param>
/// <param name="UpM">Added height, m.</param>
/// <param name="AlongMs">Added speed along, m/s.</param>
/// <param name="UpMs">Added speed up, m/s.</param>
/// <param name="AlongMs2">Added acceleration along, m/s².</param>
/// <param name="UpMs2">Added acceleration up, m/s².</param>
public sealed record BatchMode(double[] AlongM, double[] UpM, double[] AlongMs, double[] UpMs, double[] AlongMs2, double[] UpMs2);

/// <summary>What differs from flight to flight; each column has a number a flight.</summary>
public sealed class BatchDraws
{
    /// <summary>How many flights.</summary>
    public required int Flights { get; init; }

    /// <summary>Hook to the load's middle, m; above 0.</summary>
    public required double[] LengthM { get; init; }

    /// <summary>Drag per mass k = ρ·CdA/(2m), 1/m; 0 or more.</summary>
    public required double[] DragPerMassPerM { get; init; }

    /// <summary>Mean velocity of the air over ground along the course, m/s; a tailwind is positive.</summary>
    public required double[] WindAlongMs { get; init; }

    /// <summary>The same to the right, m/s.</summary>
    public required double[] WindAcrossMs { get; init; }

    /// <summary>Standard deviation of the gusts in each horizontal component, m/s.</summary>
    public required double[] GustMs { get; init; }

    /// <summary>Standard deviation of the pilot's slow wander in each horizontal component, m.</summary>
    public required double[] HandSlowM { get; init; }

    /// <summary>Standard deviation of his fast wander, m.</summary>
    public required double[] HandFastM { get; init; }

    /// <summary>Share of both wanders that the vertical takes.</summary>
    public double VerticalShare { get; init; } = 0.35;

    /// <summary>For each mode a column with its number for each flight.</summary>
    public required double[][] Modes { get; init; }

    /// <summary>Seed of the gusts and of the hand.</summary>
    public required ulong Seed { get; init; }
}

/// <summary>What came out; each column has a number a flight.</summary>
public sealed class BatchOutcome
{
    /// <summary>For a number of flights and gates.</summary>
    public BatchOutcome(int flights, int gates)
    {
        (LoadAlongM, LoadAcrossM, LoadUpM) = (new double[flights], new double[flights], new double[flights]);
        (SwingM, LargestSwingM, LeastTensionRatio) = (new double[flights], new double[flights], new double[flights]);
        (GateAlongErrorM, GateUpErrorM) = (Columns(flights, gates), Columns(flights, gates));
        (GateAlongSpeedErrorMs, GateUpSpeedErrorMs) = (Columns(flights, gates), Columns(flights, gates));
    }

    /// <summary>The load's middle past the spot at the last step, m.</summary>
    public double[] LoadAlongM { get; }

    /// <summary>The load's middle to the right of the spot at the last step, m.</summary>
    public double[] LoadAcrossM { get; }

    /// <summary>The load's middle above the spot's ground at the last step, m.</summary>
    public double[] LoadUpM { get; }

    /// <summary>Swing at the last step, m: √(r² + (r′/ω₀)²), r the horizontal offset from where the load hangs steadily under a standing hook in the flight's mean wind, ω₀ = √(g/L).</summary>
    public double[] SwingM { get; }

    /// <summary>Largest horizontal offset of the load from the plumb line in the last 20 s, m; trail and lean are in it.</summary>
    public double[] LargestSwingM { get; }

    /// <summary>Smallest line tension over the load's weight. At 0 or below the line went slack, which is not integrated: the flight counts as flown on a rod.</summary>
    public double[] LeastTensionRatio { get; }

    /// <summary>For each gate, by flight: hook past its planned place, m.</summary>
    public double[][] GateAlongErrorM { get; }

    /// <summary>For each gate, by flight: hook above its planned height, m.</summary>
    public double[][] GateUpErrorM { get; }

    /// <summary>For each gate, by flight: hook faster than planned, m/s.</summary>
    public double[][] GateAlongSpeedErrorMs { get; }

    /// <summary>For each gate, by flight: hook climbing more than planned, m/s.</summary>
    public double[][] GateUpSpeedErrorMs { get; }

    private static double[][] Columns(int flights, int gates)
    {
        double[][] columns = new double[gates][];
        for (int i = 0; i < gates; i++)
            columns[i] = new double[flights];
        return columns;
    }
}
