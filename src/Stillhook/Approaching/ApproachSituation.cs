using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;
using Stillhook.Physics.Motion;
using Stillhook.Physics.Rotor;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>One load on its way to one site at one time, in SI: all that the path is planned from.</summary>
public sealed record ApproachSituation
{
    private const double LeastLegM = 1;

    /// <summary>The job.</summary>
    public required LiftRequest Request { get; init; }

    /// <summary>Where it goes.</summary>
    public required Site Site { get; init; }

    /// <summary>The load of the list; null when only a single load for a debrief was entered.</summary>
    public PlannedLoad? Listed { get; init; }

    /// <summary>The load's number or name.</summary>
    public required string LoadName { get; init; }

    /// <summary>What was asked for and typed.</summary>
    public required ApproachOptions Options { get; init; }

    /// <summary>Why the lift plan does not lift this load; null when it does, or there is none.</summary>
    public string? NotLifted { get; init; }

    /// <summary>Rules and defaults.</summary>
    public required ApproachRules Rules { get; init; }

    /// <summary>Load, line and air.</summary>
    public required SlungLoad Load { get; init; }

    /// <summary>Height of the load itself, m.</summary>
    public required double LoadHeightM { get; init; }

    /// <summary>All that the rotor carries, load and line included, kg; null when the aircraft's mass is not known.</summary>
    public double? GrossKg { get; init; }

    /// <summary>Elevation that heights over the spot count from, m.</summary>
    public required double ElevationM { get; init; }

    /// <summary>Pressure altitude of the hook over the spot, m.</summary>
    public required double PressureAltitudeM { get; init; }

    /// <summary>Temperature, °C.</summary>
    public required double TemperatureC { get; init; }

    /// <summary>Altimeter setting, Pa; null when nobody gave it.</summary>
    public double? QnhPa { get; init; }

    /// <summary>Local clock minute planned for; null when no day start is known.</summary>
    public double? Minute { get; init; }

    /// <summary>Wind; null when nobody gave it.</summary>
    public Wind? Wind { get; init; }

    /// <summary>Gust over the mean wind, m/s: as observed, else the stated spread.</summary>
    public required double GustMs { get; init; }

    /// <summary>Gust over the mean wind that somebody observed, m/s; 0 when nobody did.</summary>
    public double ObservedGustMs { get; init; }

    /// <summary>True course and length (m) of the straight way from the pick-up; null without one.</summary>
    public (double CourseDeg, double LengthM)? Direct { get; init; }

    /// <summary>Calibrated power model; null without rotor geometry or chart.</summary>
    public PowerModel? Model { get; init; }

    /// <summary>Power there is over the power to hover out of ground effect with the load, and where it comes from.</summary>
    public HoverRatio? Hover { get; init; }

    /// <summary>Sun over the spot at that time; null when the time is not known.</summary>
    public SunPosition? Sun { get; init; }

    /// <summary>Mean induced velocity of the hover with the load, m/s; null without rotor and mass.</summary>
    public double? HoverInducedMs => Request.Aircraft?.Rotor is { } rotor && GrossKg is { } gross
        ? Math.Sqrt(gross * Gravity.Standard / (2 * Load.AirDensityKgM3 * Math.PI * rotor.Radius.Meters * rotor.Radius.Meters)) : null;

    /// <summary>The sink permitted at an air speed.</summary>
    public SinkLimit SinkLimit => new(Rules.SlowSinkMs.Value, Rules.HighestSinkMs.Value, HoverInducedMs);

    /// <summary>Hook to the load's underside, m.</summary>
    public double ContactLengthM => Load.LengthM + LoadHeightM / 2;

    /// <summary>Period of a small swing with a hook that stays where it is, s.</summary>
    public double PeriodS => 2 * Math.PI * Math.Sqrt(FlatMap.Of(Load).LengthM / Gravity.Standard);

    /// <summary>Period of a small swing with the aircraft free to move under it, x √(1 − m/M), s; as with the hook held still when its mass is not known.</summary>
    public double FreePeriodS => GrossKg is { } gross && gross > Load.MassKg ? PeriodS * Math.Sqrt(1 - Load.MassKg / gross) : PeriodS;

    /// <summary>One swing there and back with this load and line as it is said on page, card and in the command: from the aircraft free to move to the hook held still, in whole seconds.</summary>
    public string SwingWords => SwingText(FreePeriodS, PeriodS);

