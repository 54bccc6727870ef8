using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>Whether what looks like a rotation is borne out by the record; where only speed and height speak, a landing or a stop looks much the same.</summary>
internal static class RotationEvidence
{
    private const double AfterLiftOffS = 20;
    private const double BeforeContactS = 30;
    private const double MarginS = 10;

    /// <summary>Longest time without fixes near lift-off or contact, s.</summary>
    private const double LongestSilenceS = 10;

    /// <summary>Largest share of the loaded leg without fixes.</summary>
    private const double LargestSilentShare = 0.2;

    /// <summary>In a coarse record, or one without heights, the same way must be flown this often to be called lifting.</summary>
    private const int TimesInCoarseRecord = 3;

    /// <summary>Drops what the record doesn't bear out; the reason when nothing is left of something.</summary>
    public static (List<RotationDraft> Kept, string? NoneBecause) Weigh(List<RotationDraft> drafts, Track track, QualityVerdict quality, bool sitesKnown, DebriefSettings settings)
    {
        if (drafts.Count == 0)
            return (drafts, null);
        List<RotationDraft> recorded = drafts.FindAll(d => IsRecorded(d, track));
        if (recorded.Count == 0)
            return ([], "What looks like a rotation lies partly in gaps of the record: it cannot be judged.");
        bool clear = quality.CanJudgeTimes && track.HasHeight;
        if (clear || sitesKnown || recorded.Exists(d => d.ReleaseS is not null))
            return (recorded, null);
        List<RotationDraft> repeated = recorded.FindAll(d => recorded.Count(other => SameWay(d, other, track, settings)) >= TimesInCoarseRecord);
        return repeated.Count > 0
            ? (repeated, null)
            : ([], "A few slow low points, but the fixes are too sparse, or without height, to tell a set-down from a landing: give a load meter, a release event or the job's sites.");
    }

    private static bool IsRecorded(RotationDraft d, Track track) =>
        Silent(track, d.LiftOffS - MarginS, d.LiftOffS + AfterLiftOffS) <= LongestSilenceS
        && Silent(track, d.ContactS - BeforeContactS, d.ContactS + MarginS) <= LongestSilenceS
        && Silent(track, d.LiftOffS, d.ContactS) <= LargestSilentShare * (d.ContactS - d.LiftOffS);

    /// <summary>Time without fixes between two times, s.</summary>
    private static double Silent(Track track, double fromS, double toS)
    {
        double silent = 0;
        foreach (int start in track.StretchStarts.Skip(1))
            silent += Math.Max(0, Math.Min(toS, track.TimeS[start]) - Math.Max(fromS, track.TimeS[start - 1]));
        return silent;
    }

    private static bool SameWay(RotationDraft a, RotationDraft b, Track track, DebriefSettings settings) =>
        Near(track, a.LiftOffS, b.LiftOffS, settings.SiteRadiusM) && Near(track, a.ContactS, b.ContactS, settings.SiteRadiusM);

    private static bool Near(Track track, double oneS, double otherS, double radiusM)
    {
        Enu apart = track.At(oneS).Position - track.At(otherS).Position;
        return apart.Horizontal < radiusM;
    }
}
