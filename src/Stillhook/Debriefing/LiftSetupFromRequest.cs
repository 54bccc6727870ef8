using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Debriefing;

public sealed partial record LiftSetup
{
    /// <summary>What a job says that a debrief needs, each figure marked as from the job file; the rest stays assumed.</summary>
    /// <remarks>
    /// Without its own load for the debrief the job's median load stands for all. Without its own mass in flight the aircraft weighs its equipped
    /// mass, the people aboard and half of its tank. Without its own wind the one observed at a delivery site is taken.
    /// </remarks>
    public static LiftSetup From(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        LiftSetup assumed = new();
        SingleLoad load = request.Load ?? MedianLoad(request.Loads) ?? new();
        return new()
        {
            Line = Given(request.Line?.Length, assumed.Line),
            Rigging = Given(request.Line?.Rigging, assumed.Rigging),
            Load = Given(load.Mass, assumed.Load),
            LoadHeight = Given(load.Height, assumed.LoadHeight),
            DragArea = Given(load.DragArea, assumed.DragArea),
            Aircraft = Given(MassInFlight(request), assumed.Aircraft),
            AntennaAboveHook = Given(request.Aircraft?.AntennaAboveHook, assumed.AntennaAboveHook),
            Wind = WindOf(request) is { } wind ? new Given<Wind>(new(wind.From.Degrees % 360, wind.Speed), Origin.JobFile) : null,
            Sites = [.. request.Sites.Select(s => new KnownSite(s.Name, s.Use, s.Latitude.Degrees, s.Longitude.Degrees))],
            Recon = request.Sites.LastOrDefault(s => s is { Use: SiteUse.Delivery, Recon: not null })?.Recon is { } recon ? Reading(recon) : null,
            People = [.. request.Sites.SelectMany(s => s.People).Select(p => new PersonPosition(p.Name ?? "", p.Latitude.Degrees, p.Longitude.Degrees))],
            Advice = request.Policy?.Advice,
            Gates = [.. MarksInForce.ToFly(request).Select(g => new PlanGate(g.Distance.Meters, g.HeightAboveTarget.Meters, g.GroundSpeed.MetersPerSecond, g.Sink.MetersPerSecond))],
            Marks = new(MarksInForce.ToFly(request).Count > 0 ? MarksOf.Entered : MarksOf.Nobody),
        };
    }

    private static Given<T> Given<T>(T? value, Given<T> assumed)
        where T : struct => value is { } given ? new(given, Origin.JobFile) : assumed;

    // Of an even number the heavier of the two in the middle, so that height and drag area are those of one real load.
    private static SingleLoad? MedianLoad(IReadOnlyList<PlannedLoad> loads) =>
        loads.OrderBy(l => l.Mass).ElementAtOrDefault(loads.Count / 2) is { } median ? new() { Name = median.Name, Mass = median.Mass, Height = median.Height, DragArea = median.DragArea } : null;

    private static Mass? MassInFlight(LiftRequest request)
    {
        if (request.Aircraft is not { } aircraft || aircraft.Mass is not null || aircraft.EquippedMass is not { } equipped)
            return request.Aircraft?.Mass;
        Mass people = Mass.FromKilograms(request.Crew.Where(c => c.FliesAlong()).Sum(c => c.Mass?.Kilograms ?? 0));
        return equipped + people + (aircraft.Fuel?.Tank ?? Mass.Zero) / 2;
    }

    private static WindGiven? WindOf(LiftRequest request) =>
        request.Wind ?? request.Sites.FirstOrDefault(s => s is { Use: SiteUse.Delivery, Weather.Wind: not null })?.Weather?.Wind;

    private static ReconReading Reading(ReconGiven recon) => new(recon.Altimeter, recon.Qnh.Hectopascals, recon.Time.ToUnixTimeMilliseconds() / 1000.0, recon.Temperature?.DegreesCelsius);
}