    /// <summary>A range of periods, s, in words: both ends to the whole second, one figure where they are the same second.</summary>
    public static string SwingText(double freeS, double heldS) => Math.Round(freeS) == Math.Round(heldS) ? FormattableString.Invariant($"{heldS:0} s") : FormattableString.Invariant($"{freeS:0} to {heldS:0} s");

    /// <summary>A load of the list as it is said on page and card: 'load 4 (stone bag)'.</summary>
    public static string NameOf(PlannedLoad load)
    {
        ArgumentNullException.ThrowIfNull(load);
        return $"load {load.Number}{(load.Name is { Length: > 0 } name ? $" ({name})" : "")}";
    }

    /// <summary>Load, line and wind in the frame of a course.</summary>
    public HangingLoad Hanging(double courseDeg)
    {
        Enu wind = Wind is { } w ? new CourseFrame(courseDeg).FromEnu(w.VelocityEnu) : default;
        return new(Load, LoadHeightM, wind.East, wind.North);
    }

    /// <summary>The situation of a load at a site.</summary>
    /// <param name="request">The job; site, line length and load are there.</param>
    /// <param name="site">Delivery site.</param>
    /// <param name="listed">Load of the list, or null for the single load.</param>
    /// <param name="plan">The lift plan where one could be made: mass, fuel, hour and hover power come from it.</param>
    /// <param name="options">How weather and clock are read.</param>
    public static ApproachSituation Of(LiftRequest request, Site site, PlannedLoad? listed, LiftPlan? plan, ApproachOptions options)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(options);
        LoadPlan? lift = plan?.Loads.FirstOrDefault(l => l.OnHook.Load == listed);
        double minute = lift?.Lift?.HookOnMinute ?? request.Day?.Start?.ToTimeSpan().TotalMinutes ?? 12 * 60;
        WeatherAt? weather = site.Weather is null ? null : options.Plan.WeatherOf(request, site).At(minute);
        LiftSetup setup = LiftSetup.From(request);
        double elevation = site.Elevation?.Meters ?? site.Recon!.Altimeter.Meters - setup.ContactLengthM;
        double loadHeight = (listed?.Height ?? request.Load?.Height)?.Meters ?? 0;
        double lineKg = request.Rigging.Where(p => p.Kind == PartKind.Line).Sum(p => p.Mass?.Kilograms ?? 0);
        double loadKg = (listed?.Mass ?? request.Load!.Mass!.Value).Kilograms + (lift?.OnHook.KitKg ?? request.Rigging.Where(p => p.Kind != PartKind.CargoHook).Sum(p => p.Mass?.Kilograms ?? 0)) - lineKg;
        double length = request.Line!.Length!.Value.Meters, swing = length + (request.Line.Rigging?.Meters ?? 0) + loadHeight / 2;
        double contact = swing + loadHeight / 2, temperature = weather?.TemperatureC ?? options.Shift.Temperature?.DegreesCelsius ?? StandardAtmosphere.TemperatureK(elevation) - StandardAtmosphere.ZeroCelsiusK;
        double? setting = weather?.QnhPa ?? options.Shift.Qnh?.Pascals;
        double qnh = setting ?? StandardAtmosphere.PressurePa(0);
        double pressureAltitude = Altimeter.PressureAltitudeM(elevation + contact, qnh);
        SiteHour? hour = lift?.Payload?.Delivery.At;
        double density = StandardAtmosphere.DensityKgM3(StandardAtmosphere.PressurePa(pressureAltitude), temperature + StandardAtmosphere.ZeroCelsiusK);
        HoverExpected? hover = lift?.Hover.FirstOrDefault(h => h.Site.Name == site.Name && h.Site.Use == SiteUse.Delivery);
        HoverExpectations? expectations = request.Aircraft?.HoverOutOfGroundEffect is null ? null : new(request.Aircraft);
        double? gross = hover?.GrossKg ?? (setup.Aircraft.From == Origin.JobFile ? setup.Aircraft.Value.Kilograms + loadKg + lineKg : null);
        return new()
        {
            Request = request,
            Site = site,
            Listed = listed,
            LoadName = listed is null ? request.Load?.Name ?? "the load" : NameOf(listed),
            Options = options,
            NotLifted = lift is { Verdict: LoadVerdict.DoesNotLift } ? lift.Why : null,
            Rules = new(request),
            Load = new(swing, loadKg, ((listed?.DragArea ?? request.Load?.DragArea) ?? setup.DragArea.Value).SquareMeters, density, lineKg / swing, (request.Line.DragArea?.SquareMeters ?? 0) / swing),
            LoadHeightM = loadHeight,
            GrossKg = gross,
            ElevationM = elevation,
            PressureAltitudeM = pressureAltitude,
            TemperatureC = temperature,
            QnhPa = setting,
            Minute = request.Day?.Start is null ? null : minute,
            Wind = weather?.Wind ?? (request.Wind is { } w ? new Wind(w.From.Degrees % 360, w.Speed) : null),
            ObservedGustMs = GustOf(request, site) ?? 0,
            GustMs = GustOf(request, site) ?? new ApproachRules(request).GustSpreadMs.Value,
            Direct = request.SiteOf(listed?.PickUp, SiteUse.PickUp) is { } pickUp && RotationLegs.DistanceM(pickUp, site) > LeastLegM ? (RotationLegs.CourseDeg(pickUp, site), RotationLegs.DistanceM(pickUp, site)) : null,
            Model = expectations?.Model,
            Hover = HoverRatio.Of(request, hover, hour, gross),
            Sun = request.Date is { } day && request.Day?.Start is not null && options.MomentOf(day, minute) is { } moment ? SunPosition.At(moment, site.Latitude.Degrees, site.Longitude.Degrees) : null,
        };
    }

    private static double? GustOf(LiftRequest request, Site site) =>
        (site.Weather?.Wind ?? request.Wind) is { Gust: { } gust, Speed: var mean } ? Math.Max(0, (gust - mean).MetersPerSecond) : null;
}

