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
public sealed record PathBlock(string Code, string Text, double Excess);

/// <summary>What stands, hangs, stands about and rises round the spot, in metres east, north, up of the spot's ground.</summary>
/// <remarks>
/// Under the load, the line and the rotor: within clearance + 5 m to the side of the load's way (the sideways error of a flown path) everything must be lower than the load's
/// underside by the clearance; within rotor radius + clearance lower than the hook by the clearance. Wires the same with their own distance to keep, over the whole span.
/// Ground from an elevation grid counts from its own height at the spot, so that the spot's entered elevation stands. The clearance shrinks evenly to nothing over the last 60 m,
/// where the load is to come down. People: <see cref="FallZone"/>. Common practice, no source, but for the wires' distances [ASME-B30.12].
/// </remarks>
public sealed class Surroundings
{
    private const double SideErrorM = 5, TaperM = 60, AtTheSpotM = 3, ReceiverWithinM = 10, GroundStepM = 10;

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
        foreach (Obstacle o in site.Obstacles)
            obstacles.Add((o.Name, Place(o.Latitude, o.Longitude), o.Height.Meters));
        IReadOnlyList<WireCheck> checks = [.. WireChecker.Check(request).Where(c => c.Site == site.Name)];
        for (int i = 0; i < site.Wires.Count; i++)
            if (site.Wires[i] is { From: { } from, To: { } to } wire)
                wires.Add((wire.Name, Place(from.Latitude, from.Longitude), Place(to.Latitude, to.Longitude), wire.Height?.Meters, ((Length)checks[i].Needed.Value.Quantity).Meters));
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

    /// <summary>Wires between two points on the map; height null when nobody gave it.</summary>
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
        CourseFrame course = new(courseDeg);
        int stop = path.StopIndex;
        PathBlock? worst = PersonInTheFallZone(path, course, stop);
        foreach ((string name, Enu place, double height) in obstacles)
            worst = Worse(worst, Over(path, course, stop, name, p => (p - place).Horizontal, height, rules.ClearanceM.Value, rules.ClearanceM.Value));
        foreach ((string name, Enu from, Enu to, double? height, double keep) in wires)
            worst = Worse(worst, Over(path, course, stop, name, p => GroundDistance.ToSegmentM(p, from, to), height ?? double.PositiveInfinity, Math.Max(keep, rules.ClearanceM.Value), keep));
        return Worse(worst, OverGround(path, course, stop));
    }

    /// <summary>True when somebody stands where a load let go here would fall.</summary>
    private PathBlock? PersonInTheFallZone(LoadPath path, CourseFrame course, int stop)
    {
        double margin = rules.PeopleClearanceM.Value;
        PathBlock? worst = null;
        foreach ((string name, Enu place) in people)
        {
            bool atTheSpot = place.Horizontal < Math.Min(margin, ReceiverWithinM) + AtTheSpotM && course.FromEnu(place).East >= -AtTheSpotM;
            double keep = atTheSpot ? AtTheSpotM : margin, nearest = double.PositiveInfinity;
            for (int i = 0; i < stop; i++)
            {
                Enu under = course.ToEnu(path.Load[i]);
                Enu lands = under + FallZone.Reach(course.ToEnu(new(path.SpeedMs[i], 0, 0)), course.ToEnu(path.Hanging.Wind), path.LoadHeightM[i]);
                // Close to somebody beside or beyond the spot only the load's own way counts: the receiver has to be in reach. Whoever stands under the way in is no receiver.
                nearest = Math.Min(nearest, atTheSpot ? (place - under).Horizontal : GroundDistance.ToSegmentM(place, under, lands));
            }
            if (nearest < keep)
                worst = Worse(worst, new("people", string.Create(CultureInfo.InvariantCulture, $"the load would pass within {nearest:0} m of where {name} stands, or fall there if let go; {keep:0} m are kept."), (keep - nearest) / keep + 1));
        }
        return worst;
    }

    private PathBlock? Over(LoadPath path, CourseFrame course, int stop, string name, Func<Enu, double> distance, double heightM, double sideM, double aboveM)
    {
        double lacking = 0, at = 0;
        // The load comes down over the spot itself and is not counted there; the rotor is, down to contact.
        for (int i = 0; i < path.Count; i++)
        {
            Enu under = course.ToEnu(path.Load[i]), hook = course.ToEnu(path.Hook[i]);
            if (i < stop && distance(under) < sideM + SideErrorM)
                Note(heightM + aboveM - path.LoadHeightM[i], path.DistanceM[i]);
            else if (distance(hook) < RotorRadiusM + sideM)
                Note(heightM + aboveM - hook.Up, path.DistanceM[i]);
        }
        void Note(double lacks, double distanceM)
        {
            if (lacks > lacking)
                (lacking, at) = (lacks, distanceM);
        }
        if (lacking <= 0)
            return null;
        return double.IsInfinity(lacking)
            ? new("wire-height", $"it crosses or passes {name}, whose height is not entered.", 10)
            : new("obstacle", string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(lacking):0} m too low over {name}, {at:0} m before the spot ({aboveM:0.#} m are kept)."), lacking / aboveM);
    }

    private PathBlock? OverGround(LoadPath path, CourseFrame course, int stop)
    {
        if (!HasGround)
            return null;
        double lacking = 0, at = 0, last = double.PositiveInfinity;
        for (int i = 0; i < stop; i++)
        {
            if (last - path.DistanceM[i] < GroundStepM && path.DistanceM[i] > GroundStepM)
                continue;
            last = path.DistanceM[i];
            if (GroundM(course.ToEnu(path.Load[i])) is not { } groundM)
                return new("ground-unknown", string.Create(CultureInfo.InvariantCulture, $"the elevation grid does not know the ground {path.DistanceM[i]:0} m before the spot."), 10);
            double lacks = groundM + KeepM(path.DistanceM[i]) - path.LoadHeightM[i];
            if (lacks > lacking)
                (lacking, at) = (lacks, path.DistanceM[i]);
        }
        return lacking <= 0 ? null : new("terrain", string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(lacking):0} m too low over the ground, {at:0} m before the spot ({rules.ClearanceM.Value:0.#} m are kept)."), lacking / rules.ClearanceM.Value);
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
