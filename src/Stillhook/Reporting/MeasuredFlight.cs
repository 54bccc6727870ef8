using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>What is to be kept of a flight, from its debrief: the flight, its lifts, and what is doubtful about them.</summary>
/// <param name="Flight">The flight, not yet numbered.</param>
/// <param name="Lifts">Its lifts in order of time.</param>
/// <param name="Findings">What is doubtful.</param>
public sealed record MeasuredFlight(KeptFlight Flight, IReadOnlyList<KeptLift> Lifts, IReadOnlyList<Finding> Findings)
{
    private const double NearSiteM = 100;

    /// <summary>The flight of a debrief.</summary>
    /// <param name="debrief">Its debrief.</param>
    /// <param name="record">The record it was made from.</param>
    /// <param name="job">The job, for limits, loads and the pilot where there is only one; null when there is none.</param>
    /// <param name="inOrder">Loads in the order they were to be flown, where this flight is the whole of them; null leaves load numbers to <see cref="LoadNumbers"/> over the day.</param>
    /// <param name="pilot">Who flew; null takes the job's only pilot.</param>
    /// <param name="goesOn">The flight is the first part of the list, and the rest of it is still to come.</param>
    public static MeasuredFlight From(Debrief debrief, FlightRecord record, LiftRequest? job = null, IReadOnlyList<PlannedLoad>? inOrder = null, string? pilot = null, bool goesOn = false)
    {
        ArgumentNullException.ThrowIfNull(debrief);
        ArgumentNullException.ThrowIfNull(record);
        (IReadOnlyList<Exceedance> exceedances, IReadOnlyList<Finding> findings) = ExceedanceFinder.Find(record, ExceedanceLimits.From(job));
        List<double> times = [.. record.TimeS.Where(double.IsFinite)];
        if (times.Count == 0 && debrief.Track is { Count: > 0 } track)
            times = [track.TimeS[0], track.TimeS[^1]];
        KeptFlight flight = new(0, record.Name, times.Count == 0 ? default : new(times.Min(), times.Max()), AirborneFinder.Find(debrief), exceedances, pilot ?? OnlyPilot(job), job?.Aircraft?.Name);
        IReadOnlyList<KeptLift> lifts = LiftsOf(debrief, record);
        return new(flight, inOrder is null ? lifts : LoadNumbers.Assign(lifts, inOrder, goesOn), findings);
    }

    /// <summary>Loads of a plan in the order they were to be flown: those of its order, then those without a place, as listed.</summary>
    public static IReadOnlyList<PlannedLoad> InOrder(LiftPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Loads.OrderBy(l => l.Lift?.Position ?? int.MaxValue).Select(l => l.OnHook.Load)];
    }

    /// <summary>The pilot of a job that names one only; else null.</summary>
    public static string? OnlyPilot(LiftRequest? job) => job?.Crew.Where(c => c.Role == CrewRole.Pilot).ToArray() is [var only] ? only.Name : null;

    /// <summary>The lifts of a debrief, one a rotation, without numbers of loads.</summary>
    /// <param name="debrief">Its debrief.</param>
    /// <param name="record">The record it was made from, for the load cell.</param>
    public static IReadOnlyList<KeptLift> LiftsOf(Debrief debrief, FlightRecord record)
    {
        ArgumentNullException.ThrowIfNull(debrief);
        ArgumentNullException.ThrowIfNull(record);
        double?[] masses = CarriedMass.Of(record.Find(ChannelKind.LoadKg), debrief.Rotations);
        double? lineM = debrief.Setup.Line.From == Origin.Assumed ? null : debrief.Setup.Line.Value.Meters;
        return [.. debrief.Rotations.Select((r, i) => new KeptLift
        {
            Number = r.Number,
            LoadKg = masses[i],
            LoadMeasured = masses[i] is not null,
            PickUpTimeS = r.PickupTimeS,
            ApproachStartTimeS = r.ApproachStartTimeS,
            StopTimeS = r.StopTimeS,
            DeliveryTimeS = r.DeliveryTimeS,
            ReleaseTimeS = r.ReleaseTimeS,
            ClearTimeS = r.ClearTimeS,
            PickUp = On(debrief.Track, r.PickupEnu),
            Delivery = On(debrief.Track, r.DeliveryEnu),
            PickUpSite = Near(debrief, r.PickupEnu, SiteUse.PickUp),
            DeliverySite = Near(debrief, r.DeliveryEnu, SiteUse.Delivery),
            LineM = lineM,
            GoArounds = r.GoArounds,
            Confidence = r.Confidence,
            Measures = r.Delivery,
        })];
    }

    private static Place? On(Track? track, Enu? place)
    {
        if (track is null || place is not { } p)
            return null;
        (double latitude, double longitude, _) = track.Frame.ToGeodetic(p);
        return new(latitude, longitude);
    }

    // Sites found in the record have no name that lasts beyond this debrief.
    private static string? Near(Debrief debrief, Enu? place, SiteUse use) => place is not { } p ? null
        : debrief.Sites.Where(s => s.Known && s.Use == use && (s.PositionEnu - p).Horizontal <= NearSiteM).MinBy(s => (s.PositionEnu - p).Horizontal)?.Name;
}

/// <summary>Mass of each load by the load cell: what it shows with the load less what it shows without.</summary>
internal static class CarriedMass
{
    private const double EdgeS = 5;
    private const int LeastSamples = 8;
    private const double LeastKg = 10;

    /// <summary>Median reading between lift-off and set-down less the median of the nearest empty leg, kg; null where either has too few samples.</summary>
    /// <remarks>Slings that go with the load count as load. Medians leave out snatches, and dropouts read as nothing.</remarks>
    public static double?[] Of(Channel? cell, IReadOnlyList<Rotation> rotations)
    {
        if (cell is null)
            return new double?[rotations.Count];
        (double T, double Kg)[] samples = [.. cell.TimeS.Zip(cell.Value).Where(s => double.IsFinite(s.First) && double.IsFinite(s.Second)).OrderBy(s => s.First)];
        double[] time = [.. samples.Select(s => s.T)], kg = [.. samples.Select(s => s.Kg)];
        double?[] bare = [.. rotations.Select((r, i) => Median(time, kg, (r.ClearTimeS ?? r.ReleaseTimeS ?? r.DeliveryTimeS) + EdgeS, i + 1 < rotations.Count ? rotations[i + 1].PickupTimeS - 2 * EdgeS : r.ClearTimeS + 60))];
        return [.. rotations.Select((r, i) => Median(time, kg, r.PickupTimeS + EdgeS, r.DeliveryTimeS - EdgeS) - (bare[i] ?? (i > 0 ? bare[i - 1] : null) ?? bare.FirstOrDefault(b => b is not null)) is { } m && m >= LeastKg ? m : (double?)null)];
    }

    private static double? Median(double[] time, double[] kg, double? from, double? to)
    {
        if (from is not { } a || to is not { } b || b <= a)
            return null;
        int first = Array.BinarySearch(time, a), last = Array.BinarySearch(time, b);
        first = first < 0 ? ~first : first;
        last = last < 0 ? ~last : last;
        if (last - first < LeastSamples)
            return null;
        double[] values = kg[first..last];
        Array.Sort(values);
        return values[values.Length / 2];
    }
}
