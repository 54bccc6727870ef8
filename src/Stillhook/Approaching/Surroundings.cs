using System.Globalization;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>Something a way in breaks.</summary>
/// <param name="Code">Short stable name in kebab case.</param>
/// <param name="Text">What and by how much, in one sentence.</param>
/// <param name="Excess">By how much in units of what is permitted; ranks what is nearest to being flown.</param>
/// <param name="Subject">Name of what stands in the way; empty when there is no such thing.</param>
public sealed record PathBlock(string Code, string Text, double Excess, string Subject = "");

/// <summary>What stands, hangs, stands about and rises round the spot, in metres east, north, up of the spot's ground.</summary>
/// <remarks>
/// Under the load, the line and the rotor: within clearance + 5 m to the side of the load's way (the sideways error of a flown path) everything must be lower than the load's
/// underside by the clearance; within rotor radius + clearance lower than the hook by the clearance. Wires the same with their own distance to keep, over the whole span.
/// Ground from an elevation grid counts from its own height at the spot, so that the spot's entered elevation stands. The clearance shrinks evenly to nothing over the last 60 m,
/// where the load is to come down; it is looked at below load and rotor and as far to both sides as obstacles are. Obstacles and wires of all sites of the job count. All this from 300 m before the start mark,
/// flown level, down to contact. People: <see cref="FallZone"/>. Common practice, no source, but for the wires' distances [ASME-B30.12].
/// </remarks>
public sealed class Surroundings
{
    private const double SideErrorM = 5, TaperM = 60, AtTheSpotM = 3, ReceiverWithinM = 10, GroundStepM = 10, LevelLegM = 300;

    private readonly List<(string Name, Enu Place, double HeightM)> obstacles = [];
    private readonly List<(string Name, Enu From, Enu To, double? HeightM, double KeepM)> wires = [];
    private readonly List<(string Name, Enu Place)> people = [];
    private readonly ApproachRules rules;
    private readonly LocalFrame frame;
    private readonly Func<double, double, double?>? ground;
    private readonly double? groundAtSpotM;

