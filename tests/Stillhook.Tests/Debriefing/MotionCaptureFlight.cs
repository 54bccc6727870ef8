using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using UnitsNet;

namespace Stillhook.Tests.Debriefing;

/// <summary>A motion-captured flight: carrier and load measured, for judging the estimate of the swing. Sources: tests/data/swing/README.md.</summary>
internal sealed class MotionCaptureFlight
{
    internal required double[] TimeS { get; init; }
    internal required double[] East { get; init; }
    internal required double[] North { get; init; }
    internal required double[] Up { get; init; }
    internal required SwingAttitude Attitude { get; init; }

    /// <summary>True load from carrier, m east, north, up, at the same times.</summary>
    internal required Enu[] LoadFromCarrierEnu { get; init; }

    internal required double PositionErrorM { get; init; }

    /// <summary>Times faster than a 31.6 m line (1 or √10): scales what the hook's motion may do.</summary>
    internal required double TimeScale { get; init; }

    internal double LengthM => LoadFromCarrierEnu.Select(l => l.Length).Order().ElementAt(TimeS.Length / 2);

    private static string Folder
    {
        get
        {
            string? at = AppContext.BaseDirectory;
            while (at is not null && !Directory.Exists(Path.Combine(at, "tests", "data", "swing")))
                at = Path.GetDirectoryName(at);
            return Path.Combine(at ?? throw new DirectoryNotFoundException("tests/data/swing"), "tests", "data", "swing");
        }
    }

    private static double[][] Rows(string file) => [.. File.ReadLines(Path.Combine(Folder, file)).Skip(1).Where(l => l.Length > 0).Select(Row)];

    private static double[] Row(string line) => [.. line.Split(',').Select(Cell)];

