using Stillhook.Physics.Earth;

namespace Stillhook.Following;

/// <summary>Whether the aircraft stands on ground whose height is known from the same feed.</summary>
/// <remarks>
/// Ground is known where a person said that the aircraft stands, or where it stood still for a minute from the start of the feed on. A hover over the
/// same spot lies a line's length above it. Satellite height wanders by metres in an hour, so each stand renews the height.
/// </remarks>
internal sealed class GroundWatch(double standS)
{
    // Under 1 m/s and within 2 m of the height are the rule; the others are design values, common practice, no source.
    private const double StandingMs = 1, HeightM = 2, NearM = 150;
    private const double FirstStandS = 60, FirstStandM = 1.5, FirstHeightM = 1, FirstSpeedMs = 0.5;
    private readonly List<Enu> known = [];
    private Enu first;
    private double firstS = double.NaN, standingSinceS = double.NaN, firstStoodUntilS = double.NaN;
    private bool moved;

    /// <summary>Whether the aircraft stands on known ground, and has for the time asked for.</summary>
    public bool IsStanding { get; private set; }

    /// <summary>Since when it stands, s; the first stand from the start of the feed on.</summary>
    public double SinceS { get; private set; } = double.NaN;

    /// <summary>Whether any ground is known.</summary>
    public bool AnyKnown => known.Count > 0;

    /// <summary>Takes the motion at a time.</summary>
    public void Take(double timeS, Enu place, double groundSpeedMs)
    {
        NoteFirstStand(timeS, place, groundSpeedMs);
        int at = known.FindIndex(g => (g - place).Horizontal < NearM && Math.Abs(g.Up - place.Up) < HeightM);
        if (at < 0 || groundSpeedMs >= StandingMs)
        {
            (standingSinceS, IsStanding) = (double.NaN, false);
            return;
        }
        if (double.IsNaN(standingSinceS))
        {
            // What was still from the first position on stood there all the while.
            SinceS = timeS == firstStoodUntilS ? firstS : timeS;
            standingSinceS = timeS;
        }
        IsStanding = timeS - standingSinceS >= standS;
        if (IsStanding)
            known[at] = place;
    }

    /// <summary>A person says that the aircraft stands on the ground here, now.</summary>
    public void Mark(Enu place) => known.Add(place);

    /// <summary>After a break in the feed.</summary>
    public void Restart() => (standingSinceS, IsStanding) = (double.NaN, false);

    private void NoteFirstStand(double timeS, Enu place, double groundSpeedMs)
    {
        if (moved)
            return;
        if (double.IsNaN(firstS))
            (firstS, first) = (timeS, place);
        moved = groundSpeedMs > FirstSpeedMs || (place - first).Horizontal > FirstStandM || Math.Abs(place.Up - first.Up) > FirstHeightM;
        if (moved || timeS - firstS < FirstStandS)
            return;
        known.Add(place);
        firstStoodUntilS = timeS;
        moved = true;
    }
}
