namespace Stillhook.Physics.Motion;

/// <summary>A stop as shares of the speed brought in, over time from the first loss of speed, s.</summary>
public abstract class StopProfile
{
    /// <summary>Whole time, s.</summary>
    public abstract double DurationS { get; }

    /// <summary>Way covered up to a time over the speed brought in, s: ∫ speed dt.</summary>
    public abstract double Way(double timeS);

    /// <summary>Share of the speed that is left.</summary>
    public abstract double Speed(double timeS);

    /// <summary>Rate of that share, 1/s; negative while slowing down.</summary>
    public abstract double SpeedRate(double timeS);

    /// <summary>All three at once: what asking for each gives, to the last bit.</summary>
    public virtual (double Way, double Speed, double SpeedRate) At(double timeS) => (Way(timeS), Speed(timeS), SpeedRate(timeS));
}
