using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>From a path to the few marks that a pilot can fly by: distance and landmark, altimeter, speed, sink.</summary>
/// <remarks>
/// Heights are rounded up to the altimeter's 20 ft marks, distances of 150 m and more in steps of 50 m, below of 10 m; speed to 5 kt, as air speed from 40 kt on and over ground below;
/// sink down to 50 ft/min, to 100 from 1 000 on. Slow-down, power-in and reject marks are rounded away from the spot: to the next 10 m further out and the next 20 ft up.
/// </remarks>
public sealed class ApproachGates
{
    /// <summary>A knot, m/s.</summary>
    public const double KnotMs = 1852.0 / 3600;

    /// <summary>Air speed from which an indicator shows a speed, m/s: 40 kt.</summary>
    public const double ReadableMs = 40 * KnotMs;

    /// <summary>Name of the power-in mark.</summary>
    public const string PowerInName = "power in";

    /// <summary>Name of the reject mark.</summary>
    public const string RejectName = "reject";

    private const double LandmarkSideM = 150, LandmarkAlongM = 40, ApartM = 35;

    private readonly ApproachSituation s;
    private readonly WayIn way;
    private readonly ApproachPower? power;
    private readonly LocalFrame frame;

    /// <summary>Marks of a way in.</summary>
    public ApproachGates(ApproachSituation situation, WayIn way, ApproachPower? power)
    {
        ArgumentNullException.ThrowIfNull(situation);
        ArgumentNullException.ThrowIfNull(way);
        (s, this.way, this.power) = (situation, way, power);
        frame = new(s.Site.Latitude.Degrees, s.Site.Longitude.Degrees, 0);
    }

    /// <summary>A sink (m/s) in the steps of the instrument, rounded down: to sink less is safe; ft/min.</summary>
    public static double RoundSink(double sinkMs)
    {
        double feet = sinkMs / 0.3048 * 60, step = feet >= 1000 ? 100 : feet >= 100 ? 50 : 10;
        return Math.Floor(feet / step + 1e-9) * step;
    }

    /// <summary>Hook's distances to go of the marks, outermost first: start mark, begin of the slow-down, then 200, 100 and 50 m; each 35 m or more inside the one before.</summary>
    public IReadOnlyList<(string Name, double DistanceM)> Marks()
    {
        PathShape shape = way.Path.Shape;
        List<(string Name, double DistanceM)> marks = [("start mark", shape.StartM)];
        double slowDown = Early(shape.SlowDownM);
        if (shape.StartM - slowDown < ApartM)
            marks[0] = ("start mark, slow down", shape.StartM);
        foreach ((string name, double distance) in new[] { ("slow down", slowDown), ("", 200), ("", 100), ("", 50) })
            if ((SeenAt(distance, name.Length > 0 ? shape.SlowDownM : 0) ?? distance) is var seen && marks[^1].DistanceM - seen >= ApartM)
                marks.Add((name, seen));
        return marks;
    }

    /// <summary>The marks as they are flown.</summary>
    /// <param name="powerIn">Power-in gate, or null.</param>
    /// <param name="reject">Reject gate, or null.</param>
    /// <param name="broken">Chance of each of <see cref="Marks"/> to be broken, or empty.</param>
    public IReadOnlyList<ApproachGate> All(PowerInGate? powerIn, RejectGate? reject, IReadOnlyList<double> broken)
    {
        ArgumentNullException.ThrowIfNull(broken);
        List<ApproachGate> gates = [.. Marks().Select((m, i) => At(m.Name, RobustnessTrial.SampleAt(way.Path, m.DistanceM), m.DistanceM, i < broken.Count ? broken[i] : null))];
        if (powerIn is not null)
            gates.Add(At(PowerInName, powerIn.Index, Out(powerIn.DistanceM), null));
        if (reject is not null)
            gates.Add(At(RejectName, reject.Index, Out(reject.DistanceM), null));
        gates.Sort((a, b) => b.DistanceM.CompareTo(a.DistanceM));
        gates.Add(OverTheSpot());
        return gates;
    }

