using System.Collections.Concurrent;
using Google.OrTools.LinearSolver;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Approaching;

/// <summary>An approach to be made: from steady level cruise to rest over the spot.</summary>
/// <param name="Name">How the case is called.</param>
/// <param name="LengthM">Hook to load, m.</param>
/// <param name="DistanceM">From the load to the spot at the start, m.</param>
/// <param name="SpeedMs">Ground speed at the start, m/s; no wind.</param>
/// <param name="LimitMs2">Largest deceleration of the hook, m/s².</param>
/// <param name="HeightM">Load above the spot at the start, m; null leaves height out.</param>
internal sealed record OracleCase(string Name, double LengthM, double DistanceM, double SpeedMs, double LimitMs2, double? HeightM = null);

/// <summary>What the search for the shortest time is held to, besides the case.</summary>
/// <param name="ForwardMs2">Largest forward acceleration of the hook, m/s²; 0 means that the hook never surges forward.</param>
/// <param name="Coefficients">Of each spline.</param>
/// <param name="Degree">Of each spline.</param>
/// <param name="Samples">Times at which the limits are held.</param>
/// <param name="BackwardMs">How fast the hook may go backward, m/s.</param>
/// <param name="VerticalMs2">Largest vertical acceleration of the load, either way, m/s².</param>
internal sealed record OracleSetting(
    double ForwardMs2 = 0, int Coefficients = 40, int Degree = 7, int Samples = 160, double BackwardMs = 0.2, double VerticalMs2 = 0.05 * Gravity.Standard);

/// <summary>
/// Shortest time from cruise to rest over the spot without swing, by linear programming over B-spline paths of the load.
/// Written apart from the planner, to check it: a plan held to the same limits is not shorter, but for the coarseness of the spline.
/// </summary>
/// <remarks>
/// x(t) along the course, m, from −D to 0; the hook by the flat map for small angles, h = x + (L/g)·x″ (steady trail taken off, no wind). At both ends
/// x″, x‴ and x⁗ are 0, so hook and load are together, at one speed, without swing. At the samples: −limit ≤ h″ ≤ forward, x′ ≥ 0, h′ ≥ −backward.
/// For a given time the least share is found by which all limits must be exceeded; a path exists where it is 0. The shortest time by bisection:
/// more time is never worse, since the load can stay where it came to rest.
/// <para>The height z(t), where there is one, starts at any steady sink and ends at rest, 0 ≤ −z′ ≤ <see cref="DescentMs"/>(x′), |z″| bounded. The bound
/// on the sink bends up at 10 m/s; under it lie two straight lines, and which of them holds at a sample is taken from the speed of the round before
/// (first round: the bare hook's), so the answer is always inside the true bound, though a shorter one might be missed.</para>
/// Spline and linear program from memory of textbooks; measured: 40 coefficients are within 1 % of the best hook there is (tests).
/// </remarks>
internal static class MinimumTimeOracle
{
    private const double StepS = 0.02, G = Gravity.Standard;
    private const double Tolerance = 1e-5; // of the limits
    // The solver else calls an answer imprecise that is good to far less than the tolerance; the tests hold the paths against the limits.
    private const string SolverParameters = "use_dual_simplex: true change_status_to_imprecise: false max_number_of_iterations: 5000";
    private const double SlowDescentMs = 1.5, FullDescentMs = 5, BendMs = 10, DescentPerSpeed = 0.35;
    private const int HeightRounds = 5;
    private static readonly ConcurrentDictionary<(int, int, int), double[][][]> Tables = new();

    /// <summary>The six cases that the planner is measured by, all with 0.10 g.</summary>
    public static IReadOnlyList<OracleCase> Cases { get; } =
    [
        new("30 m line", 30, 400, 20, 0.1 * G),
        new("15 m line", 15, 400, 20, 0.1 * G),
        new("45 m line", 45, 400, 20, 0.1 * G),
        new("60 m line", 60, 500, 20, 0.1 * G),
        new("steep", 30, 400, 20, 0.1 * G, 90),
        new("fast", 30, 600, 25, 0.1 * G),
    ];