    private static double Cell(string text) => text.EndsWith('Z')
        ? (DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal) - DateTime.UnixEpoch).TotalSeconds
        : double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>A flight as captured: 3.16 m cable, indoors.</summary>
    internal static MotionCaptureFlight Real(int number) => real.GetOrAdd(number, ReadReal);

    private static readonly System.Collections.Concurrent.ConcurrentDictionary<int, MotionCaptureFlight> real = new();

    private static MotionCaptureFlight ReadReal(int number)
    {
        double[][] rows = Rows($"slung_multirotor_{number}.csv");
        double[] time = Times(rows);
        return new()
        {
            TimeS = time,
            East = [.. rows.Select(r => r[1])],
            North = [.. rows.Select(r => r[2])],
            Up = [.. rows.Select(r => r[3])],
            Attitude = FromQuaternions(time, rows),
            LoadFromCarrierEnu = [.. rows.Select(r => new Enu(r[8] - r[1], r[9] - r[2], r[10] - r[3]))],
            PositionErrorM = 0.01, // uneven shutter times at up to 3 m/s
            TimeScale = Math.Sqrt(10),
        };
    }

    /// <summary>
    /// When each row was taken, s. The source gives no times and its frames come unevenly, with some lost: the carrier's own even motion
    /// says when. Lost frames: a step at least twice the usual, not made good by its neighbours. Uneven frames: the distance along the
    /// path from a parabola through the five frames before and after, over the speed.
    /// </summary>
    private static double[] Times(double[][] rows)
    {
        const double FrameRate = 30.15; // the columns say 30; the load's own pendulum law fits 30.1 to 30.2 (own measurement)
        double[] time = new double[rows.Length];
        double Step(int i) => i < 1 || i >= rows.Length ? 0 : Math.Sqrt(Math.Pow(rows[i][1] - rows[i - 1][1], 2) + Math.Pow(rows[i][2] - rows[i - 1][2], 2));
        for (int i = 1; i < rows.Length; i++)
        {
            double usual = Enumerable.Range(1, 6).SelectMany(j => new[] { Step(i - j), Step(i + j) }).Order().ElementAt(6);
            double window = Enumerable.Range(-2, 5).Sum(j => Step(i + j));
            int lost = usual > 0.02 && Step(i) > 2.5 * usual ? Math.Max(0, (int)Math.Round(window / usual - 0.3) - 5) : 0;
            time[i] = time[i - 1] + (1 + lost) / FrameRate;
        }
        for (int round = 0; round < 6; round++)
            time = Evened(time, rows, 1 / FrameRate);
        return time;
    }

    private static double[] Evened(double[] time, double[][] rows, double most)
    {
        double[] evened = [.. time];
        for (int i = 6; i < rows.Length - 6; i++)
        {
            (double x, double vx) = Parabola(time, rows, i, 1);
            (double y, double vy) = Parabola(time, rows, i, 2);
            double speed2 = vx * vx + vy * vy;
            if (speed2 > 0.09)
                evened[i] = time[i] + Math.Clamp(0.7 * ((rows[i][1] - x) * vx + (rows[i][2] - y) * vy) / speed2, -most, most);
        }
        for (int i = 1; i < evened.Length; i++)
            evened[i] = Math.Max(evened[i], evened[i - 1] + 0.002);
        return evened;
    }

    /// <summary>Value and slope at row i of the parabola through the rows around it, least squares.</summary>
    private static (double Value, double Slope) Parabola(double[] time, double[][] rows, int i, int column)
    {
        double s1 = 0, s2 = 0, s3 = 0, s4 = 0, y0 = 0, y1 = 0, y2 = 0;
        const int Half = 5;
        for (int j = i - Half; j <= i + Half; j++)
        {
            double t = time[j] - time[i], y = rows[j][column];
            (s1, s2, s3, s4) = (s1 + t, s2 + t * t, s3 + t * t * t, s4 + t * t * t * t);
            (y0, y1, y2) = (y0 + y, y1 + y * t, y2 + y * t * t);
        }
        const double N = 2 * Half + 1;
        double det = N * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s3 * s2) + s2 * (s1 * s3 - s2 * s2);
        double value = (y0 * (s2 * s4 - s3 * s3) - s1 * (y1 * s4 - s3 * y2) + s2 * (y1 * s3 - s2 * y2)) / det;
        double slope = (N * (y1 * s4 - y2 * s3) - y0 * (s1 * s4 - s3 * s2) + s2 * (s1 * y2 - s2 * y1)) / det;
        return (value, slope);
    }

    /// <summary>A flight enlarged ten times by dynamic similarity, as a satellite and attitude recorder would hold it.</summary>
    internal static MotionCaptureFlight Scaled(string name, double positionErrorM)
    {
        double[][] carrier = Rows($"scaled10_{name}_carrier.csv"), truth = Rows($"scaled10_{name}_truth.csv");
        var frame = new LocalFrame(carrier[0][1], carrier[0][2], carrier[0][3]);
        Enu[] at = [.. carrier.Select(r => frame.ToEnu(r[1], r[2], r[3]))];
        double[] time = [.. carrier.Select(r => r[0])];
        return new()
        {
            TimeS = time,
            East = [.. at.Select(p => p.East)],
            North = [.. at.Select(p => p.North)],
            Up = [.. at.Select(p => p.Up)],
            Attitude = SwingAttitude.From(time, [.. carrier.Select(r => r[4])], [.. carrier.Select(r => r[5])], [.. carrier.Select(r => r[6])]),
            LoadFromCarrierEnu = [.. truth.Select(r => new Enu(r[1], r[2], r[3]))],
            PositionErrorM = positionErrorM,
            TimeScale = 1,
        };
    }

    private static SwingAttitude FromQuaternions(double[] time, double[][] rows)
    {
        // Third column of the rotation matrix: the body's up axis in the room.
        static (double X, double Y, double Z) UpAxis(double x, double y, double z, double w) =>
            (2 * (x * z + w * y), 2 * (y * z - w * x), 1 - 2 * (x * x + y * y));
        var axes = rows.Select(r => UpAxis(r[4], r[5], r[6], r[7])).ToArray();
        return new(time, [.. axes.Select(a => a.X / a.Z)], [.. axes.Select(a => a.Y / a.Z)]);
    }

    /// <summary>Track by fitting a parabola to the fixes around each one; the tests of the smoother have their own place.</summary>
    internal Track ToTrack()
    {
        double step = (TimeS[^1] - TimeS[0]) / (TimeS.Length - 1);
        int half = Math.Max(2, (int)Math.Round(1.2 / TimeScale / step));
        (double[] ve, double[] ae) = Derivatives(East, half, step);
        (double[] vn, double[] an) = Derivatives(North, half, step);
        (double[] vu, double[] au) = Derivatives(Up, half, step);
        float[] unknown = new float[TimeS.Length];
        return new()
        {
            Frame = new LocalFrame(0, 0, 0),
            TimeS = TimeS,
            East = East,
            North = North,
            Up = Up,
            VelocityEast = ve,
            VelocityNorth = vn,
            VelocityUp = vu,
            AccelerationEast = ae,
            AccelerationNorth = an,
            AccelerationUp = au,
            HorizontalErrorM = unknown,
            HorizontalVelocityErrorMs = unknown,
            HorizontalAccelerationErrorMs2 = unknown,
            HeightErrorM = unknown,
            ClimbErrorMs = unknown,
            VerticalAccelerationErrorMs2 = unknown,
            StretchStarts = [0],
            HasHeight = true,
            Fixes = new TrackFixes(East, North, [], [], PositionErrorM, 0.1),
        };
    }

    private static (double[] First, double[] Second) Derivatives(double[] x, int half, double step)
    {
        double[] first = new double[x.Length], second = new double[x.Length];
        for (int i = 0; i < x.Length; i++)
        {
            int c = Math.Clamp(i, half, x.Length - 1 - half);
            double s1 = 0, s2 = 0, q1 = 0, q2 = 0, m2 = (half * (half + 1)) / 3.0;
            for (int j = -half; j <= half; j++)
            {
                s1 += j * x[c + j];
                q1 += j * j;
                s2 += (j * j - m2) * x[c + j];
                q2 += (j * j - m2) * (j * j - m2);
            }
            second[i] = 2 * s2 / q2 / (step * step);
            first[i] = s1 / q1 / step + second[i] * (i - c) * step;
        }
        return (first, second);
    }

    internal LiftSetup Setup => new()
    {
        Line = new(Length.FromMeters(LengthM), Origin.Typed),
        Load = new(Mass.FromKilograms(0.46), Origin.Typed),
        Aircraft = new(Mass.FromKilograms(1.83), Origin.Typed),
        DragArea = new(Area.FromSquareMeters(TimeScale > 1 ? 0.01 : 0.001), Origin.Assumed),
        Wind = new(new Wind(0, Speed.Zero), Origin.Typed),
    };

    internal SwingEstimate Estimate(SwingOptions? options = null) => SwingEstimator.Estimate(ToTrack(), TimeS[0], TimeS[^1], Setup, options ?? new SwingOptions
    {
        Attitude = Attitude,
        AtRestAtStart = false,
        SetDownAtEnd = false,
        JerkDensity = 1 * TimeScale, // m²/s⁵; by similarity jerk² · time grows with the time scale
        LoadDisturbance = 0.13 / TimeScale, // m²/s³; a rotor close above the load
    });

    /// <summary>Angle between estimated and true direction hook to load (degrees RMS), swing RMS, and share of components inside ±1.645 standard errors.</summary>
    internal (double ErrorDeg, double SwingDeg, double Coverage) Judge(SwingTrace trace)
    {
        double squares = 0, swing = 0, inside = 0;
        for (int i = 0; i < TimeS.Length; i++)
        {
            (double e, double n, double ee, double en) = At(trace, TimeS[i]);
            Enu truth = (trace.LengthM / LoadFromCarrierEnu[i].Length) * LoadFromCarrierEnu[i];
            double error = AngleDeg(new(e, n, -Math.Sqrt(Math.Max(0, trace.LengthM * trace.LengthM - e * e - n * n))), truth);
            squares += error * error;
            double angle = AngleDeg(truth, new(0, 0, -1));
            swing += angle * angle;
            inside += (Math.Abs(e - truth.East) < 1.645 * ee ? 0.5 : 0) + (Math.Abs(n - truth.North) < 1.645 * en ? 0.5 : 0);
        }
        int count = TimeS.Length;
        return (Math.Sqrt(squares / count), Math.Sqrt(swing / count), inside / count);
    }

    internal static (double E, double N, double ErrorE, double ErrorN) At(SwingTrace t, double time)
    {
        double x = Math.Clamp((time - t.StartTimeS) / t.StepS, 0, t.EastM.Length - 1.000001);
        int i = (int)x;
        double f = x - i;
        double Between(double[] a) => a[i] + f * (a[i + 1] - a[i]);
        return (Between(t.EastM), Between(t.NorthM), Between(t.EastErrorM), Between(t.NorthErrorM));
    }

    /// <summary>
    /// The plain way, for comparison: a spherical pendulum driven by the carrier's smoothed acceleration, 5 % damping, no attitude, the true
    /// start given. Degrees RMS of the load direction over the whole flight.
    /// </summary>
    internal double PlainPendulumErrorDeg()
    {
        Track track = ToTrack();
        double length = LengthM, damping = 0.1 * Math.Sqrt(Gravity.Standard / length), squares = 0;
        Enu q = (1 / LoadFromCarrierEnu[0].Length) * LoadFromCarrierEnu[0];
        Enu next = (1 / LoadFromCarrierEnu[5].Length) * LoadFromCarrierEnu[5];
        Enu rate = (1 / (TimeS[5] - TimeS[0])) * (next - q);
        for (int i = 1; i < TimeS.Length; i++)
        {
            double step = (TimeS[i] - TimeS[i - 1]) / 4;
            for (int j = 0; j < 4; j++)
            {
                // q'' = −|q'|² q + (G − a)⊥ / L − c q', semi-implicit Euler in quarters of a frame.
                Enu drive = (-1 / length) * (track.At(TimeS[i - 1] + (j + 0.5) * step).Acceleration + new Enu(0, 0, Gravity.Standard));
                double along = Dot(drive, q);
                rate += step * (drive - along * q - damping * rate);
                rate -= Dot(rate, q) * q;
                q += step * rate;
                q = (1 / q.Length) * q;
            }
            double error = AngleDeg(q, LoadFromCarrierEnu[i]);
            squares += error * error;
        }
        return Math.Sqrt(squares / TimeS.Length);
    }

    private static double Dot(Enu a, Enu b) => a.East * b.East + a.North * b.North + a.Up * b.Up;

    internal static double AngleDeg(Enu a, Enu b)
    {
        Enu cross = new(a.North * b.Up - a.Up * b.North, a.Up * b.East - a.East * b.Up, a.East * b.North - a.North * b.East);
        return double.RadiansToDegrees(Math.Atan2(cross.Length, a.East * b.East + a.North * b.North + a.Up * b.Up));
    }
}
