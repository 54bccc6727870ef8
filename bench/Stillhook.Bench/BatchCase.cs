using Stillhook.Physics.Load;

namespace Stillhook.Bench;

/// <summary>10,000 flights of one approach of 45 s from 25 m/s, with three modes, wind, gusts and hand.</summary>
public sealed class BatchCase
{
    private const double SecondsS = 45, SlowDownMs2 = 1.1, SinkMs = 2.5;

    public BatchCase(double stepS, int flights, bool noise)
    {
        Plan = PlanOf(stepS);
        Modes = [ModeOf(0.02), ModeOf(-0.03), ModeOf(0.05)];
        Draws = DrawsOf(flights, noise ? 1 : 0);
    }

    public BatchApproach Plan { get; }

    public BatchMode[] Modes { get; }

    public BatchDraws Draws { get; }

    public int[] Gates => [.. new[] { 0.2, 0.4, 0.6, 0.8, 1 }.Select(share => (int)(share * (Plan.AlongM.Length - 1)))];

    public BatchOutcome Ours() => ApproachBatches.Fly(Plan, Modes, Draws, Gates);

    public BatchOutcome OneByOne() => ApproachBatches.FlyScalar(Plan, Modes, Draws, Gates);

    /// <summary>Slow-down as sin², sink as sin², in closed form.</summary>
    private static BatchApproach PlanOf(double h)
    {
        int points = (int)Math.Round(SecondsS / h) + 1;
        double[] Column(Func<double, double> f) => [.. Enumerable.Range(0, points).Select(i => f(i * h))];
        const double w = 2 * Math.PI / SecondsS;
        double Spent(double t) => t / 2 - Math.Sin(w * t) / (2 * w);
        return new(h,
            Column(t => SlowDownMs2 * (SecondsS / 2 * t - t * t / 4 - (Math.Cos(w * t) - 1) / (2 * w * w)) - SlowDownMs2 * SecondsS * SecondsS / 4),
            Column(t => 90 - SinkMs * Spent(t)),
            Column(t => SlowDownMs2 * (SecondsS / 2 - Spent(t))),
            Column(t => -SinkMs * (1 - Math.Cos(w * t)) / 2),
            Column(t => -SlowDownMs2 * (1 - Math.Cos(w * t)) / 2),
            Column(t => -SinkMs * w * Math.Sin(w * t) / 2));
    }

    private BatchMode ModeOf(double share)
    {
        double[] Column(double[] x) => [.. x.Select(v => share * v)];
        return new(Column(Plan.AlongM), Column(Plan.UpM), Column(Plan.AlongMs), Column(Plan.UpMs), Column(Plan.AlongMs2), Column(Plan.UpMs2));
    }

    private BatchDraws DrawsOf(int flights, double noise)
    {
        Random random = new(1);
        double[] Column(double from, double to) => [.. Enumerable.Range(0, flights).Select(_ => from + (to - from) * random.NextDouble())];
        return new()
        {
            Flights = flights,
            LengthM = Column(28, 34),
            DragPerMassPerM = Column(0.0005, 0.003),
            WindAlongMs = Column(-8, 1),
            WindAcrossMs = Column(-3, 3),
            GustMs = Column(0, 2 * noise),
            HandSlowM = Column(0.5 * noise, 1.5 * noise),
            HandFastM = Column(0.1 * noise, 0.3 * noise),
            Modes = [Column(-1, 1), Column(-1, 1), Column(-1, 1)],
            Seed = 1,
        };
    }
}
