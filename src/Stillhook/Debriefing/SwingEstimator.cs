using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>The load's swing worked out from the aircraft's own motion: hook and load are estimated together by a Kalman smoother.</summary>
/// <remarks>
/// See docs/method/swing.md. Needs fixes at least every 2.5 s without a long gap. Where the line goes slack (load on the ground) the
/// result means nothing; give lift-off and contact as the ends.
/// </remarks>
public static class SwingEstimator
{
    /// <summary>Largest median time between fixes that still shows a pendulum of 8 s and more, s (common practice, no source: three fixes a period).</summary>
    public const double LongestStepS = 2.5;

    private const double AirDensity = 1.225; // kg/m³, ISA sea level; the drag area's own error is larger than the change with height
    private const int Passes = 2;

    // What the thrust's lean leaves unexplained, m/s². Own measurement on the motion-captured flights.
    private const double TiltError = 0.17;

    // Spread of one component of the offset over the line, at lift-off and at set-down. Own measurement: simulated pilots lift off with less
    // than 0.015 and set down with 0.014 to 0.018 (root mean square); a pilot who sets down with more is still seen, as the prior is weak.
    private const double AtRestSpread = 0.018, SetDownSpread = 0.018;

    /// <summary>Estimates the swing between two times.</summary>
    /// <param name="track">Smoothed track with its fixes.</param>
    /// <param name="fromTimeS">Lift-off, s since 1970 UTC.</param>
    /// <param name="toTimeS">Contact, s since 1970 UTC.</param>
    /// <param name="setup">Length, masses, drag, wind.</param>
    /// <param name="options">What else is known; defaults fit a loaded leg from lift-off to contact.</param>
    public static SwingEstimate Estimate(Track track, double fromTimeS, double toTimeS, LiftSetup setup, SwingOptions? options = null)
    {
        options ??= new SwingOptions();
        if (NotAssessable(track, fromTimeS, toTimeS, setup) is { } reason)
            return new(null, reason);
        var leg = new Leg(track, fromTimeS, toTimeS, setup, options);
        for (int pass = 0; pass < Passes; pass++)
            leg.Pass(withErrors: pass == Passes - 1);
        return leg.Result();
    }

    private static string? NotAssessable(Track track, double from, double to, LiftSetup setup)
    {
        double length = setup.SwingLengthM;
        if (!(length > 0.5) || length > 300)
            return $"The length from hook to load is {length:0.##} m; 0.5 to 300 m can be judged.";
        if (!(to > from))
            return "Lift-off and contact are not both known.";
        if (track.Fixes is not { } fixes)
            return "The track doesn't hold the fixes it was made from.";
        int first = LowerBound(track.TimeS, from), last = LowerBound(track.TimeS, to);
        if (last - first < 8)
            return "Fewer than eight fixes between lift-off and contact.";
        double median = (track.TimeS[last - 1] - track.TimeS[first]) / (last - 1 - first);
        if (median > LongestStepS)
            return $"One fix every {median:0.#} s is too slow to see a swing; at most {LongestStepS} s can be judged.";
        double longest = Math.Max(track.TimeS[first] - from, to - track.TimeS[last - 1]);
        for (int i = first + 1; i < last; i++)
            longest = Math.Max(longest, track.TimeS[i] - track.TimeS[i - 1]);
        double allowed = Math.Max(5, Math.PI * Math.Sqrt(length / Gravity.Standard));
        return longest > allowed ? $"A gap of {longest:0} s in the loaded leg is longer than half a swing." : null;
    }

    private static int LowerBound(double[] times, double t)
    {
        int i = Array.BinarySearch(times, t);
        return i < 0 ? ~i : i;
    }

    /// <summary>Work on one leg: the grid, the last pass's motion and the two axes.</summary>
    private sealed class Leg
    {
        private readonly Track track;
        private readonly TrackFixes fixes;
        private readonly LiftSetup setup;
        private readonly SwingOptions options;
        private readonly double start, h, length, massRatio, dragOverMass, lengthError;
        private readonly int nodes, firstFix, endFix;
        private readonly Enu wind;
        private readonly double[] hookEast, hookNorth, hookUp; // reference acceleration and velocity, interleaved
        private readonly double[] lambda, dragRate, verticalG, height;
        private readonly SwingAxisFilter east, north;
        private double positionVariance, velocityVariance;
        private bool started;

