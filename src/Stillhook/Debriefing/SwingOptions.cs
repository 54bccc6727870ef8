using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>What is known beside the track and the crew's numbers.</summary>
public sealed record SwingOptions
{
    /// <summary>Measured lean of the aircraft, when the record has it.</summary>
    public SwingAttitude? Attitude { get; init; }

    /// <summary>Whether the load hangs at rest under the hook at the start (lift-off). Otherwise the start is estimated from nothing.</summary>
    public bool AtRestAtStart { get; init; } = true;

    /// <summary>Whether the load is set down at the end, which no pilot does with a large swing.</summary>
    public bool SetDownAtEnd { get; init; } = true;

    /// <summary>Standard error of the entered length, relative. 1.5 % for a taped line that was typed; assumed lengths take 15 %.</summary>
    public double? LengthError { get; init; }

    /// <summary>
    /// Spectral density of the hook's jerk, m²/s⁵. 0.02 is a helicopter with a load on a long line (own measurement on simulated days); small
    /// aircraft on short lines need more.
    /// </summary>
    public double JerkDensity { get; init; } = 0.02;

    /// <summary>Spectral density of what else shakes the load (gusts, its own turning, wash), m²/s³.</summary>
    public double LoadDisturbance { get; init; } = 6e-4;
}

/// <summary>Which way the rotor's thrust leans, from roll, pitch and heading.</summary>
/// <param name="TimeS">Times, s since 1970 UTC, ascending.</param>
/// <param name="TiltEast">East part of the thrust direction over its up part.</param>
/// <param name="TiltNorth">North part over its up part.</param>
public sealed record SwingAttitude(double[] TimeS, double[] TiltEast, double[] TiltNorth)
{
    /// <summary>From a record's roll (right positive), pitch (nose up positive) and heading channels; null unless all three have the same times.</summary>
    public static SwingAttitude? From(FlightRecord record)
    {
        if (record.Find(ChannelKind.RollDeg) is not { } roll || record.Find(ChannelKind.PitchDeg) is not { } pitch
            || record.Find(ChannelKind.HeadingDeg) is not { } heading || roll.TimeS.Length == 0
            || !roll.TimeS.AsSpan().SequenceEqual(pitch.TimeS) || !roll.TimeS.AsSpan().SequenceEqual(heading.TimeS))
            return null;
        return From(roll.TimeS, roll.Value, pitch.Value, heading.Value);
    }

    /// <summary>From columns of roll, pitch and heading, degrees.</summary>
    /// <remarks>Thrust along the mast; a mast that leans against the body is a constant lean, which the estimate takes off as a bias.</remarks>
    public static SwingAttitude From(double[] timeS, double[] rollDeg, double[] pitchDeg, double[] headingDeg)
    {
        double[] east = new double[timeS.Length], north = new double[timeS.Length];
        for (int i = 0; i < timeS.Length; i++)
        {
            (double sr, double cr) = Math.SinCos(double.DegreesToRadians(rollDeg[i]));
            (double sp, double cp) = Math.SinCos(double.DegreesToRadians(pitchDeg[i]));
            (double sh, double ch) = Math.SinCos(double.DegreesToRadians(headingDeg[i]));
            // Body up axis in a level frame that points along the heading: nose up leans it back, right roll leans it right.
            double ahead = -sp * cr, right = sr, up = cp * cr;
            east[i] = (ahead * sh + right * ch) / up;
            north[i] = (ahead * ch - right * sh) / up;
        }
        return new(timeS, east, north);
    }
}

/// <summary>The swing of a loaded leg, or why there is none.</summary>
/// <param name="Trace">The swing; null when it can't be judged.</param>
/// <param name="Reason">Why it can't be judged, in one plain sentence; null when it can.</param>
public sealed record SwingEstimate(SwingTrace? Trace, string? Reason)
{
    /// <summary>Relative error of the entered length this leg points to (positive: the real line is longer), and its standard error; zero information gives the entered error back.</summary>
    public (double Value, double Error) LengthDeviation { get; init; }

    /// <summary>Load to aircraft mass ratio used, from attitude where there is one.</summary>
    public double MassRatio { get; init; }
}
