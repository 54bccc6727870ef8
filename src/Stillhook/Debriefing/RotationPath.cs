using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>The hook's motion on an even time grid: what finding and measuring work on. Heights are above the level surface through the frame's origin.</summary>
internal sealed class RotationPath
{
    private RotationPath(double startS, double stepS, int count)
    {
        (StartS, StepS) = (startS, stepS);
        (East, North, Height, Speed, Climb) = (new double[count], new double[count], new double[count], new double[count], new double[count]);
        (VelocityEast, VelocityNorth) = (new double[count], new double[count]);
    }

    public double StartS { get; }
    public double StepS { get; }
    public double[] East { get; }
    public double[] North { get; }

    /// <summary>Height of the hook, m.</summary>
    public double[] Height { get; }

    /// <summary>Ground speed, m/s, at the moment.</summary>
    public double[] Speed { get; }

    /// <summary>Vertical speed, m/s, up positive.</summary>
    public double[] Climb { get; }
    public double[] VelocityEast { get; }
    public double[] VelocityNorth { get; }
    public int Count => East.Length;

    public double Time(int i) => StartS + i * StepS;

    public int Index(double timeS) => Math.Clamp((int)Math.Round((timeS - StartS) / StepS), 0, Count - 1);

    public Enu Position(int i) => new(East[i], North[i], Height[i]);

    public static RotationPath Sample(Track track, double fromS, double toS, double stepS)
    {
        fromS = Math.Max(fromS, track.TimeS[0]);
        toS = Math.Min(toS, track.TimeS[^1]);
        int count = Math.Max(1, (int)Math.Floor((toS - fromS) / stepS) + 1);
        var path = new RotationPath(fromS, stepS, count);
        for (int i = 0; i < count; i++)
        {
            TrackPoint p = track.At(fromS + i * stepS);
            path.East[i] = p.Position.East;
            path.North[i] = p.Position.North;
            path.Height[i] = p.Position.Up;
            path.VelocityEast[i] = p.Velocity.East;
            path.VelocityNorth[i] = p.Velocity.North;
            path.Speed[i] = p.Velocity.Horizontal;
            path.Climb[i] = p.Velocity.Up;
        }
        return path;
    }

    /// <summary>Mean ground speed over 1 s round a time, m/s.</summary>
    public double MeanSpeed(int i)
    {
        int half = (int)Math.Round(0.5 / StepS);
        int from = Math.Max(0, i - half), to = Math.Min(Count - 1, i + half);
        double sum = 0;
        for (int k = from; k <= to; k++)
            sum += Speed[k];
        return sum / (to - from + 1);
    }

    public double DistanceTo(int i, Enu place)
    {
        double e = East[i] - place.East, n = North[i] - place.North;
        return Math.Sqrt(e * e + n * n);
    }
}