        internal Leg(Track track, double from, double to, LiftSetup setup, SwingOptions options)
        {
            (this.track, this.setup, this.options, fixes) = (track, setup, options, track.Fixes!);
            length = setup.SwingLengthM;
            massRatio = Math.Clamp(setup.Load.Value.Kilograms / setup.Aircraft.Value.Kilograms, 0.02, 2);
            dragOverMass = AirDensity * setup.DragArea.Value.SquareMeters / (2 * setup.Load.Value.Kilograms);
            wind = setup.Wind?.Value.VelocityEnu ?? default;
            lengthError = options.LengthError ?? (setup.Line.From == Origin.Assumed ? 0.15 : 0.015);
            double period = 2 * Math.PI * Math.Sqrt(length / Gravity.Standard);
            start = from;
            nodes = Math.Max(2, (int)Math.Ceiling((to - from) / Math.Min(0.2, period / 50)) + 1);
            h = (to - from) / (nodes - 1);
            firstFix = LowerBound(track.TimeS, from - h / 2);
            endFix = LowerBound(track.TimeS, to + h / 2);
            hookEast = new double[2 * nodes];
            hookNorth = new double[2 * nodes];
            hookUp = new double[2 * nodes];
            lambda = new double[nodes];
            dragRate = new double[nodes];
            verticalG = new double[nodes];
            height = new double[nodes];
            int most = 2 * (endFix - firstFix) + nodes + 16;
            east = new(nodes, h, options.Attitude is not null, most);
            north = new(nodes, h, options.Attitude is not null, most);
            double dt = (track.TimeS[endFix - 1] - track.TimeS[firstFix]) / (endFix - 1 - firstFix);
            // The slow part of a satellite position wanders; near the swing's frequency it adds this much to what each fix says.
            double drift = 0.06 * fixes.PositionErrorM / 0.3 * Math.Sqrt(length / Gravity.Standard);
            positionVariance = fixes.PositionErrorM * fixes.PositionErrorM + drift * drift / dt;
            velocityVariance = fixes.VelocityErrorMs * fixes.VelocityErrorMs;
            FirstReference();
        }

        private void FirstReference()
        {
            for (int k = 0; k < nodes; k++)
            {
                TrackPoint p = track.At(start + k * h);
                (hookEast[2 * k], hookEast[2 * k + 1]) = (p.Acceleration.East, p.Velocity.East);
                (hookNorth[2 * k], hookNorth[2 * k + 1]) = (p.Acceleration.North, p.Velocity.North);
                if (track.HasHeight)
                    (hookUp[2 * k], hookUp[2 * k + 1]) = (p.Acceleration.Up, p.Velocity.Up);
                verticalG[k] = Math.Max(2, Gravity.Standard + hookUp[2 * k]);
            }
            UpdateLineForce();
        }

        /// <summary>Line force and drag along the last pass's motion (rest under the hook before the first).</summary>
        private void UpdateLineForce()
        {
            for (int k = 0; k < nodes; k++)
            {
                (double re, double se) = Offset(east, k);
                (double rn, double sn) = Offset(north, k);
                double z = -Math.Sqrt(length * length - re * re - rn * rn), zRate = -(re * se + rn * sn) / z;
                (double ve, double vn, double vu) = (hookEast[2 * k + 1] + se - WindOf(east, k, wind.East),
                    hookNorth[2 * k + 1] + sn - WindOf(north, k, wind.North), hookUp[2 * k + 1] + zRate);
                double rate = dragOverMass * Math.Sqrt(ve * ve + vn * vn + vu * vu);
                double fe = -rate * ve - hookEast[2 * k], fn = -rate * vn - hookNorth[2 * k], fz = -rate * vu - verticalG[k];
                double force = (se * se + sn * sn + zRate * zRate) / length + (re * fe + rn * fn + z * fz) / length;
                (lambda[k], dragRate[k], height[k]) = (Math.Max(force, 0) / length, rate, -z);
            }
        }