    /// <summary>Largest rate of descent at a speed, m/s: 1.5 up to 10 m/s, rising evenly to 5 at 20 m/s, 5 above.</summary>
    public static double DescentMs(double speedMs) => Math.Clamp(SlowDescentMs + DescentPerSpeed * (speedMs - BendMs), SlowDescentMs, FullDescentMs);

    /// <summary>The bound no hook can beat, swing or not: cruise, then the whole deceleration at the limit, D/V + V/(2a), s. For a hook that never surges forward.</summary>
    public static double BareHookS(OracleCase c) => c.DistanceM / c.SpeedMs + c.SpeedMs / (2 * c.LimitMs2);

    /// <summary>Shortest time, s, to within 0.02 s above; infinite when none up to three times the bare hook's is found.</summary>
    public static double ShortestS(OracleCase c, OracleSetting? setting = null) => Shortest(c, setting)?.TimeS ?? double.PositiveInfinity;

    /// <summary>The path of the shortest time; null when there is none.</summary>
    public static OraclePath? Shortest(OracleCase c, OracleSetting? setting = null)
    {
        setting ??= new();
        double shortS = 0.9 * c.DistanceM / c.SpeedMs, longS = BareHookS(c);
        OraclePath? best;
        while ((best = Within(c, setting, longS)) is null)
        {
            (shortS, longS) = (longS, 1.1 * longS);
            if (longS > 3 * BareHookS(c))
                return null;
        }
        while (longS - shortS > StepS)
        {
            double middleS = (shortS + longS) / 2;
            if (Within(c, setting, middleS) is { } path)
                (best, longS) = (path, middleS);
            else
                shortS = middleS;
        }
        return best;
    }

    /// <summary>A path that takes exactly this time inside all limits; null when there is none.</summary>
    public static OraclePath? Within(OracleCase c, OracleSetting setting, double timeS)
    {
        bool[] fast = new bool[setting.Samples];
        for (int j = 0; j < fast.Length; j++)
            fast[j] = BareSpeedMs(c, timeS * j / (fast.Length - 1)) > BendMs;
        for (int round = 0; round < HeightRounds; round++)
        {
            (OraclePath path, double excess) = Solve(c, setting, timeS, fast);
            if (excess < Tolerance)
                return path;
            bool[] next = [.. fast.Select((_, j) => path.Load(timeS * j / (fast.Length - 1), 1) > BendMs)];
            if (c.HeightM is null || next.SequenceEqual(fast))
                break;
            fast = next;
        }
        return null;
    }

    private static double BareSpeedMs(OracleCase c, double atS) =>
        Math.Clamp(c.SpeedMs - c.LimitMs2 * (atS - (BareHookS(c) - c.SpeedMs / c.LimitMs2)), 0, c.SpeedMs);

    private static (OraclePath Path, double Excess) Solve(OracleCase c, OracleSetting setting, double timeS, bool[] fast)
    {
        var spline = new ClampedSpline(setting.Coefficients, setting.Degree);
        double[][][] table = Tables.GetOrAdd((setting.Coefficients, setting.Degree, setting.Samples), _ => Table(spline, setting.Samples));
        using Solver solver = Solver.CreateSolver("GLOP");
        Variable excess = solver.MakeNumVar(0, double.PositiveInfinity, "excess");
        solver.Objective().SetCoefficient(excess, 1);
        solver.Objective().SetMinimization();
        var along = new Coordinate(solver, spline, -c.DistanceM, c.SpeedMs, timeS, c.LimitMs2);
        Brake(c, setting, along, table, excess);
        Coordinate? up = c.HeightM is { } heightM ? new(solver, spline, heightM, null, timeS, setting.VerticalMs2) : null;
        if (up is not null)
            Sink(setting, along, up, table, fast, excess);
        double least = LeastExcess(solver, excess);
        return (new(c, spline, timeS, along.Solution(), up?.Solution()), least);
    }

