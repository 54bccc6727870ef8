using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>One time the hook came down slowly to a lowest point and left again: a hook-on, a set-down, a landing, a look or a wait.</summary>
internal sealed class SiteVisit
{
    /// <summary>Time of the lowest point, s.</summary>
    public required double LowestS { get; init; }

    /// <summary>First and last time of the slow stretch, s.</summary>
    public required double SlowFromS { get; init; }
    public required double SlowToS { get; init; }

    /// <summary>Hook at the lowest point.</summary>
    public required Enu Place { get; init; }

    /// <summary>Time spent within 1 m of the lowest height, s.</summary>
    public required double DwellS { get; init; }

    /// <summary>From leaving the lowest metre to 6 m/s over the ground, s; infinite when never. Slow with a load, quick without.</summary>
    public required double DepartureS { get; init; }

    /// <summary>Fastest ground speed since the visit before and until the next, m/s.</summary>
    public double ArrivedFromMs { get; set; }
    public double LeftToMs { get; set; }

    /// <summary>Site the visit belongs to.</summary>
    public int Site { get; set; } = -1;

    /// <summary>Height over the usual lowest height of the site, m.</summary>
    public double OverUsualM { get; set; }

    /// <summary>The aircraft stood on the ground.</summary>
    public bool Landing { get; set; }
}
