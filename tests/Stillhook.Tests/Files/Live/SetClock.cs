namespace Stillhook.Tests.Files.Live;

/// <summary>A clock that shows what it is set to; waiting is by the true one.</summary>
internal sealed class SetClock(DateTimeOffset start) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = start;

    public override DateTimeOffset GetUtcNow() => Now;
}