    private static void Brake(OracleCase c, OracleSetting setting, Coordinate along, double[][][] table, Variable excess)
    {
        double tau2 = c.LengthM / G;
        foreach (double[][] basis in table[1..^1])
        {
            double[] hookMs2 = along.Weights(basis, (2, 1), (4, tau2)), hookMs = along.Weights(basis, (1, 1), (3, tau2));
            along.AtMost(hookMs2, setting.ForwardMs2, c.LimitMs2, excess);
            along.AtLeast(hookMs2, -c.LimitMs2, c.LimitMs2, excess);
            along.AtLeast(hookMs, -setting.BackwardMs, c.SpeedMs, excess);
            along.AtLeast(along.Weights(basis, (1, 1)), 0, c.SpeedMs, excess);
        }
    }

    private static void Sink(OracleSetting setting, Coordinate along, Coordinate up, double[][][] table, bool[] fast, Variable excess)
    {
        for (int j = 1; j < table.Length - 1; j++)
        {
            double[] sink = up.Weights(table[j], (1, -1)), upMs2 = up.Weights(table[j], (2, 1));
            up.AtLeast(sink, 0, 1, excess);
            up.AtMost(sink, FullDescentMs, 1, excess);
            up.AtLeast(upMs2, -setting.VerticalMs2, setting.VerticalMs2, excess);
            up.AtMost(upMs2, setting.VerticalMs2, setting.VerticalMs2, excess);
            if (fast[j])
                along.AtMost(along.Weights(table[j], (1, -DescentPerSpeed)), SlowDescentMs - DescentPerSpeed * BendMs, 1, excess, up, sink);
            else
                up.AtMost(sink, SlowDescentMs, 1, excess);
        }
    }

    private static double LeastExcess(Solver solver, Variable excess)
    {
        if (!solver.SetSolverSpecificParametersAsString(SolverParameters))
            throw new InvalidOperationException($"The solver does not know '{SolverParameters}'.");
        Solver.ResultStatus status = solver.Solve();
        return status == Solver.ResultStatus.OPTIMAL ? excess.SolutionValue() : throw new InvalidOperationException($"The solver gave up: {status}.");
    }

    private static double[][][] Table(ClampedSpline spline, int samples) =>
        [.. Enumerable.Range(0, samples).Select(j => (double[][])[.. Enumerable.Range(0, 5).Select(order => spline.Basis((double)j / (samples - 1), order))])];

    /// <summary>One coordinate by the unknown coefficients of its second derivative, which keeps the rows of one size: a straight start, and rest at 0.</summary>
    private sealed class Coordinate
    {
        private const int Fixed = 3; // at each end x″ and its two derivatives are 0
        private readonly Solver _solver;
        private readonly ClampedSpline _spline;
        private readonly double _timeS, _unit;
        private readonly Variable?[] _unknown;
        private readonly Variable? _speed;
        private readonly double[] _straight;

        /// <summary>Starts at a place with a speed (null: with any), unaccelerated; ends at rest at 0.</summary>
        public Coordinate(Solver solver, ClampedSpline spline, double startM, double? speedMs, double timeS, double unitMs2)
        {
            (_solver, _spline, _timeS, _unit) = (solver, spline, timeS, unitMs2 * timeS * timeS);
            _straight = [.. Enumerable.Range(0, spline.Coefficients).Select(i => startM + (speedMs ?? 0) * timeS * spline.Place(i))];
            _speed = speedMs is null ? solver.MakeNumVar(-50, 50, "") : null;
            int bent = spline.Coefficients - 2;
            _unknown = [.. Enumerable.Range(0, bent).Select(i => i < Fixed || i >= bent - Fixed ? null : solver.MakeNumVar(-50, 50, ""))];
            double[][] end = [spline.Basis(1, 0), spline.Basis(1, 1)];
            Hold(Weights(end, (0, 1)), 0, 0, Math.Abs(startM));
            Hold(Weights(end, (1, 1)), 0, 0, unitMs2 * timeS);
        }

