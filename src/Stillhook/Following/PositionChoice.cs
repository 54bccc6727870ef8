using Stillhook.Recording;

namespace Stillhook.Following;

/// <summary>What a position is used for.</summary>
internal enum PositionUse
{
    /// <summary>The hook's place.</summary>
    Place,

    /// <summary>The hook's place from here on, because the source used so far fell silent.</summary>
    FirstOfAnother,

    /// <summary>Not used as long as the other source speaks.</summary>
    Spare,
}

/// <summary>Chooses one source of position among several: receivers differ by metres, and a mix of both would look like motion.</summary>
internal sealed class PositionChoice(double silentS)
{
    // 100 m and 1 s: receivers of one aircraft agree far better; common practice, no source. 111 320 m a degree is good to 0.6 %, enough here.
    private const double DisagreeM = 100, SameTimeS = 1, DegreeM = 111_320;
    private string? used;
    private FixSample newest;
    private double newestArrivedS = double.NegativeInfinity;

    /// <summary>Whether a spare source says another place for the same time.</summary>
    public bool Disagree { get; private set; }

    /// <summary>Whether the source's positions are used.</summary>
    public bool IsUsed(string source) => used == source;

    /// <summary>What to do with a position. The first source counts until it falls silent.</summary>
    public PositionUse Choose(string source, in FixSample fix, double arrivedS)
    {
        bool first = used is null;
        if (!first && used != source && arrivedS - newestArrivedS <= silentS)
        {
            if (Math.Abs(fix.TimeS - newest.TimeS) <= SameTimeS)
                Disagree = ApartM(fix, newest) > DisagreeM;
            return PositionUse.Spare;
        }
        bool another = !first && used != source;
        (used, newest, newestArrivedS) = (source, fix, arrivedS);
        return another ? PositionUse.FirstOfAnother : PositionUse.Place;
    }

    private static double ApartM(in FixSample a, in FixSample b)
    {
        double north = (a.LatitudeDeg - b.LatitudeDeg) * DegreeM;
        double east = Math.IEEERemainder(a.LongitudeDeg - b.LongitudeDeg, 360) * DegreeM * Math.Cos(double.DegreesToRadians(a.LatitudeDeg));
        return Math.Sqrt(north * north + east * east);
    }
}