        private (double R, double S) Offset(SwingAxisFilter axis, int k)
        {
            if (!started)
                return (0, 0);
            double limit = 0.65 * length;
            int at = k * axis.StateCount;
            return (Math.Clamp(axis.Mean[at + SwingAxisFilter.R], -limit, limit), axis.Mean[at + SwingAxisFilter.S]);
        }

        private double WindOf(SwingAxisFilter axis, int k, double said) => started ? axis.Mean[k * axis.StateCount + SwingAxisFilter.W] : said;

        internal void Pass(bool withErrors)
        {
            double[] normalised = [0, 0, 0, 0];
            RunAxis(east, hookEast, wind.East, fixes.East, fixes.VelocityEast, options.Attitude?.TiltEast, normalised, withErrors);
            RunAxis(north, hookNorth, wind.North, fixes.North, fixes.VelocityNorth, options.Attitude?.TiltNorth, normalised, withErrors);
            positionVariance *= NoiseFactor(normalised[0], normalised[1]);
            velocityVariance *= NoiseFactor(normalised[2], normalised[3]);
            started = true;
            for (int k = 0; k < nodes; k++)
            {
                (hookEast[2 * k], hookEast[2 * k + 1]) = (east.Mean[k * east.StateCount + SwingAxisFilter.A], east.Mean[k * east.StateCount + SwingAxisFilter.V]);
                (hookNorth[2 * k], hookNorth[2 * k + 1]) = (north.Mean[k * north.StateCount + SwingAxisFilter.A], north.Mean[k * north.StateCount + SwingAxisFilter.V]);
            }
            UpdateLineForce();
        }

        // Innovations that are larger than the stated noise say that the noise was stated too small, and the other way round.
        private static double NoiseFactor(double sum, double count) => count < 20 ? 1 : Math.Clamp(sum / count, 0.5, 4);

        private void RunAxis(SwingAxisFilter axis, double[] hook, double said, double[] position, double[] velocity, double[]? tilt, double[] normalised, bool withErrors)
        {
            Begin(axis, hook, said, position);
            int fix = firstFix, lean = tilt is null ? 0 : LowerBound(options.Attitude!.TimeS, start - h / 2);
            for (int k = 0; k < nodes; k++)
            {
                if (k > 0)
                    axis.Step(k, Model(axis, hook, said, k));
                double until = start + (k + 0.5) * h;
                for (; fix < endFix && track.TimeS[fix] < until; fix++)
                    TakeFix(axis, k, track.TimeS[fix] - start - k * h, position[fix], velocity.Length == 0 ? double.NaN : velocity[fix], normalised);
                if (tilt is not null)
                    lean = TakeTilt(axis, hook, k, lean, until, tilt);
            }
            if (options.SetDownAtEnd)
                TakeSetDown(axis);
            axis.Smooth(withErrors);
        }

        private void Begin(SwingAxisFilter axis, double[] hook, double said, double[] position)
        {
            Span<double> mean = stackalloc double[10], error = stackalloc double[10];
            mean.Clear();
            double w0 = Math.Sqrt(Gravity.Standard / length);
            (mean[SwingAxisFilter.P], error[SwingAxisFilter.P]) = (position[firstFix], 20);
            (mean[SwingAxisFilter.V], error[SwingAxisFilter.V]) = (hook[1], 5);
            error[SwingAxisFilter.A] = 1.5 * Math.Max(1, Math.Sqrt(options.JerkDensity / 0.08));
            error[SwingAxisFilter.R] = options.AtRestAtStart ? AtRestSpread * length : 0.2 * length;
            error[SwingAxisFilter.S] = error[SwingAxisFilter.R] * w0;
            error[SwingAxisFilter.D] = lengthError;
            error[SwingAxisFilter.E] = setup.DragArea.From == Origin.Assumed ? 0.5 : 0.25;
            (mean[SwingAxisFilter.W], error[SwingAxisFilter.W]) = (said, setup.Wind is null ? 3 : 1.3);
            (mean[SwingAxisFilter.U], error[SwingAxisFilter.U]) = (massRatio, 0.03 * massRatio);
            error[SwingAxisFilter.B] = 0.5;
            axis.Start(mean, error);
        }

