using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Following;

/// <summary>A time on the ground, and where.</summary>
/// <param name="When">The stretch; its end moves on while it lasts.</param>
/// <param name="At">Where; null when not known.</param>
public sealed record Stand(Stretch When, Place? At);

/// <summary>Time flown and stood while a flight goes on.</summary>
/// <remarks>
/// What was looked at goes by <see cref="AirborneFinder"/>, as the Day does; what came since by whether the aircraft stands on known ground (<see cref="FlightFollower.IsStanding"/>). A stand that only
/// the finder sees, on ground of unknown height, is therefore told with the next delivery.
/// </remarks>
public sealed class FlightTimes
{
    // A part of a flight is judged worse at its beginning; what the looks before said of it stands. Design value, common practice, no source.
    private const double EdgeS = 300;
    private readonly List<Stand> since = [];
    private IReadOnlyList<Stretch> airborne = [];
    private List<Stand> stood = [];
    private double startS = double.NaN, lookedUntilS = double.NegativeInfinity, lastS = double.NaN;

    /// <summary>Stretches in the air, up to the newest time.</summary>
    public IReadOnlyList<Stretch> Airborne => double.IsNaN(startS) ? [] : StretchSet.Union([.. airborne, .. StretchSet.Without([new(Math.Max(startS, lookedUntilS), lastS)], since.Select(s => s.When))]);

    /// <summary>Times on the ground, in order; the last one open while it lasts.</summary>
    public IReadOnlyList<Stand> Stands => [.. stood, .. since.Where(s => s.When.ToS > lookedUntilS)];

    /// <summary>From the first to the newest time, s since 1970 UTC.</summary>
    public Stretch Recorded => new(startS, lastS);

    /// <summary>Takes the newest time and whether the aircraft stands.</summary>
    /// <param name="timeS">Newest time, s since 1970 UTC.</param>
    /// <param name="standingSinceS">Since when it stands on known ground, s since 1970 UTC; null when it doesn't.</param>
    /// <param name="at">Where it is.</param>
    public void Take(double timeS, double? standingSinceS, Place? at)
    {
        if (!(timeS > lastS) && !double.IsNaN(lastS) || double.IsNaN(timeS))
            return;
        if (double.IsNaN(startS))
            startS = timeS;
        lastS = timeS;
        if (standingSinceS is not { } fromS)
            return;
        if (since.Count > 0 && since[^1].When.FromS == fromS)
            since[^1] = since[^1] with { When = new(fromS, timeS) };
        else
            since.Add(new(new(fromS, timeS), at));
    }

    /// <summary>Takes a look at the newest part.</summary>
    /// <param name="look">Its debrief.</param>
    public void Take(Debrief look)
    {
        ArgumentNullException.ThrowIfNull(look);
        if (look.Track is not { Count: > 1 } track)
            return;
        double fromS = track.TimeS[0], untilS = track.TimeS[^1], cutS = fromS > startS + EdgeS ? fromS + EdgeS : double.NegativeInfinity;
        IReadOnlyList<Stretch> found = AirborneFinder.Find(look);
        // At the end of a part a hover is hardly told from a rest: the watch has the last word there.
        double knownUntilS = Math.Max(cutS, found.Count > 0 ? found[^1].ToS : fromS);
        IEnumerable<Stretch> ground = StretchSet.Without([new(fromS, knownUntilS)], found);
        stood = [.. stood.Where(s => s.When.FromS < cutS), .. ground.Where(g => g.FromS >= cutS).Select(g => new Stand(g, PlaceAt(track, (g.FromS + g.ToS) / 2)))];
        airborne = StretchSet.Union([.. StretchSet.Without(airborne, [new(cutS, double.MaxValue)]), .. StretchSet.Without(found, [new(double.MinValue, cutS)])]);
        lookedUntilS = knownUntilS;
        since.RemoveAll(s => s.When.ToS <= lookedUntilS);
    }

    private static Place PlaceAt(Track track, double timeS)
    {
        (double latitude, double longitude, _) = track.Frame.ToGeodetic(track.At(timeS).Position);
        return new(latitude, longitude);
    }
}
