using Stillhook.Reporting;

namespace Stillhook.Following;

/// <summary>Time flown and stood while a flight goes on.</summary>
/// <param name="breakS">A stand as long as this counts as a break, s: what the crew did in it nobody has said yet.</param>
public sealed class FlightTimes(double breakS)
{
    private readonly List<Stretch> stands = [];
    private double lastS = double.NaN, standingSinceS = double.NaN;

    /// <summary>Flown since the flight began or since the last stand of a break's length, s.</summary>
    public double SinceBreakS { get; private set; }

    /// <summary>Times on the ground.</summary>
    public IReadOnlyList<Stretch> Stands => double.IsNaN(standingSinceS) ? [.. stands] : [.. stands, new(standingSinceS, lastS)];

    /// <summary>Takes the newest time and whether the aircraft stands.</summary>
    public void Take(double timeS, bool standing)
    {
        if (!(timeS > lastS) && !double.IsNaN(lastS))
            return;
        if (double.IsNaN(standingSinceS) && standing)
            standingSinceS = timeS;
        else if (!standing && !double.IsNaN(standingSinceS))
        {
            stands.Add(new(standingSinceS, lastS));
            standingSinceS = double.NaN;
        }
        if (!standing && !double.IsNaN(lastS))
            SinceBreakS += timeS - lastS;
        else if (standing && timeS - standingSinceS >= breakS)
            SinceBreakS = 0;
        lastS = timeS;
    }
}
