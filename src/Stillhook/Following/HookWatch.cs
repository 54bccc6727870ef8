using Stillhook.Recording;

namespace Stillhook.Following;

/// <summary>What load cell and hook switch say about the load on the hook.</summary>
internal sealed class HookWatch(double staleS)
{
    // Design values, common practice, no source; those shared with the rotation finder are its own.
    private const double LeastLoadKg = 30;             // less is a bare line that bobs; as in the rotation finder
    private const double ShortestCarryS = 12;          // as in the rotation finder
    private const double OnShare = 0.1, OffShare = 0.05;   // of the most that hung there: a load is on above, the line is bare below
    private const double SameTryS = 120;               // pulled on and set down again within this is the same load
    private const double ScaleAgeS = 1200;             // a bare line not met for this long may have been another one
    private const double Follow = 0.05;                // share by which what is carried follows each value
    private bool halfTold;
    private double carriedKg = double.NaN;
    private double bareKg = double.NaN, mostKg = double.NaN, bareFoundS = double.NegativeInfinity;
    private double loadS = double.NegativeInfinity, onSinceS = double.NaN, offSinceS = double.NaN;
    private double switchS = double.NegativeInfinity;
    private bool? open;

    /// <summary>Last time a carried load came off the hook by the load cell, s; NaN when none did.</summary>
    public double UnloadedS { get; private set; } = double.NaN;

    /// <summary>Last time the hook opened by its switch, s; NaN when it didn't.</summary>
    public double OpenedS { get; private set; } = double.NaN;

    /// <summary>Whether a load cell sends values.</summary>
    public bool HasCell(double nowS) => Math.Abs(nowS - loadS) <= staleS;

    /// <summary>Whether the load cell has nothing but the bare line on it now, and has had since the load came off.</summary>
    public bool IsEmpty(double nowS) => HasCell(nowS) && !double.IsNaN(offSinceS) && offSinceS <= UnloadedS + 1;

    /// <summary>Whether the load cell has a load on it.</summary>
    public bool IsLoaded(double nowS) => HasCell(nowS) && !double.IsNaN(onSinceS);

    /// <summary>Takes a value; true when it tells that a load is just coming off: at half of it, and when only the bare line is left.</summary>
    public bool Take(in ChannelSample sample) => sample.Kind switch
    {
        ChannelKind.LoadKg => TakeLoad(sample.TimeS, sample.Value),
        ChannelKind.HookOpen => TakeSwitch(sample.TimeS, sample.Value >= 0.5),
        _ => false,
    };

    private bool TakeLoad(double timeS, double kg)
    {
        if (!(timeS > loadS))
        {
            // Out of order: what is on the hook is not known until the next load comes off.
            Forget();
            return false;
        }
        if (timeS - loadS > staleS)
            Forget();
        loadS = timeS;
        NoteScale(timeS, kg);
        double span = mostKg - bareKg;
        if (span < LeastLoadKg)
            return false;
        bool wasOn = !double.IsNaN(onSinceS);
        if (kg > bareKg + Math.Max(LeastLoadKg, OnShare * span))
        {
            if (!wasOn)
                (onSinceS, carriedKg, halfTold) = (timeS, kg, false);
            offSinceS = double.NaN;
            // Slowly following what is carried, so that a bounce doesn't count.
            carriedKg += Follow * (kg - carriedKg);
            bool half = !halfTold && timeS - onSinceS >= ShortestCarryS && kg < bareKg + (carriedKg - bareKg) / 2;
            halfTold |= half;
            return half;
        }
        if (kg > bareKg + Math.Max(LeastLoadKg / 2, OffShare * span))
            return false;
        if (double.IsNaN(offSinceS))
            offSinceS = timeS;
        // A load that was set down, pulled on and set down again is carried, however short the last pull.
        bool carried = wasOn && (timeS - onSinceS >= ShortestCarryS || timeS - UnloadedS < SameTryS);
        onSinceS = double.NaN;
        if (carried)
            UnloadedS = timeS;
        return carried;
    }

    /// <summary>The least and the most that hung on the hook; the least is learnt anew when it isn't met any more.</summary>
    private void NoteScale(double timeS, double kg)
    {
        if (!(kg > bareKg))
            (bareKg, bareFoundS) = (kg, timeS);
        else if (kg < bareKg + LeastLoadKg / 2)
            bareFoundS = timeS;
        if (!(kg < mostKg))
            mostKg = kg;
        if (timeS - bareFoundS > ScaleAgeS)
            (bareKg, mostKg, bareFoundS) = (kg, kg, timeS);
    }

    private bool TakeSwitch(double timeS, bool nowOpen)
    {
        // A switch may tell changes only, so any time may lie between closed and open.
        bool rose = open == false && nowOpen && timeS > switchS;
        open = timeS > switchS ? nowOpen : null;
        switchS = Math.Max(switchS, timeS);
        if (rose)
            OpenedS = timeS;
        return rose;
    }

    /// <summary>What was known of the load is no longer known.</summary>
    public void Forget() => (onSinceS, offSinceS) = (double.NaN, double.NaN);
}