    /// <summary>A distance to go in steps of 10 m, rounded away from the spot, m.</summary>
    public static double Out(double distanceM) => Math.Max(0, Math.Ceiling(distanceM / 10 - 1e-9)) * 10;

    /// <summary>A distance in the steps of the marks, rounded away from the spot: to begin early does no harm.</summary>
    private static double Early(double distanceM) => distanceM >= 150 ? Math.Ceiling(distanceM / 50) * 50 : Out(distanceM);

    /// <summary>A landmark close enough to stand for a distance, and not past the place where it is needed: its own distance along the course.</summary>
    private double? SeenAt(double distanceM, double neededAtM) => Landmarks().Where(l => Math.Abs(l.AlongM - distanceM) < LandmarkAlongM && l.AlongM >= neededAtM).OrderBy(l => Math.Abs(l.AlongM - distanceM)).Select(l => (double?)l.AlongM).FirstOrDefault();

    private IEnumerable<(string Name, double AlongM)> Landmarks()
    {
        CourseFrame course = new(way.CourseDeg);
        foreach (Spot spot in s.Site.Landmarks)
        {
            Enu place = course.FromEnu(frame.ToEnu(spot.Latitude.Degrees, spot.Longitude.Degrees, 0));
            if (Math.Abs(place.North) <= LandmarkSideM && place.East < 0)
                yield return (spot.Name ?? "landmark", Math.Round(-place.East));
        }
    }

    private ApproachGate At(string name, int i, double distanceM, double? broken)
    {
        LoadPath path = way.Path;
        // The height is the path's at the mark itself, not at the sample beyond it; the start mark's is that of the level flight before it.
        double hook = distanceM == path.Shape.StartM ? path.Hook[0].Up : path.Hook[i].Up;
        if (distanceM != path.Shape.StartM && i > 0 && -path.Hook[i].East < distanceM && -path.Hook[i - 1].East > distanceM)
            hook += (path.Hook[i - 1].Up - hook) * (distanceM + path.Hook[i].East) / (path.Hook[i].East - path.Hook[i - 1].East);
        string? landmark = Landmarks().Where(l => Math.Abs(l.AlongM - distanceM) < 1).Select(l => l.Name).FirstOrDefault();
        // At the start mark the sink is still setting in: the mark gives what it is to become.
        int settled = i == path.StartIndex || distanceM == path.Shape.StartM ? Math.Min(path.Count - 1, i + (int)(path.SinkOnsetS / 2 / path.StepS)) : i;
        return Gate(name, distanceM, landmark, hook, path.LoadHeightM[i], path.SpeedMs[i], Math.Max(0, path.SinkMs(settled)), i, broken);
    }

    private ApproachGate OverTheSpot() => Gate("over the spot, load touching", 0, null, s.ContactLengthM, 0, 0, way.Path.Shape.TouchDownSinkMs, way.Path.Count - 1, null);

    private ApproachGate Gate(string name, double distanceM, string? landmark, double hookM, double loadM, double groundMs, double sinkMs, int i, double? broken)
    {
        GateGiven given = new() { Distance = Length.FromMeters(distanceM), HeightAboveTarget = Length.FromMeters(hookM), GroundSpeed = Speed.FromMetersPerSecond(groundMs), Sink = Speed.FromMetersPerSecond(sinkMs) };
        GateReading reading = GateReadings.At([given], s.Site with { Elevation = Length.FromMeters(s.ElevationM) }, s.ContactLengthM, s.TemperatureC)[0];
        return new(name, distanceM, landmark, hookM, loadM, reading.ReadingFt, reading.UnroundedFt, reading.TemperatureFt, groundMs, way.Path.Hanging.AirspeedMs(groundMs), sinkMs,
            power is null ? null : 100 * power.RequiredShare[i], power?.TorquePercent?[i], broken);
    }
}
