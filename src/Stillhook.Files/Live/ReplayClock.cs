namespace Stillhook.Files.Live;

/// <summary>While a record is replayed, its time is now: the clock shows the record's time and runs at the speed of the replay. Timers run by the true clock.</summary>
internal sealed class ReplayClock(TimeProvider inner) : TimeProvider
{
    private long _began;
    private double _speed;
    private DateTimeOffset _start;

    /// <inheritdoc/>
    public override long TimestampFrequency => inner.TimestampFrequency;

    /// <inheritdoc/>
    public override TimeZoneInfo LocalTimeZone => inner.LocalTimeZone;

    /// <summary>Starts at an instant; before that the true time is shown.</summary>
    /// <param name="start">Shown at once.</param>
    /// <param name="speed">Seconds of the record a second, 1..100.</param>
    public void Start(DateTimeOffset start, double speed)
    {
        if (!(speed is >= 1 and <= 100)) throw new ArgumentOutOfRangeException(nameof(speed), speed, "A replay runs at 1 to 100 times.");
        (_start, _began) = (start, inner.GetTimestamp());
        Volatile.Write(ref _speed, speed);
    }

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow() => Volatile.Read(ref _speed) is > 0 and var speed ? _start + inner.GetElapsedTime(_began) * speed : inner.GetUtcNow();

    /// <inheritdoc/>
    public override long GetTimestamp() => inner.GetTimestamp();

    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) => inner.CreateTimer(callback, state, dueTime, period);
}
