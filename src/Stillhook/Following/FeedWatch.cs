namespace Stillhook.Following;

/// <summary>What is wrong with a position by its time.</summary>
internal enum FeedFault
{
    None,

    /// <summary>The time of the one before once more.</summary>
    Repeated,

    /// <summary>Older than the one before.</summary>
    Backwards,

    /// <summary>Far from the clock that the source kept so far.</summary>
    ClockJump,
}

/// <summary>Watches order, age and gaps of the positions that arrive. Whatever it isn't sure of is not in order.</summary>
internal sealed class FeedWatch(double staleS)
{
    // Design values, common practice, no source.
    private const double OrderlyAgainS = 5;   // after a fault the feed is not trusted for this long
    private const double JumpS = 30;          // a clock that differs by more than this from before has jumped
    private const int NewClockAfter = 20;     // positions in a row that make a jumped clock the clock
    private double delayS = double.NaN, jumpDelayS;
    private int jumps;
    private double faultS = double.NegativeInfinity;

    /// <summary>Time of the newest position in order, s since 1970 UTC.</summary>
    public double NewestS { get; private set; } = double.NaN;

    /// <summary>Since when positions came without a break longer than the age permitted, s.</summary>
    public double UnbrokenSinceS { get; private set; } = double.NaN;

    /// <summary>Judges a position and takes note of it.</summary>
    public FeedFault Take(double timeS, double arrivedS)
    {
        double delay = arrivedS - timeS;
        if (!double.IsNaN(delayS) && Math.Abs(delay - delayS) > JumpS && !NewClock(delay))
            return Fault(FeedFault.ClockJump, arrivedS);
        jumps = 0;
        bool clockChanged = !double.IsNaN(delayS) && Math.Abs(delay - delayS) > JumpS;
        delayS = delay;
        if (!clockChanged && timeS <= NewestS)
            return timeS == NewestS ? FeedFault.Repeated : Fault(FeedFault.Backwards, arrivedS);
        if (clockChanged || !(timeS - NewestS <= staleS))
            UnbrokenSinceS = timeS;
        NewestS = timeS;
        return FeedFault.None;
    }

    /// <summary>The positions may not be what they say: two sources disagree, or a link was lost.</summary>
    public void Doubt(double arrivedS) => faultS = Math.Max(faultS, arrivedS);

    /// <summary>Whether the newest position is in order and no older than permitted by this machine's clock.</summary>
    public bool IsFresh(double nowS) => Math.Abs(nowS - NewestS) <= staleS && !IsInDoubt(nowS);

    /// <summary>Whether something was wrong with the feed just now.</summary>
    public bool IsInDoubt(double nowS) => nowS - faultS < OrderlyAgainS;

    /// <summary>Age of the newest position by this machine's clock, s.</summary>
    public double AgeS(double nowS) => nowS - NewestS;

    private FeedFault Fault(FeedFault fault, double arrivedS)
    {
        Doubt(arrivedS);
        return fault;
    }

    /// <summary>Whether the source's clock was set anew: enough positions in a row say so.</summary>
    private bool NewClock(double delay)
    {
        jumps = jumps > 0 && Math.Abs(delay - jumpDelayS) < JumpS ? jumps + 1 : 1;
        jumpDelayS = delay;
        return jumps >= NewClockAfter;
    }
}