        private StepModel Model(SwingAxisFilter axis, double[] hook, double said, int k)
        {
            int j = k - 1, a = k * axis.StateCount, b = j * axis.StateCount;
            double Middle(int state) => started ? (axis.Mean[a + state] + axis.Mean[b + state]) / 2 : 0;
            double w = started ? Middle(SwingAxisFilter.W) : said;
            return new()
            {
                Lambda = (lambda[k] + lambda[j]) / 2,
                LambdaError = Middle(SwingAxisFilter.D),
                Offset = Middle(SwingAxisFilter.R),
                DragRate = (dragRate[k] + dragRate[j]) / 2,
                DragError = Middle(SwingAxisFilter.E),
                AirSpeed = (hook[2 * k + 1] + hook[2 * j + 1]) / 2 + Middle(SwingAxisFilter.S) - w,
                JerkDensity = options.JerkDensity,
                LoadDensity = options.LoadDisturbance,
                WindDensity = 0.005 * TimeScale,
                BiasDensity = options.Attitude is null ? 0 : 0.001 / TimeScale,
            };
        }

        private double TimeScale => Math.Sqrt(length / 30);

        private void TakeFix(SwingAxisFilter axis, int k, double late, double position, double velocity, double[] normalised)
        {
            Span<double> design = stackalloc double[10];
            design.Clear();
            if (!double.IsNaN(position))
            {
                (design[SwingAxisFilter.P], design[SwingAxisFilter.V], design[SwingAxisFilter.A]) = (1, late, late * late / 2);
                normalised[0] += axis.Measure(k, position, design, positionVariance);
                normalised[1]++;
            }
            if (!double.IsNaN(velocity))
            {
                (design[SwingAxisFilter.P], design[SwingAxisFilter.V], design[SwingAxisFilter.A]) = (0, 1, late);
                normalised[2] += axis.Measure(k, velocity, design, velocityVariance);
                normalised[3]++;
            }
        }

        /// <summary>Thrust lean: g′·tilt·(1+µ) = a − µ·g′·r/height. The mean lean of one step is one measurement.</summary>
        private int TakeTilt(SwingAxisFilter axis, double[] hook, int k, int lean, double until, double[] tilt)
        {
            double sum = 0, g = verticalG[k];
            int count = 0;
            for (; lean < tilt.Length && options.Attitude!.TimeS[lean] < until; lean++, count++)
                sum += tilt[lean];
            if (count == 0 || double.IsNaN(sum))
                return lean;
            double mu = started ? Math.Max(axis.Mean[k * axis.StateCount + SwingAxisFilter.U], 0.02) : massRatio;
            (double r, _) = Offset(axis, k);
            double slope = (hook[2 * k] + g * r / height[k]) / ((1 + mu) * (1 + mu));
            Span<double> design = stackalloc double[10];
            design.Clear();
            design[SwingAxisFilter.A] = 1 / (1 + mu);
            design[SwingAxisFilter.R] = -mu * g / height[k] / (1 + mu);
            design[SwingAxisFilter.U] = -slope;
            design[SwingAxisFilter.B] = 1;
            double interval = (options.Attitude!.TimeS[^1] - options.Attitude.TimeS[0]) / (options.Attitude.TimeS.Length - 1);
            // Lean and thrust differ by what was not modelled, which lasts: independent only about once in three radians of swing.
            double every = Math.Max(interval, h);
            double variance = TiltError * TiltError * Math.Max(1, 3 * Math.Sqrt(length / Gravity.Standard) / every);
            axis.Measure(k, g * sum / count - slope * mu, design, variance);
            return lean;
        }

        private void TakeSetDown(SwingAxisFilter axis)
        {
            Span<double> design = stackalloc double[10];
            design.Clear();
            double w0 = Math.Sqrt(Gravity.Standard / length), spread = SetDownSpread * length;
            design[SwingAxisFilter.R] = 1;
            axis.Measure(nodes - 1, 0, design, spread * spread);
            (design[SwingAxisFilter.R], design[SwingAxisFilter.S]) = (0, 1);
            axis.Measure(nodes - 1, 0, design, spread * spread * w0 * w0);
        }

