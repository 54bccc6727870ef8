using Stillhook.Debriefing;

namespace Stillhook.Tests.Debriefing;

public class SwingOnRealFlightsTests(ITestOutputHelper output)
{
    private static readonly (string Name, double Noise, double LimitDeg)[] Scaled =
        [("15_10hz", 0.01, 2.9), ("18_5hz_noisy", 0.02, 3.1), ("16_1hz_noisy", 0.5, 3.8)];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Estimate_enlarged_flight_beats_its_limit(int index)
    {
        (string name, double noise, double limitDeg) = Scaled[index];
        var flight = MotionCaptureFlight.Scaled(name, noise);
        (double errorDeg, double swingDeg, double coverage) = flight.Judge(flight.Estimate().Trace!);
        output.WriteLine($"{name}: {errorDeg:F2} deg RMS of a swing of {swingDeg:F1} deg, band covers {coverage:P0}");
        // Real record: two thirds of what a plain pendulum reaches with the true start (4.4, 4.6, 5.7 degrees).
        Assert.InRange(errorDeg, 0, limitDeg);
    }

    [Theory]
    [InlineData(15)]
    [InlineData(16)]
    [InlineData(18)]
    [InlineData(19)]
    public void Estimate_real_flight_beats_the_plain_pendulum(int number)
    {
        var flight = MotionCaptureFlight.Real(number);
        double plainDeg = flight.PlainPendulumErrorDeg();
        (double errorDeg, double swingDeg, double coverage) = flight.Judge(flight.Estimate().Trace!);
        output.WriteLine($"{number}: {errorDeg:F2} deg RMS of a swing of {swingDeg:F1} deg, plain pendulum {plainDeg:F2}, band covers {coverage:P0}");
        // Real record: both against the motion-captured load.
        Assert.InRange(errorDeg, 0, plainDeg * 0.8);
    }

    [Fact]
    public void Estimate_all_motion_captured_flights_the_band_covers_the_truth()
    {
        MotionCaptureFlight[] flights = [.. Scaled.Select(s => MotionCaptureFlight.Scaled(s.Name, s.Noise)),
            .. new[] { 15, 16, 18, 19 }.Select(MotionCaptureFlight.Real)];
        double covered = flights.Average(f => f.Judge(f.Estimate().Trace!).Coverage);
        output.WriteLine($"pooled over {flights.Length} flights: {covered:P1}");
        // Real record: a band that says 90 % holds 85 to 95 %.
        Assert.InRange(covered, 0.85, 0.95);
    }
}
