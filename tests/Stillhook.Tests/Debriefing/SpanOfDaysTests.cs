using Stillhook.Debriefing;
using Stillhook.Recording;

namespace Stillhook.Tests.Debriefing;

public class SpanOfDaysTests
{
    // Closed form: two years at two fixes a second would be 126 million samples; the answer has to come without them.
    [Fact]
    public void Debrief_RecordThatSpansYears_SaysSoInsteadOfFillingMemory()
    {
        const double TwoYearsS = 2 * 365.25 * 86400;
        double[] time = [.. Enumerable.Range(0, 200).Select(i => 1.2e9 + i), .. Enumerable.Range(0, 200).Select(i => 1.2e9 + TwoYearsS + i)];
        var record = new FlightRecord
        {
            Name = "years", Format = "simulated", TimeS = time,
            LatitudeDeg = [.. time.Select((_, i) => 46.9 + i * 1e-5)], LongitudeDeg = [.. time.Select(_ => 9.4)], AltitudeM = [.. time.Select(_ => 1200.0)],
            SegmentStarts = [0, 200],
        };
        Debrief debrief = Debriefer.Debrief(record, new LiftSetup(), cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(debrief.Rotations);
        Assert.Contains("36 hours", debrief.NoRotationsBecause, StringComparison.Ordinal);
    }
}