        /// <summary>Weights of the coefficients in Σ factor·dᵏ/dtᵏ.</summary>
        public double[] Weights(double[][] basis, params (int Order, double Factor)[] terms)
        {
            var weights = new double[_straight.Length];
            foreach ((int order, double factor) in terms)
                for (int i = 0; i < weights.Length; i++)
                    weights[i] += factor * basis[order][i] / Math.Pow(_timeS, order);
            return weights;
        }

        /// <summary>Σ weight·coefficient ≥ low − excess·scale.</summary>
        public void AtLeast(double[] weights, double low, double scale, Variable excess) =>
            Hold(weights, low, double.PositiveInfinity, scale).SetCoefficient(excess, 1);

        /// <summary>Σ weight·coefficient, and the same of another coordinate if there is one, ≤ high + excess·scale.</summary>
        public void AtMost(double[] weights, double high, double scale, Variable excess, Coordinate? other = null, double[]? others = null)
        {
            Constraint row = Hold(weights, double.NegativeInfinity, high - (other?.Known(others!) ?? 0), scale);
            row.SetCoefficient(excess, -1);
            other?.Set(row, others!, scale);
        }

        public double[] Solution()
        {
            double[] bent = _spline.Twice([.. _unknown.Select(unknown => unknown is null ? 0 : _unit * unknown.SolutionValue())]);
            return [.. bent.Select((added, i) => _straight[i] + (_speed?.SolutionValue() ?? 0) * _timeS * _spline.Place(i) + added)];
        }

        private Constraint Hold(double[] weights, double low, double high, double scale)
        {
            double known = Known(weights);
            Constraint row = _solver.MakeConstraint((low - known) / scale, (high - known) / scale);
            Set(row, weights, scale);
            return row;
        }

        private double Known(double[] weights)
        {
            double sum = 0;
            for (int i = 0; i < weights.Length; i++)
                sum += weights[i] * _straight[i];
            return sum;
        }

        private void Set(Constraint row, double[] weights, double scale)
        {
            if (_speed is not null)
                row.SetCoefficient(_speed, weights.Select((weight, i) => weight * _spline.Place(i)).Sum() * _timeS / scale);
            double[] bent = _spline.TwiceTransposed(weights);
            for (int i = 0; i < bent.Length; i++)
                if (_unknown[i] is { } unknown && Math.Abs(bent[i] * _unit / scale) > 1e-11)
                    row.SetCoefficient(unknown, bent[i] * _unit / scale);
        }
    }
}

/// <summary>A path of the load found by <see cref="MinimumTimeOracle"/>.</summary>
internal sealed record OraclePath(OracleCase Case, ClampedSpline Spline, double TimeS, double[] AlongM, double[]? UpM)
{
    /// <summary>Load along the course, its derivative of an order, m/sᵏ.</summary>
    public double Load(double timeS, int order) => Value(AlongM, timeS, order);

    /// <summary>Load above the spot, its derivative of an order, m/sᵏ; 0 without height.</summary>
    public double Height(double timeS, int order) => UpM is null ? 0 : Value(UpM, timeS, order);

    /// <summary>Hook along the course, its derivative of an order from 0 to 2, m/sᵏ: h = x + (L/g)·x″.</summary>
    public double Hook(double timeS, int order) => Load(timeS, order) + Case.LengthM / Gravity.Standard * Load(timeS, order + 2);

    private double Value(double[] coefficients, double timeS, int order)
    {
        double[] basis = Spline.Basis(Math.Clamp(timeS / TimeS, 0, 1), order);
        double sum = 0;
        for (int i = 0; i < basis.Length; i++)
            sum += basis[i] * coefficients[i];
        return sum / Math.Pow(TimeS, order);
    }
}
