using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>What is known of aircraft, fuel and air while hovering; null or empty where nobody entered it.</summary>
public sealed record HoverGiven
{
    /// <summary>The job: masses aboard, rigging, sites with weather.</summary>
    public required LiftRequest Job { get; init; }

    /// <summary>Fuel on board during a lift at a time (s since 1970 UTC); null when it is not known.</summary>
    public required Func<KeptLift, double, FuelOnBoard?> Fuel { get; init; }

    /// <summary>From s since 1970 UTC to the sites' own clock.</summary>
    public required Func<double, DateTimeOffset> Clock { get; init; }

    /// <summary>Weather of the day's sites.</summary>
    public PlanOptions Weather { get; init; } = new();

    /// <summary>Who flew; null when not told.</summary>
    public string? Pilot { get; init; }
}

/// <summary>Finds the steady hovers with a load hanging and the power they took.</summary>
/// <remarks>
/// Between 2 s after lift-off and 2 s before contact, ground speed under 1.5 m/s and climb under 0.3 m/s for 5 s or more: the longest such stretch on either half of the leg. With 15 m and more between
/// hook and load's underside the rotor is out of ground effect [HAYDEN]. Torque or power is the mean over it. Mass = equipped + people aboard + fuel + rigging + load. Density altitude from the site's elevation
/// with the hook's height over it, its altimeter setting and temperature at that time. Wind is not taken out: a hover in wind takes less. Choices are own; docs/method/day.md.
/// </remarks>
public static class HoverPoints
{
    private const double SlowMs = 1.5, LevelMs = 0.3, LeastS = 5, EdgeS = 2, StepS = 0.5, LeastLineM = 15;
    private const int LeastSamples = 3;

    /// <summary>The hovers of a flight in order of time, or none with the reason.</summary>
    public static (IReadOnlyList<HoverPoint> Hovers, string? WhyNone) Find(Debrief debrief, FlightRecord record, IReadOnlyList<KeptLift> lifts, HoverGiven given)
    {
        ArgumentNullException.ThrowIfNull(debrief);
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(lifts);
        ArgumentNullException.ThrowIfNull(given);
        Channel? torque = record.Find(ChannelKind.TorquePercent), power = record.Find(ChannelKind.PowerKw);
        if (Missing(debrief, torque ?? power, given) is { } missing)
            return ([], missing);
        List<HoverPoint> points = [];
        foreach (KeptLift lift in lifts.Where(l => l is { PickUpTimeS: not null, DeliveryTimeS: not null, LoadKg: not null, StruckOut: false }))
        {
            double from = lift.PickUpTimeS!.Value + EdgeS, to = lift.DeliveryTimeS!.Value - EdgeS, middle = (from + to) / 2;
            foreach (Stretch half in new Stretch[] { new(from, middle), new(middle, to) })
                if (Longest(debrief.Track!, half) is { } steady && Point(debrief, lift, steady, torque, power, given) is { } point)
                    points.Add(point);
        }
        return (points, points.Count > 0 ? null : "No steady hover with a load of known mass, fuel and weather was found.");
    }

    private static string? Missing(Debrief debrief, Channel? channel, HoverGiven given) =>
        debrief.Track is null || !debrief.Track.HasHeight ? "The record has no track with heights."
        : channel is null ? "The record has neither torque nor power."
        : given.Job.Aircraft?.EquippedMass is null ? "The aircraft's equipped mass is not entered."
        : given.Job.Aircraft.Name is null ? "The aircraft has no name to keep its hovers under."
        : debrief.Setup.ContactLengthM < LeastLineM ? "Line and load are shorter than 15 m: the rotor may be in ground effect."
        : null;

    private static Stretch? Longest(Track track, Stretch within)
    {
        Stretch? longest = null;
        double began = double.NaN;
        for (double t = within.FromS; t <= within.ToS; t += StepS)
        {
            TrackPoint p = track.At(t);
            if (!(p.Velocity.Horizontal < SlowMs && Math.Abs(p.Velocity.Up) < LevelMs))
            {
                began = double.NaN;
                continue;
            }
            if (double.IsNaN(began))
                began = t;
            if (t - began >= LeastS && t - began > (longest?.LengthS ?? 0))
                longest = new(began, t);
        }
        return longest;
    }

    private static HoverPoint? Point(Debrief debrief, KeptLift lift, Stretch steady, Channel? torque, Channel? power, HoverGiven given)
    {
        double at = (steady.FromS + steady.ToS) / 2;
        double? percent = Mean(torque, steady), kw = percent is null ? Mean(power, steady) : null;
        if ((percent ?? kw) is null || given.Fuel(lift, at) is not { } fuel || DensityAltitudeM(debrief, lift, at, given) is not { } altitude)
            return null;
        Aircraft aircraft = given.Job.Aircraft!;
        double aboard = given.Job.Crew.Where(c => c.FliesAlong()).Sum(c => c.Mass?.Kilograms ?? 0), kit = given.Job.Rigging.Sum(r => r.Mass?.Kilograms ?? 0);
        return new(at, aircraft.Name!, given.Pilot, altitude, aircraft.EquippedMass!.Value.Kilograms + aboard + fuel.Kg + kit + lift.LoadKg!.Value, percent, kw, lift.LoadKg, fuel.Kg, fuel.From);
    }

    private static double? Mean(Channel? channel, Stretch over)
    {
        if (channel is null)
            return null;
        double sum = 0;
        int count = 0;
        for (int i = 0; i < channel.TimeS.Length; i++)
            if (channel.TimeS[i] >= over.FromS && channel.TimeS[i] <= over.ToS && double.IsFinite(channel.Value[i]))
                (sum, count) = (sum + channel.Value[i], count + 1);
        return count >= LeastSamples ? sum / count : null;
    }

    private static double? DensityAltitudeM(Debrief debrief, KeptLift lift, double atS, HoverGiven given)
    {
        bool first = atS - lift.PickUpTimeS < lift.DeliveryTimeS - atS;
        Site? site = given.Job.Sites.FirstOrDefault(s => s.Name == (first ? lift.PickUpSite : lift.DeliverySite));
        Place? place = first ? lift.PickUp : lift.Delivery;
        Rotation? rotation = debrief.Rotations.FirstOrDefault(r => r.Number == lift.Number);
        if (site is not { Weather: not null, Elevation: { } elevation } || place is null || (first ? rotation?.PickupEnu : rotation?.DeliveryEnu) is not { } ground)
            return null;
        WeatherAt air = given.Weather.WeatherOf(given.Job, site).At(given.Clock(atS).TimeOfDay.TotalMinutes);
        double hookM = elevation.Meters + debrief.Track!.At(atS).Position.Up - ground.Up;
        double pressureM = Altimeter.PressureAltitudeM(hookM, air.QnhPa), kelvin = air.TemperatureC + StandardAtmosphere.ZeroCelsiusK;
        return air.DewPointC is { } dew ? DensityAltitude.OfMoistAirM(pressureM, kelvin, dew + StandardAtmosphere.ZeroCelsiusK) : DensityAltitude.OfDryAirM(pressureM, kelvin);
    }
}
