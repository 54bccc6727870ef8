namespace Stillhook.Simulating;

/// <summary>How a recorder rounds its positions.</summary>
public enum Rounding
{
    /// <summary>Seven decimals of a degree, centimetres: CSV, GPX.</summary>
    Fine,

    /// <summary>Whole thousandths of a minute (1.85 m) and whole metres: plain IGC.</summary>
    Igc,

    /// <summary>Hundred-thousandths of a minute (2 cm), decimetres: NMEA with five decimals, IGC with LAD and LOD.</summary>
    FineMinutes,
}

/// <summary>A recorder and its flaws.</summary>
/// <remarks>
/// Defaults describe a good single-frequency receiver. Position and velocity noise per horizontal axis (1 sigma); the vertical has 1.5 times as much.
/// The slow part is a first-order process, the rest is white. Sizes: [RAK12500] (2.5 m, 0.05 m/s) and [TEL0157] (2.0 m, 0.1 m/s) set the scale;
/// the split of slow and fast is common practice, no source.
/// </remarks>
public sealed record RecorderModel
{
    /// <summary>Fixes a second: 10 or a divisor of it (1, 2, 5, 10), or below 1.</summary>
    public double RateHz { get; init; } = 5;

    /// <summary>Position error of one horizontal axis, m (1 sigma).</summary>
    public double PositionErrorM { get; init; } = 1;

    /// <summary>Share of the position error's variance that is slow.</summary>
    public double SlowShare { get; init; } = 0.9;

    /// <summary>Correlation time of the slow part, s; NaN draws 120-400 s.</summary>
    public double SlowTimeS { get; init; } = double.NaN;

    /// <summary>Velocity noise of one axis, m/s (1 sigma).</summary>
    public double VelocityErrorMs { get; init; } = 0.07;

    /// <summary>Antenna above the belly hook, m.</summary>
    public double AntennaAboveHookM { get; init; } = 2;

    /// <summary>Rounding of positions.</summary>
    public Rounding Rounding { get; init; }

    /// <summary>Whether speed and course are recorded.</summary>
    public bool Speed { get; init; } = true;

    /// <summary>Whether vertical speed is recorded.</summary>
    public bool Climb { get; init; }

    /// <summary>Whether a load cell is recorded.</summary>
    public bool LoadCell { get; init; }

    /// <summary>Load cell noise, kg (1 sigma), and the share of samples it drops.</summary>
    public double LoadCellErrorKg { get; init; } = 8;

    /// <summary>Share of load cell samples that are missing.</summary>
    public double LoadCellDropouts { get; init; } = 0.005;

    /// <summary>Whether torque is recorded.</summary>
    public bool Torque { get; init; }

    /// <summary>Whether pitch, roll and heading are recorded.</summary>
    public bool Attitude { get; init; }

    /// <summary>Whether the hook's opening is recorded.</summary>
    public bool ReleaseEvent { get; init; }

    /// <summary>Gaps an hour, 6-40 s each.</summary>
    public double GapsPerHour { get; init; }

    /// <summary>Single wild fixes an hour, 40-400 m off.</summary>
    public double SpikesPerHour { get; init; }

    /// <summary>Steps of the altitude an hour, 3-12 m, staying until the next.</summary>
    public double AltitudeStepsPerHour { get; init; }

    /// <summary>Share of fixes written twice.</summary>
    public double Repeats { get; init; }

    /// <summary>Share of fixes that change places with the one after.</summary>
    public double Shuffles { get; init; }

    /// <summary>The three receivers of common use: 0.5 m and 0.05 m/s, 1 m and 0.07 m/s, 2 m and 0.10 m/s.</summary>
    public static RecorderModel WithError(double positionM) => new()
    {
        PositionErrorM = positionM,
        VelocityErrorMs = positionM <= 0.5 ? 0.05 : positionM <= 1 ? 0.07 : 0.10,
    };
}
