using Stillhook.Files.Live;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Live;

public class LiveFindingsTests
{
    // Simulated truth: met ten times a second for a minute, then again after a minute. The 10 s between are common practice, no source.
    [Fact]
    public void Add_GoesOnAndOn_IsToldWhenItBegins()
    {
        var clock = new SetClock(DateTimeOffset.UnixEpoch);
        var told = new List<LiveFinding>();
        var findings = new LiveFindings(clock, told.Add);
        for (int i = 0; i < 600; i++)
        {
            findings.Add("gps", Met());
            clock.Now += TimeSpan.FromSeconds(0.1);
        }

        Assert.Single(told);
        Assert.Equal(600, Assert.Single(findings.All).Finding.Count);
        clock.Now += TimeSpan.FromMinutes(1);
        findings.Add("gps", Met());
        Assert.Equal(2, told.Count);
        findings.Add("load", Met());
        Assert.Equal(3, told.Count);
    }

    private static Finding Met() => new(Severity.Error, "following-failed", null, 1, "what", "done");
}