    /// <summary>Surroundings of a site.</summary>
    /// <param name="request">The job.</param>
    /// <param name="site">The site.</param>
    /// <param name="rules">Clearances.</param>
    /// <param name="ground">Height of the ground by latitude and longitude (degrees), m, in any datum; null where unknown; null altogether without a grid.</param>
    public Surroundings(LiftRequest request, Site site, ApproachRules rules, Func<double, double, double?>? ground)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(site);
        (this.rules, this.ground) = (rules, ground);
        RotorRadiusM = request.Aircraft?.Rotor?.Radius.Meters ?? AssumedRotorRadiusM;
        frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
        groundAtSpotM = ground?.Invoke(site.Latitude.Degrees, site.Longitude.Degrees);
        IReadOnlyList<WireCheck> checks = WireChecker.Check(request);
        foreach (Site other in request.Sites)
        {
            // Heights are over the ground of the thing's own site, or over the ground it stands on where a grid knows that to be higher.
            double over = other.Elevation is { } there && site.Elevation is { } here ? (there - here).Meters : 0;
            foreach (Obstacle o in other.Obstacles)
                if (Place(o.Latitude, o.Longitude) is var place)
                    obstacles.Add((o.Name, place, o.Height.Meters + Math.Max(over, GroundM(place) ?? 0)));
            IEnumerable<(Wire Wire, WireCheck Check)> kept = other.Wires.Zip(checks.Where(c => c.Site == other.Name));
            foreach ((Wire wire, WireCheck check) in kept)
                if (wire is { From: { } from, To: { } to })
                    wires.Add((wire.Name, Place(from.Latitude, from.Longitude), Place(to.Latitude, to.Longitude), wire.TopHeight?.Meters + over, ((Length)check.Needed.Value.Quantity).Meters));
        }
        foreach (Spot p in request.Sites.SelectMany(s => s.People))
            people.Add((p.Name ?? "a person", Place(p.Latitude, p.Longitude)));
    }

    /// <summary>Rotor radius when none was entered, m. Own choice: that of a medium helicopter.</summary>
    public const double AssumedRotorRadiusM = 7;

    /// <summary>Rotor radius, m: as entered, else <see cref="AssumedRotorRadiusM"/>.</summary>
    public double RotorRadiusM { get; }

    /// <summary>People on the ground.</summary>
    public IReadOnlyList<(string Name, Enu Place)> People => people;

    /// <summary>Obstacles with their height over the spot's ground.</summary>
    public IReadOnlyList<(string Name, Enu Place, double HeightM)> Obstacles => obstacles;

    /// <summary>Wires between two points on the map; height is of the highest wire, null when nobody gave it.</summary>
    public IReadOnlyList<(string Name, Enu From, Enu To, double? HeightM, double KeepM)> Wires => wires;

    /// <summary>True when an elevation grid covers the spot.</summary>
    public bool HasGround => groundAtSpotM is not null;

    /// <summary>Ground over the spot's ground at a place, m; 0 without a grid, null where the grid does not know.</summary>
    public double? GroundM(Enu place)
    {
        if (groundAtSpotM is not { } atSpot)
            return 0;
        (double latitude, double longitude, _) = frame.ToGeodetic(place);
        return ground!(latitude, longitude) - atSpot;
    }

    /// <summary>What a way in breaks first and worst; null when it is clear.</summary>
    /// <param name="path">The way in.</param>
    /// <param name="courseDeg">Its true course.</param>
    public PathBlock? Blocks(LoadPath path, double courseDeg)
    {
        ArgumentNullException.ThrowIfNull(path);
        Passing[] way = [.. Passings(path, new(courseDeg))];
        PathBlock? worst = PersonInTheFallZone(way, path, new(courseDeg));
        foreach ((string name, Enu place, double height) in obstacles)
            worst = Worse(worst, Over(way, name, p => (p - place).Horizontal, height, rules.ClearanceM.Value, rules.ClearanceM.Value));
        foreach ((string name, Enu from, Enu to, double? height, double keep) in wires)
            worst = Worse(worst, Over(way, name, p => GroundDistance.ToSegmentM(p, from, to), height ?? double.PositiveInfinity, Math.Max(keep, rules.ClearanceM.Value), keep));
        return Worse(worst, OverGround(way, new(courseDeg)));
    }

    /// <summary>A moment of a way in: places of load and hook (east, north, up), height of the load's underside, speed, distance to go; let down over the spot or not.</summary>
    private readonly record struct Passing(Enu Load, Enu Hook, double LoadHeightM, double SpeedMs, double DistanceM, bool LetDown);

    /// <summary>The level leg straight to the start mark, then the path down to contact.</summary>
    private static IEnumerable<Passing> Passings(LoadPath path, CourseFrame course)
    {
        for (double back = LevelLegM; back > 0; back -= GroundStepM)
        {
            Enu before = new(-back, 0, 0);
            yield return new(course.ToEnu(path.Load[0] + before), course.ToEnu(path.Hook[0] + before), path.LoadHeightM[0], path.SpeedMs[0], path.DistanceM[0] + back, false);
        }
        for (int i = 0; i < path.Count; i++)
            yield return new(course.ToEnu(path.Load[i]), course.ToEnu(path.Hook[i]), path.LoadHeightM[i], path.SpeedMs[i], path.DistanceM[i], i >= path.StopIndex);
    }

    /// <summary>Whether somebody counts as receiver on a course: close to the spot, beside or beyond it. Whoever stands under the way in is none.</summary>
    public bool IsReceiver(Enu place, CourseFrame course) => place.Horizontal < Math.Min(rules.PeopleClearanceM.Value, ReceiverWithinM) + AtTheSpotM && course.FromEnu(place).East >= -AtTheSpotM;

    /// <summary>Fall zone of a load at a place, its height counted from the lowest ground that it could come down on.</summary>
    /// <param name="at">Point below the load.</param>
    /// <param name="groundVelocity">Velocity over the ground, m/s.</param>
    /// <param name="airVelocity">Velocity of the air, m/s.</param>
    /// <param name="loadHeightM">Height of the load over the spot's ground, m.</param>
    public FallZone Falls(Enu at, Enu groundVelocity, Enu airVelocity, double loadHeightM)
    {
        double height = loadHeightM - Math.Min(0, GroundM(at) ?? 0);
        FallZone first = FallZone.Of(at, groundVelocity, airVelocity, height);
        double lower = Math.Min(GroundM(first.Thrown) ?? 0, GroundM(first.Drifted) ?? 0);
        return lower < 0 && loadHeightM - lower > height ? FallZone.Of(at, groundVelocity, airVelocity, loadHeightM - lower) : first;
    }

    /// <summary>True when somebody stands where a load let go here would fall.</summary>
    private PathBlock? PersonInTheFallZone(Passing[] way, LoadPath path, CourseFrame course)
    {
        PathBlock? worst = null;
        Enu wind = course.ToEnu(path.Hanging.Wind);
        foreach ((string name, Enu place) in people)
        {
            bool receiver = IsReceiver(place, course);
            double keep = receiver ? AtTheSpotM : rules.PeopleClearanceM.Value, nearest = double.PositiveInfinity;
            // Of a receiver only the load's own way counts: the receiver has to be in reach.
            foreach (Passing p in way.Where(p => !p.LetDown))
                nearest = Math.Min(nearest, receiver ? (place - p.Load).Horizontal : Falls(p.Load, course.ToEnu(new(p.SpeedMs, 0, 0)), wind, p.LoadHeightM).DistanceM(place));
            if (nearest < keep)
                worst = Worse(worst, new("people", string.Create(CultureInfo.InvariantCulture, $"the load would pass within {nearest:0} m of where {name} stands, or fall there if let go; {keep:0} m are kept."), (keep - nearest) / keep + 1, name));
        }
        return worst;
    }

    /// <summary>Wires that a way in crosses, with the least height of the load over the top of each, m.</summary>
    public IEnumerable<(string Name, double OverM)> Crossed(LoadPath path, double courseDeg)
    {
        ArgumentNullException.ThrowIfNull(path);
        Passing[] way = [.. Passings(path, new(courseDeg)).Where(p => !p.LetDown)];
        foreach ((string name, Enu from, Enu to, double? height, double keep) in wires.Where(w => w.HeightM is not null))
        {
            Passing[] over = [.. way.Where(p => GroundDistance.ToSegmentM(p.Load, from, to) < keep + SideErrorM)];
            if (over.Length > 0)
                yield return (name, over.Min(p => p.LoadHeightM) - height!.Value);
        }
    }

    private PathBlock? Over(Passing[] way, string name, Func<Enu, double> distance, double heightM, double sideM, double aboveM)
    {
        double lacking = 0, at = 0;
        // The load comes down over the spot itself and is not counted there; the rotor is, down to contact.
        foreach (Passing p in way)
            if (!p.LetDown && distance(p.Load) < sideM + SideErrorM)
                Note(heightM + aboveM - p.LoadHeightM, p.DistanceM);
            else if (distance(p.Hook) < RotorRadiusM + sideM)
                Note(heightM + aboveM - p.Hook.Up, p.DistanceM);
        void Note(double lacks, double distanceM)
        {
            if (lacks > lacking)
                (lacking, at) = (lacks, distanceM);
        }
        if (lacking <= 0)
            return null;
        return double.IsInfinity(lacking)
            ? new("wire-height", $"it crosses or passes {name}, the height of whose highest wire is not entered.", 10)
            : new("obstacle", string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(lacking):0} m too low at {name}, {at:0} m before the spot ({aboveM:0.#} m are kept)."), lacking / aboveM, name);
    }

    private PathBlock? OverGround(Passing[] way, CourseFrame course)
    {
        if (!HasGround)
            return null;
        double lacking = 0, at = 0, last = double.PositiveInfinity;
        foreach (Passing p in way.Where(p => !p.LetDown))
        {
            if (last - p.DistanceM < GroundStepM && p.DistanceM > GroundStepM)
                continue;
            last = p.DistanceM;
            double keep = KeepM(p.DistanceM);
            if (HighestM(p.Load, course.Deg, keep + SideErrorM) is not { } groundM || HighestM(p.Hook, course.Deg, RotorRadiusM + rules.ClearanceM.Value) is not { } besideM)
                return new("ground-unknown", string.Create(CultureInfo.InvariantCulture, $"the elevation grid does not know the ground {p.DistanceM:0} m before the spot."), 10);
            double lacks = Math.Max(groundM + keep - p.LoadHeightM, besideM + rules.ClearanceM.Value - p.Hook.Up);
            if (lacks > lacking)
                (lacking, at) = (lacks, p.DistanceM);
        }
        return lacking <= 0 ? null : new("terrain", string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(lacking):0} m too low over the ground, {at:0} m before the spot ({rules.ClearanceM.Value:0.#} m are kept)."), lacking / rules.ClearanceM.Value);
    }

    /// <summary>Highest ground below a place and to both sides of it, m; null where the grid does not know one of them.</summary>
    public double? HighestM(Enu place, double courseDeg, double sideM)
    {
        CourseFrame course = new(courseDeg);
        double highest = double.NegativeInfinity;
        foreach (double side in new[] { -sideM, 0, sideM })
            if (GroundM(place + course.ToEnu(new(0, side, 0))) is { } ground)
                highest = Math.Max(highest, ground);
            else
                return null;
        return highest;
    }

    private double KeepM(double distanceM) => rules.ClearanceM.Value * Math.Clamp(distanceM / TaperM, 0, 1);

    private static PathBlock? Worse(PathBlock? a, PathBlock? b) => a is null || b?.Excess > a.Excess ? b : a;

    private Enu Place(Angle latitude, Angle longitude) => frame.ToEnu(latitude.Degrees, longitude.Degrees, 0);
}

/// <summary>A course as a frame: along it, to the right of it, up.</summary>
/// <param name="Deg">True course, degrees.</param>
public readonly record struct CourseFrame(double Deg)
{
    /// <summary>From (along, right, up) to east-north-up.</summary>
    public Enu ToEnu(Enu p)
    {
        (double s, double c) = Math.SinCos(double.DegreesToRadians(Deg));
        return new(p.East * s + p.North * c, p.East * c - p.North * s, p.Up);
    }

    /// <summary>From east-north-up to (along, right, up).</summary>
    public Enu FromEnu(Enu p)
    {
        (double s, double c) = Math.SinCos(double.DegreesToRadians(Deg));
        return new(p.East * s + p.North * c, p.East * c - p.North * s, p.Up);
    }
}
