using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>Says in plain words what a record is good for. Every threshold stands here and in docs/method/track.md.</summary>
public static class QualityRules
{
    /// <summary>Longest step for times of contact, hover, swing and sink, s.</summary>
    public const double LongestStepForTimesS = 2.5;

    /// <summary>Longest step for finding rotations, s.</summary>
    public const double LongestStepForRotationsS = 15;

    /// <summary>Coarsest altitude step for heights, m.</summary>
    public const double CoarsestAltitudeForHeightsM = 5;

    /// <summary>Coarsest altitude step for the sink over the last 1.5 m, m.</summary>
    public const double CoarsestAltitudeForSinkM = 2;

    /// <summary>Largest short-term altitude noise for heights, m (1 sigma).</summary>
    public const double NoisiestAltitudeForHeightsM = 5;

    /// <summary>Largest short-term altitude noise for sink, m (1 sigma).</summary>
    public const double NoisiestAltitudeForSinkM = 2;

    /// <summary>Largest short-term position noise for swing, m (1 sigma).</summary>
    public const double NoisiestPositionForSwingM = 3;

    /// <summary>Largest short-term position noise for places, m (1 sigma).</summary>
    public const double NoisiestPositionForPlacesM = 10;

    /// <summary>Fewest fixes for anything but a place.</summary>
    public const int FewestFixes = 20;

    internal static QualityVerdict Judge(FlightRecord record, FixTable? fixes, SmoothingNoise noise)
    {
        if (fixes is null)
            return Nothing(record);
        double step = fixes.MedianStepS, duration = fixes.TimeS[^1] - fixes.TimeS[0];
        bool enough = fixes.Count >= FewestFixes;
        bool rotations = enough && step <= LongestStepForRotationsS;
        bool times = enough && step <= LongestStepForTimesS;
        bool anyHeight = fixes.Height.Any(h => !double.IsNaN(h));
        bool heights = enough && anyHeight
            && fixes.AltitudeStepM <= CoarsestAltitudeForHeightsM && noise.Height <= NoisiestAltitudeForHeightsM;
        bool sink = heights && times && fixes.AltitudeStepM <= CoarsestAltitudeForSinkM && noise.Height <= NoisiestAltitudeForSinkM;
        bool places = enough && noise.Position <= NoisiestPositionForPlacesM;
        bool swing = times && noise.Position <= NoisiestPositionForSwingM;
        bool load = record.Find(ChannelKind.LoadKg) is { TimeS.Length: > 0 };
        QualityVerdict verdict = new(
            step, duration, fixes.GapCount, noise.Position, anyHeight ? noise.Height : double.NaN, fixes.AltitudeStepM,
            fixes.HasVelocity, load, [], [])
        {
            CanJudgeRotations = rotations,
            CanJudgeTimes = times,
            CanJudgeHeights = heights,
            CanJudgeSink = sink,
            CanJudgePlaces = places,
            CanJudgeSwing = swing,
            PositionStepM = fixes.PositionStepM,
            VelocityNoiseMs = fixes.HasVelocity ? noise.Velocity : double.NaN,
        };
        return verdict with { CanJudge = Can(verdict, fixes), CannotJudge = Cannot(verdict, fixes, anyHeight, enough) };
    }

    private static QualityVerdict Nothing(FlightRecord record) => new(
        double.NaN, 0, 0, double.NaN, double.NaN, 0, false, record.Find(ChannelKind.LoadKg) is { TimeS.Length: > 0 }, [],
        ["Nothing can be judged: no fix has both a position and a time."])
    {
        CanJudgeRotations = false,
        CanJudgeTimes = false,
        CanJudgeHeights = false,
        CanJudgeSink = false,
        CanJudgePlaces = false,
        CanJudgeSwing = false,
    };

    private static List<string> Can(QualityVerdict v, FixTable fixes)
    {
        List<string> can = [];
        Add(v.CanJudgeRotations, "Rotations: number, order and cycle times.");
        Add(v.CanJudgePlaces, string.Create(CultureInfo.InvariantCulture, $"Places and ground track (short-term noise {v.PositionNoiseM:0.0} m)."));
        Add(v.CanJudgeHeights, string.Create(CultureInfo.InvariantCulture, $"Heights over the target and glide (short-term noise {v.AltitudeNoiseM:0.0} m)")
            + (fixes.HeightFromPressure ? "; from pressure altitude, some metres off by an amount that changes with speed." : "."));
        Add(v.CanJudgeTimes, v.HasLoadCell
            ? "Times of lift-off and contact, to the load cell."
            : "Times of lift-off and contact, to a second or two: there is no load cell.");
        Add(v.CanJudgeSwing, v.HasSpeed ? "Swing, with recorded speed." : "Swing, from position alone: larger error than with recorded speed.");
        Add(v.CanJudgeSink, "Sink at set-down.");
        return can;

        void Add(bool yes, string what)
        {
            if (yes)
                can.Add(what);
        }
    }

    private static List<string> Cannot(QualityVerdict v, FixTable fixes, bool anyHeight, bool enough)
    {
        List<string> cannot = [];
        if (!enough)
        {
            cannot.Add(Text($"Deliveries are not assessable: only {fixes.Count} usable fixes, at least {FewestFixes} are needed."));
            return cannot;
        }
        if (v.GapCount > 0)
            cannot.Add(Text($"What happened in {v.GapCount} gaps is not recorded: {fixes.GapTimeS / 60:0.0} min in all."));
        if (!v.CanJudgeRotations)
            cannot.Add(Text($"Rotations are not assessable: one fix every {v.MedianStepS:0.#} s; {LongestStepForRotationsS} s or less is needed."));
        if (!v.CanJudgeTimes)
            cannot.Add(Text($"Times of contact, hover time, swing and sink are not assessable: one fix every {v.MedianStepS:0.#} s; {LongestStepForTimesS} s or less is needed."));
        else if (!v.CanJudgeSwing)
            cannot.Add(Text($"Swing is not assessable: positions jump by {v.PositionNoiseM:0.0} m from fix to fix; {NoisiestPositionForSwingM} m or less is needed."));
        if (!v.CanJudgePlaces)
            cannot.Add(Text($"Places are not assessable: positions jump by {v.PositionNoiseM:0.0} m from fix to fix."));
        if (!v.CanJudgeHeights)
            cannot.Add("Delivery height, glide and sink are not assessable: " + WhyNoHeights(v, anyHeight));
        else if (!v.CanJudgeSink && v.CanJudgeTimes)
            cannot.Add(Text($"Sink at set-down is not assessable: altitude comes in steps of {v.AltitudeStepM:0.0} m with {v.AltitudeNoiseM:0.0} m noise; {CoarsestAltitudeForSinkM} m or less is needed."));
        return cannot;
    }

    private static string WhyNoHeights(QualityVerdict v, bool anyHeight)
    {
        if (!anyHeight)
            return "the record has no altitude.";
        return v.AltitudeStepM > CoarsestAltitudeForHeightsM
            ? Text($"altitude comes in steps of {v.AltitudeStepM:0.0} m ({v.AltitudeStepM / 0.3048:0} ft).")
            : Text($"altitude jumps by {v.AltitudeNoiseM:0.0} m from fix to fix.");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
