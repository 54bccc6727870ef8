using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Tests.Debriefing;

/// <summary>A lifting day drawn by hand: a few points with velocities, joined by quintic polynomials, so that every event time is known exactly. No recorder, no pendulum.</summary>
internal sealed class HandMadeDay
{
    private const double T0 = 1_750_000_000;
    private readonly List<(double T, Enu P, Enu V)> points = [];
    private readonly Random random;
    private double now;
    private Enu here;

    public HandMadeDay(int seed, double lineM = 30)
    {
        random = new Random(seed);
        LineM = lineM;
        (Base, PickUp, Target) = (new(20, -15, 0), new(0, 0, 0), new(700 + 600 * random.NextDouble(), 500, 120));
        here = Base;
        Add(0, Base, default);
    }

    public double LineM { get; }
    public Enu Base { get; set; }
    public Enu PickUp { get; set; }
    public Enu Target { get; set; }
    public List<double> LiftOffs { get; } = [];
    public List<double> Contacts { get; } = [];

    public HandMadeDay Ground(double seconds)
    {
        Add(seconds, here, default);
        return this;
    }

    /// <summary>Flies to over a place and hovers at a height of the hook above it; passes through cruise height.</summary>
    public HandMadeDay FlyTo(Enu place, double heightM, double accelerateS, double slowS, double cruiseMs = 18, double aside = 0)
    {
        Enu over = place + new Enu(0, 0, heightM);
        Enu way = new(over.East - here.East, over.North - here.North, 0);
        if (way.Horizontal < cruiseMs * (accelerateS + slowS) / 2)
        {
            Add(6, here with { Up = Math.Max(here.Up + 1, over.Up) }, default); // Too near to build up speed: up, then across.
            Add(Math.Max(6, way.Horizontal / 2), over, default);
            return this;
        }
        Enu course = 1 / way.Horizontal * way;
        double cruiseHeight = Math.Max(here.Up, over.Up) + 40;
        double outM = cruiseMs * accelerateS / 2, inM = cruiseMs * slowS / 2;
        double level = (way.Horizontal - outM - inM) / cruiseMs;
        Enu begin = here, leave = begin + outM * course, arrive = begin + (way.Horizontal - inM) * course;
        Add(accelerateS, leave with { Up = begin.Up + 0.6 * (cruiseHeight - begin.Up) }, cruiseMs * course);
        Add(level / 2, (0.5 * (leave + arrive)) with { Up = cruiseHeight }, cruiseMs * course);
        Add(level / 2, arrive with { Up = over.Up + 0.5 * (cruiseHeight - over.Up) }, cruiseMs * course + new Enu(0, 0, -3));
        Add(slowS, over + new Enu(aside * course.North, -aside * course.East, 0), default);
        return this;
    }

    /// <summary>Vertical from the hover to a height over a place.</summary>
    public HandMadeDay Vertical(Enu place, double heightM, double rateMs)
    {
        double to = place.Up + heightM;
        Add(Math.Max(1, Math.Abs(to - here.Up) / rateMs), here with { Up = to }, default);
        return this;
    }

    public HandMadeDay Wait(double seconds)
    {
        Add(seconds, here + new Enu(Wander(), Wander(), 0), default);
        return this;
    }

    public HandMadeDay HookOn(double hoverS = 25)
    {
        double slack = 1 + 0.5 * random.NextDouble();
        FlyTo(PickUp, LineM + 4, 9, 14).Vertical(PickUp, LineM - slack, 0.8).Wait(hoverS).Vertical(PickUp, LineM, 0.5);
        LiftOffs.Add(T0 + now);
        return Vertical(PickUp, LineM + 8, 0.8);
    }

    public HandMadeDay SetDown(double hoverS = 8, double slowS = 20)
    {
        double slack = 1.1 + 0.4 * random.NextDouble();
        FlyTo(Target, LineM + 5, 15, slowS).Wait(hoverS).Vertical(Target, LineM, 0.5);
        Contacts.Add(T0 + now);
        return Vertical(Target, LineM - slack, 0.5).Wait(5).Vertical(Target, LineM + 4, 1.5);
    }

    public HandMadeDay Rotations(int count)
    {
        for (int i = 0; i < count; i++)
            HookOn().SetDown();
        return this;
    }

    private double Wander() => random.NextDouble() - 0.5;

    private void Add(double seconds, Enu place, Enu velocity)
    {
        now += seconds;
        here = place;
        points.Add((now, place, velocity));
    }

    /// <summary>Track at 5 Hz with a slowly wandering error (1 sigma, m, horizontally; 1.5 times that in height).</summary>
    public Track Track(double slowErrorM = 0, bool hasHeight = true)
    {
        Track exact = Make([.. points.Select(p => new TrackPoint(T0 + p.T, p.P, p.V, default))], hasHeight);
        const double step = 0.2, correlationS = 250;
        var samples = new List<TrackPoint>();
        double keep = Math.Exp(-step / correlationS), kick = slowErrorM * Math.Sqrt(1 - keep * keep);
        Enu error = slowErrorM * Normal3();
        for (double t = 0; t <= now; t += step)
        {
            TrackPoint p = exact.At(T0 + t);
            error = keep * error + kick * Normal3();
            samples.Add(p with { Position = p.Position + error });
        }
        return Make([.. samples], hasHeight);
    }

    public FlightRecord Record(params Channel[] channels) => new()
    {
        Name = "hand-made", Format = "simulated", TimeS = [], LatitudeDeg = [], LongitudeDeg = [], AltitudeM = [], Channels = channels,
    };

    /// <summary>Load on the hook, 5 Hz, kg.</summary>
    public Channel LoadCell(double kg)
    {
        double[] time = [.. Enumerable.Range(0, (int)(now * 5)).Select(i => T0 + i * 0.2)];
        return new(ChannelKind.LoadKg, time, [.. time.Select(t => Loaded(t) ? kg + 10 * Wander() : 15 + 4 * Wander())]);
    }

    private bool Loaded(double t) => LiftOffs.Zip(Contacts).Any(l => t >= l.First && t < l.Second);

    private Enu Normal3() => new(Normal(), Normal(), 1.5 * Normal());

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    internal static Track Make(TrackPoint[] p, bool hasHeight = true)
    {
        float[] none = new float[p.Length];
        return new()
        {
            Frame = new LocalFrame(46.5, 8.3, 900), HasHeight = hasHeight, StretchStarts = [0],
            TimeS = [.. p.Select(x => x.TimeS)],
            East = [.. p.Select(x => x.Position.East)], North = [.. p.Select(x => x.Position.North)], Up = [.. p.Select(x => x.Position.Up)],
            VelocityEast = [.. p.Select(x => x.Velocity.East)], VelocityNorth = [.. p.Select(x => x.Velocity.North)], VelocityUp = [.. p.Select(x => x.Velocity.Up)],
            AccelerationEast = [.. p.Select(x => x.Acceleration.East)], AccelerationNorth = [.. p.Select(x => x.Acceleration.North)], AccelerationUp = [.. p.Select(x => x.Acceleration.Up)],
            HorizontalErrorM = none, HorizontalVelocityErrorMs = none, HorizontalAccelerationErrorMs2 = none,
            HeightErrorM = none, ClimbErrorMs = none, VerticalAccelerationErrorMs2 = none,
        };
    }
}