        internal SwingEstimate Result()
        {
            double[] re = Column(east, SwingAxisFilter.R), rn = Column(north, SwingAxisFilter.R);
            (double[] le, double[] ln) = Leans();
            double[] ee = Errors(east, SwingAxisFilter.R), en = Errors(north, SwingAxisFilter.R);
            (double deviation, double error) = Deviation();
            var trace = new SwingTrace
            {
                StartTimeS = start,
                StepS = h,
                EastM = re,
                NorthM = rn,
                EastRateMs = Column(east, SwingAxisFilter.S),
                NorthRateMs = Column(north, SwingAxisFilter.S),
                ShownEastM = [.. re.Zip(le, (r, l) => r - l)],
                ShownNorthM = [.. rn.Zip(ln, (r, l) => r - l)],
                ErrorM = Together(ee, en),
                EastErrorM = ee,
                NorthErrorM = en,
                RateErrorMs = Together(Errors(east, SwingAxisFilter.S), Errors(north, SwingAxisFilter.S)),
                LengthM = length,
                FrequencyRadS = Math.Sqrt(Gravity.Standard / length) * (1 + deviation / 2),
                FrequencyIdentified = error < 0.5 * lengthError,
            };
            double mass = options.Attitude is null ? massRatio
                : (Last(east, SwingAxisFilter.U) + Last(north, SwingAxisFilter.U)) / 2;
            return new(trace, null) { LengthDeviation = (-deviation, error), MassRatio = mass };
        }

        /// <summary>Relative deviation of λ from both axes; each holds the entered length once, so its information is counted once.</summary>
        private (double Value, double Error) Deviation()
        {
            double prior = 1 / (lengthError * lengthError), information = prior, weighted = 0;
            foreach (SwingAxisFilter axis in (ReadOnlySpan<SwingAxisFilter>)[east, north])
            {
                double own = 1 / Math.Max(axis.Variance[(nodes - 1) * axis.StateCount + SwingAxisFilter.D], 1e-12);
                information += Math.Max(own - prior, 0);
                weighted += own * Last(axis, SwingAxisFilter.D);
            }
            // The swing's frequency lies between a held hook and an aircraft that swings freely with its load.
            double low = -2 * lengthError, high = massRatio + 2 * lengthError;
            return (Math.Clamp(weighted / information, low, high), Math.Sqrt(1 / information));
        }

        private double Last(SwingAxisFilter axis, int state) => axis.Mean[(nodes - 1) * axis.StateCount + state];

        /// <summary>Where the load would hang at this air speed and hook acceleration, the acceleration taken over a quarter swing.</summary>
        private (double[] East, double[] North) Leans()
        {
            int half = Math.Max(1, (int)Math.Round(Math.PI / 4 * Math.Sqrt(length / Gravity.Standard) / h));
            double[] le = new double[nodes], ln = new double[nodes];
            for (int k = 0; k < nodes; k++)
            {
                int a = Math.Max(0, k - half), b = Math.Min(nodes - 1, k + half);
                double span = (b - a) * h;
                double ve = hookEast[2 * k + 1] - WindOf(east, k, 0), vn = hookNorth[2 * k + 1] - WindOf(north, k, 0);
                double rate = dragOverMass * Math.Sqrt(ve * ve + vn * vn);
                double fe = -rate * (1 + Last(east, SwingAxisFilter.E)) * ve - (hookEast[2 * b + 1] - hookEast[2 * a + 1]) / span;
                double fn = -rate * (1 + Last(north, SwingAxisFilter.E)) * vn - (hookNorth[2 * b + 1] - hookNorth[2 * a + 1]) / span;
                double scale = length / Math.Sqrt(fe * fe + fn * fn + verticalG[k] * verticalG[k]);
                (le[k], ln[k]) = (scale * fe, scale * fn);
            }
            return (le, ln);
        }

        private double[] Column(SwingAxisFilter axis, int state)
        {
            double[] values = new double[nodes];
            for (int k = 0; k < nodes; k++)
                values[k] = axis.Mean[k * axis.StateCount + state];
            return values;
        }

        private double[] Errors(SwingAxisFilter axis, int state)
        {
            double[] values = new double[nodes];
            for (int k = 0; k < nodes; k++)
                values[k] = Math.Sqrt(axis.Variance[k * axis.StateCount + state]);
            return values;
        }

        private static double[] Together(double[] a, double[] b) => [.. a.Zip(b, (x, y) => Math.Sqrt((x * x + y * y) / 2))];
    }
}
