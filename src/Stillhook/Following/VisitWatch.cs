using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Following;

/// <summary>Where the hook is slow and low: a pick-up, a delivery, or something like it.</summary>
/// <param name="FromS">Since when it is slow, s.</param>
/// <param name="LowestS">When it was lowest so far, s.</param>
/// <param name="Lowest">Its lowest place so far, m in the follower's frame.</param>
/// <param name="ToS">When it was fast again, s; NaN as long as it isn't.</param>
internal sealed record SlowPlace(double FromS, double LowestS, Enu Lowest, double ToS);

/// <summary>Watches for slow low places while they are flown, by the same speeds as the rotation finder.</summary>
internal sealed class VisitWatch(DebriefSettings settings)
{
    private const double ClimbedM = 4;      // off the placed height: the hook is on its way up and away
    private double descentFromM = double.NegativeInfinity;
    private bool told;

    /// <summary>The slow place at hand, or the last one; null before the first.</summary>
    public SlowPlace? Last { get; private set; }

    /// <summary>The slow place before the last.</summary>
    public SlowPlace? Before { get; private set; }

    /// <summary>Whether the hook is slow now.</summary>
    public bool IsSlow => Last is { ToS: double.NaN };

    /// <summary>Takes the motion at a time; true once for each slow place, when the hook has climbed 4 m off its lowest height or has left fast.</summary>
    public bool Take(double timeS, Enu place, double groundSpeedMs)
    {
        if (!IsSlow)
        {
            descentFromM = Math.Max(descentFromM, place.Up);
            if (groundSpeedMs < settings.SlowBelowMs)
            {
                (Before, Last) = (Last, new(timeS, timeS, place, double.NaN));
                told = false;
            }
            return false;
        }
        if (place.Up < Last!.Lowest.Up)
            Last = Last with { LowestS = timeS, Lowest = place };
        bool left = groundSpeedMs > settings.FastAboveMs;
        bool due = !told && descentFromM - Last.Lowest.Up >= settings.LeastDescentM && (place.Up > Last.Lowest.Up + ClimbedM || left);
        told |= due;
        if (left)
        {
            Last = Last with { ToS = timeS };
            descentFromM = place.Up;
        }
        return due;
    }

    /// <summary>After a break in the feed: what the hook did meanwhile is not known.</summary>
    public void Restart()
    {
        (Before, Last) = (null, null);
        descentFromM = double.NegativeInfinity;
    }
}
