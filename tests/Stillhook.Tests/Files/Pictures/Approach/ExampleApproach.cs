using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Files.Pictures.Approach;

/// <summary>The approach of the example job, and one that is refused; with things to draw beside it.</summary>
internal static class ExampleApproach
{
    private static readonly LiftRequest Request = WithThings(Read());

    /// <summary>Offered.</summary>
    public static ApproachPlan Offered { get; } = Planned(Request);

    /// <summary>Refused in every direction: the start mark is pinned nearer than the slow-down is long.</summary>
    public static ApproachPlan Refused { get; } = Planned(Request with { Approach = new() { Start = Length.FromMeters(60) } });

    /// <summary>Not planned at all: without a line.</summary>
    public static ApproachPlan Unplanned { get; } = Planned(Request with { Line = null });

    /// <summary>What stands about.</summary>
    public static Surroundings? Around(ApproachPlan plan) => plan.Situation is { } s ? new(s.Request, s.Site, s.Rules, null) : null;

    /// <summary>Ground that rises evenly to the north, m per m of latitude, over the offered plan.</summary>
    public static Surroundings OnASlope(double risePerMetre)
    {
        ApproachSituation s = Offered.Situation!;
        LocalFrame frame = new(s.Site.Latitude.Degrees, s.Site.Longitude.Degrees, 0);
        return new(s.Request, s.Site, s.Rules, (latitude, longitude) => 500 + risePerMetre * frame.ToEnu(latitude, longitude, 0).North);
    }

    private static LiftRequest Read()
    {
        using FileStream stream = File.OpenRead(Repository.File("examples/path-repair.json"));
        return JobFile.Read(stream).Request;
    }

    private static ApproachPlan Planned(LiftRequest request) =>
        Job.Approach(request, Job.Plan(request, new() { Solver = null }), new() { Flights = 2000 });

    private static LiftRequest WithThings(LiftRequest request) => request with
    {
        Sites = [.. request.Sites.Select(s => s.Use != SiteUse.Delivery ? s : s with
        {
            Obstacles = [.. s.Obstacles, s.Obstacles[0] with { Name = "spruce <3 & more", Latitude = Angle.FromDegrees(46.8770), Longitude = Angle.FromDegrees(10.1987), Height = Length.FromMeters(12) }],
            Wires = [.. s.Wires, new Wire { Name = "hut line", Voltage = ElectricPotential.FromKilovolts(20), TopHeight = Length.FromMeters(12), ClosestPlanned = Length.FromMeters(20), From = At(46.8761, 10.1960), To = At(46.8765, 10.2020) }],
        })],
    };

    private static Spot At(double latitude, double longitude) => new() { Latitude = Angle.FromDegrees(latitude), Longitude = Angle.FromDegrees(longitude) };
}
