using System.Collections;
using System.Reflection;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

/// <summary>Small jobs to approach a spot in, made in code. Invented. Places are metres east and north of the spot.</summary>
internal static class ApproachJobs
{
    public const double Knot = 1852.0 / 3600, Foot = 0.3048;

    private static readonly LocalFrame Frame = new(46.9, 10.1, 0);

    /// <summary>Few flights: what a plan is, not how its scatter comes out.</summary>
    public static ApproachOptions Quick { get; } = new() { Flights = 60 };

    public static Spot Spot(double eastM, double northM, string? name = null)
    {
        (double latitude, double longitude, _) = Frame.ToGeodetic(new(eastM, northM, 0));
        return new() { Name = name, Latitude = Angle.FromDegrees(latitude), Longitude = Angle.FromDegrees(longitude) };
    }

    public static Obstacle Obstacle(double eastM, double northM, double heightM, string name = "mast")
    {
        Spot at = Spot(eastM, northM);
        return new() { Name = name, Latitude = at.Latitude, Longitude = at.Longitude, Height = Length.FromMeters(heightM) };
    }

    public static Wire Wire(double e1, double n1, double e2, double n2, double? heightM, string name = "line 1") =>
        new() { Name = name, From = Spot(e1, n1), To = Spot(e2, n2), TopHeight = heightM is { } h ? Length.FromMeters(h) : null, Voltage = ElectricPotential.FromKilovolts(20), OwnersMinimum = Length.FromMeters(10) };

    public static WindGiven Wind(double fromDeg, double kt, double? gustKt = null) =>
        new() { From = Angle.FromDegrees((fromDeg % 360 + 360) % 360), Speed = Speed.FromKnots(kt), Gust = gustKt is { } g ? Speed.FromKnots(g) : null };

    public static Site Delivery(double elevationM = 500, WindGiven? wind = null, double temperatureC = 12)
    {
        Site site = Jobs.Site("spot", SiteUse.Delivery, elevationM, temperatureC);
        return site with { Weather = site.Weather! with { Wind = wind } };
    }

    /// <summary>The pick-up 1.5 km off on a bearing from the spot, on the spot's level.</summary>
    public static Site PickUp(double bearingDeg = 180, double distanceM = 1500, double elevationM = 500)
    {
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(bearingDeg));
        Spot at = Spot(distanceM * sin, distanceM * cos);
        return Jobs.Site("yard", SiteUse.PickUp, elevationM, 12) with { Latitude = at.Latitude, Longitude = at.Longitude };
    }

    /// <summary>A job: one load of 600 kg, 1 m high, on 30 m of line; hover mass 3 600 kg everywhere.</summary>
    public static LiftRequest Job(Site? spot = null, Site? pickUp = null, double hoverKg = 3600, double loadKg = 600, double lineM = 30)
    {
        LiftRequest job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(hoverKg)), [pickUp ?? PickUp(), spot ?? Delivery(wind: Wind(0, 8))],
            Jobs.Load("1", loadKg) with { Height = Length.FromMeters(1), DragArea = Area.FromSquareMeters(1) });
        return job with { Line = new() { Length = Length.FromMeters(lineM) } };
    }

    public static LiftRequest WithSpot(this LiftRequest job, Func<Site, Site> change) =>
        job with { Sites = [.. job.Sites.Select(s => s.Use == SiteUse.Delivery ? change(s) : s)] };

    public static LiftRequest WithApproach(this LiftRequest job, Func<ApproachGiven, ApproachGiven> change) => job with { Approach = change(job.Approach ?? new()) };

    public static ApproachPlan Plan(LiftRequest job, ApproachOptions? options = null) => ApproachPlanner.Plan(job, Planner.Plan(job, new()), options ?? Quick);

    public static string Said(ApproachPlan plan) => string.Join("; ", [plan.Refused ?? "", .. plan.Findings.Select(f => f.What), .. plan.Remedies]);

    /// <summary>East and north of a place given along a course and to its right.</summary>
    public static (double East, double North) OnMap(Enu p, double courseDeg)
    {
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(courseDeg));
        return (p.East * sin + p.North * cos, p.East * cos - p.North * sin);
    }

    /// <summary>Distance of a point from a stretch, own geometry.</summary>
    public static double ToStretch((double E, double N) p, (double E, double N) a, (double E, double N) b)
    {
        double dx = b.E - a.E, dy = b.N - a.N, square = dx * dx + dy * dy;
        double t = square == 0 ? 0 : Math.Clamp(((p.E - a.E) * dx + (p.N - a.N) * dy) / square, 0, 1);
        return Math.Sqrt(Math.Pow(p.E - a.E - t * dx, 2) + Math.Pow(p.N - a.N - t * dy, 2));
    }

    /// <summary>Paths of all members that hold a double which is not a number or has no end.</summary>
    public static List<string> NotFinite(ApproachPlan plan)
    {
        List<string> found = [];
        HashSet<object> seen = new(ReferenceEqualityComparer.Instance);
        void Walk(object? value, string path)
        {
            switch (value)
            {
                case null or string or bool or Delegate or LiftRequest or Site or PlannedLoad or Type or Enum:
                    return;
                case double d:
                    if (!double.IsFinite(d))
                        found.Add($"{path} = {d}");
                    return;
                case IQuantity q:
                    if (!double.IsFinite((double)q.Value))
                        found.Add($"{path} = {q.Value}");
                    return;
                case double[] all:
                    if (all.Any(x => !double.IsFinite(x)))
                        found.Add(path);
                    return;
                case IEnumerable list:
                    int i = 0;
                    foreach (object? item in list)
                        Walk(item, $"{path}[{i++}]");
                    return;
            }
            Type type = value.GetType();
            if (type.Namespace?.StartsWith("Stillhook", StringComparison.Ordinal) != true && !type.Name.StartsWith("ValueTuple", StringComparison.Ordinal))
                return;
            if (!type.IsValueType && !seen.Add(value))
                return;
            foreach (PropertyInfo p in type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.GetIndexParameters().Length == 0))
                if (!(value is ApproachPlan { Way: null } && p.Name == nameof(ApproachPlan.CourseDeg))) // without a way there is no course: documented
                    Walk(p.GetValue(value), path + "." + p.Name);
            foreach (FieldInfo f in type.GetFields(BindingFlags.Public | BindingFlags.Instance))
                Walk(f.GetValue(value), path + "." + f.Name);
        }
        Walk(plan, "plan");
        foreach (string text in plan.Remedies.Append(plan.Refused).Concat(plan.Sectors.Select(x => x.Block?.Text)).Concat(plan.Checks.Select(c => c.Text)).OfType<string>())
            if (text.Contains("NaN", StringComparison.Ordinal) || text.Contains('∞') || text.Contains("Infinity", StringComparison.Ordinal))
                found.Add("text: " + text);
        return found;
    }
}
