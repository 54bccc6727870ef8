namespace Stillhook.Tests.Files.Live;

/// <summary>A clock that shows what it is set to; waiting is by the true one.</summary>
internal sealed class SetClock(DateTimeOffset start) : TimeProvider
{
    private long ticks = start.UtcTicks;

    /// <summary>Now; set from one thread and read from any.</summary>
    public DateTimeOffset Now
    {
        get => new(Volatile.Read(ref ticks), TimeSpan.Zero);
        set => Volatile.Write(ref ticks, value.UtcTicks);
    }

    public override DateTimeOffset GetUtcNow() => Now;
}
