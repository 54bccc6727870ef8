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

    /// <summary>All three at once, way in s, speed as a share, its rate in 1/s: what asking for each gives, to the last bit.</summary>
    /// <param name="timeS">Time from the first loss of speed, s; before 0 and after <see cref="DurationS"/> as each of them has it.</param>
    public virtual (double Way, double Speed, double SpeedRate) At(double timeS) => (Way(timeS), Speed(timeS), SpeedRate(timeS));
}