/// <summary>Power there is over what the hover with the load takes, out of ground effect.</summary>
/// <param name="Value">x: above 1 there is power in hand.</param>
/// <param name="From">Where it comes from, in words.</param>
/// <param name="Inputs">Its inputs.</param>
/// <param name="Formula">How x follows from them.</param>
public sealed record HoverRatio(double Value, string From, IReadOnlyList<FigureInput> Inputs, string Formula)
{
    private const double ProfileShare = SinkArrest.UsualConstantShare;

    /// <summary>Power in hand, percent of what the hover takes: for the motion only, not shown beside <see cref="LeftPercent"/>.</summary>
    public double InHandPercent => 100 * (Value - 1);

    /// <summary>Power left, percent of the most there is, without wind; nothing is taken off for gusts or margin. The one figure that a person is shown, rounded down.</summary>
    public double LeftPercent => 100 * (1 - 1 / Value);

    /// <summary>A power left as a person is shown it: whole percent, rounded down; a hair under a whole one is that one.</summary>
    public static double Shown(double leftPercent) => Math.Floor(leftPercent + 1e-9);

    /// <summary>The least of what torque page, power model and hover chart say.</summary>
    /// <remarks>From the hover chart: s + (1 − s)·(hover mass / gross mass)^1.5, as only the induced part of the power goes with mass to the 1.5 [LEISHMAN]; s as in <see cref="SinkArrest"/>.</remarks>
    public static HoverRatio? Of(LiftRequest request, HoverExpected? hover, SiteHour? hour, double? grossKg)
    {
        ArgumentNullException.ThrowIfNull(request);
        List<HoverRatio> ratios = [];
        if (hover?.ChartTorquePercent is { } torque)
        {
            double limit = request.Aircraft?.TorqueLimit?.Percent ?? 100;
            ratios.Add(new(limit / torque, "torque limit over the torque page", [new("torque limit", Amount.Percent(limit), request.Aircraft?.TorqueLimit is null ? InputFrom.Default : InputFrom.JobFile, "aircraft.torqueLimit"), new("hover torque with the load", Amount.Percent(torque), InputFrom.JobFile, "aircraft.hoverTorque")], "torque limit / hover torque"));
        }
        if (hover is { ModelMarginPercent: { } margin, InsideChart: true })
            ratios.Add(new(1 / (1 - margin / 100), "power model", [new("power left in the model", Amount.Percent(margin), InputFrom.Rule, "docs/method/power.md")], "1 / (1 - power left in the model)"));
        if (hour is { IsJudged: true } && grossKg is { } gross)
            ratios.Add(new(ProfileShare + (1 - ProfileShare) * Math.Pow(hour.HoverMassKg / gross, 1.5), "hover chart: hover mass over gross mass",
                [new("hover mass", Amount.Kilograms(hour.HoverMassKg), InputFrom.JobFile, "aircraft.hoverOutOfGroundEffect"), new("gross mass over the spot", Amount.Kilograms(gross), InputFrom.Rule, "fuel, crew, kit and load of the lift plan")], FormattableString.Invariant($"{ProfileShare:0.00} + {1 - ProfileShare:0.00} x (hover mass / gross mass)^1.5")));
        return ratios.MinBy(r => r.Value);
    }
}
