using System.Globalization;
using Stillhook.Physics.Air;
using UnitsNet;

namespace Stillhook.Planning.Payload;

/// <summary>The most a load may weigh: hover mass and gross limit over both sites, what is aboard, hook, rigging, then the margins.</summary>
/// <remarks>
/// allowed = (min(gross − operating − fuel − kit, hook limit − kit, weakest part) ) × (1 − construction margin), rounded down to a kilogram;
/// gross = min(hover mass out of ground effect, mass at the torque limit less the power margin, external gross limit) − mass margin. Ground effect is never
/// taken: on a long line the rotor is a line's length above the ground. The chart is read inside its printed range only.
/// Sources: [SPO-HESLO](g) worse of both sites and 10 % for construction, [14CFR-133.43] total mass, [14CFR-1.1] attaching means count.
/// </remarks>
public sealed class PayloadCalculator
{
    private readonly LiftRequest request;
    private readonly Aircraft aircraft;
    private readonly PolicyInForce policy;
    private readonly FigureBook figures;
    private readonly ChartTable hover;
    private readonly TorqueTable? torque;
    private readonly Dictionary<(string Site, int Hour), SiteHour> known = [];
    private readonly Func<Site, DayWeather> weather;
    private readonly double minutesPastTheHour;

    /// <summary>A calculator for one request; its aircraft has mass, limits, hover chart.</summary>
    public PayloadCalculator(LiftRequest request, PolicyInForce policy, FigureBook figures, Func<Site, DayWeather> weather, double minutesPastTheHour = 10)
    {
        ArgumentNullException.ThrowIfNull(request);
        this.request = request;
        this.policy = policy;
        this.figures = figures;
        this.weather = weather;
        this.minutesPastTheHour = minutesPastTheHour;
        aircraft = request.Aircraft ?? throw new ArgumentException("The aircraft is given.", nameof(request));
        hover = ChartTable.From(aircraft.HoverOutOfGroundEffect ?? throw new ArgumentException("The hover chart is given.", nameof(request)));
        torque = aircraft.HoverTorque is null ? null : new(aircraft.HoverTorque);
        Operating = OperatingMass();
    }

    /// <summary>A calculator for the day of a request: a load hooked on at the end of an hour is down a loaded leg later.</summary>
    /// <param name="request">The job; its aircraft has mass, limits, hover chart, speeds and burn.</param>
    /// <param name="policy">Its rules.</param>
    /// <param name="figures">Where the working is kept.</param>
    /// <param name="options">How its weather is read.</param>
    public static PayloadCalculator ForTheDay(LiftRequest request, PolicyInForce policy, FigureBook figures, PlanOptions options)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(options);
        RotationLegs legs = new(request.Aircraft!);
        Dictionary<string, DayWeather> weather = [];
        double longestLeg = Checking.DayConditions.Ways(request).Select(w => legs.Loaded(w.PickUp, w.Delivery).Minutes).DefaultIfEmpty().Max();
        return new(request, policy, figures, WeatherOf, Math.Max(10, Math.Ceiling(longestLeg)));

        DayWeather WeatherOf(Site site) => weather.TryGetValue(site.Name, out DayWeather? day) ? day : weather[site.Name] = options.WeatherOf(request, site);
    }

    /// <summary>Equipped mass and everybody aboard, without fuel and load, kg.</summary>
    public Figure Operating { get; }

    /// <summary>The same as a number, kg.</summary>
    public double OperatingKg => ((Mass)Operating.Value.Quantity).Kilograms;

    /// <summary>The hover chart.</summary>
    public ChartTable HoverChart => hover;

    /// <summary>The most gross mass over a site during a clock hour.</summary>
    public SiteHour At(Site site, int hour)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (known.TryGetValue((site.Name, hour), out SiteHour? before))
            return before;
        DayWeather day = weather(site);
        double from = hour * 60, to = from + 60 + minutesPastTheHour;
        WeatherAt start = day.At(from);
        double temperature = day.HottestC(from, to);
        double qnh = day.LowestQnhPa(from, to);
        return known[(site.Name, hour)] = Work(site, hour, start with { TemperatureC = temperature, QnhPa = qnh });
    }

    /// <summary>Gross mass permitted over a site at a temperature (°C) of one's choice, kg, with the hour's altimeter setting; not a number when it can't be judged.</summary>
    public double GrossKgAt(SiteHour at, double temperatureC)
    {
        ArgumentNullException.ThrowIfNull(at);
        return GrossOf(at.PressureAltitudeM, temperatureC).GrossKg;
    }

    /// <summary>The most a load may weigh at a site, hour and fuel.</summary>
    public SitePayload Payload(LoadOnHook load, SiteHour at, Figure fuel, string key)
    {
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(at);
        ArgumentNullException.ThrowIfNull(fuel);
        double fuelKg = ((Mass)fuel.Value.Quantity).Kilograms;
        foreach (Figure figure in at.Figures)
            figures.Add(figure);
        if (!at.IsJudged)
            return new(at, fuelKg, 0, LoadLimitedBy.NotJudged, null);
        double hookKg = aircraft.HookLimit!.Value.Kilograms;
        (double kg, LoadLimitedBy by) = AllowedBeforeMargin(load, at.GrossKg, fuelKg, at.LimitedBy);
        double margin = load.Construction ? policy.ConstructionPercent.Value : 0;
        double allowed = RoundDown(Math.Max(kg, 0) * (1 - margin / 100));
        List<FigureInput> inputs =
        [
            FigureBook.Of(at.Figures[^1]), FigureBook.Of(Operating), FigureBook.Of(fuel), FigureBook.Of(load.Kit),
            new("hook limit", Amount.Kilograms(hookKg), InputFrom.JobFile, "aircraft.hookLimit"),
        ];
        if (double.IsFinite(load.RiggingMaxKg))
            inputs.Add(new($"weakest part, {load.WeakestPart}", Amount.Kilograms(load.RiggingMaxKg), InputFrom.Figure, load.RiggingMaxKey));
        if (margin > 0)
            inputs.Add(Input("construction margin", Amount.Percent(margin), policy.ConstructionPercent));
        Figure allowedFigure = figures.Add(new(key, $"most that load {load.Load.Number} may weigh at {at.Site.Name}, {ClockText.Hour(at.Hour)}", Amount.Kilograms(allowed),
            margin > 0
                ? "(smallest of gross mass less operating mass, fuel and kit; hook limit less kit; weakest part) less the construction margin, rounded down"
                : "smallest of gross mass less operating mass, fuel and kit; hook limit less kit; weakest part; rounded down",
            inputs, "SPO-HESLO", $"limited by {Words(by, load)}"));
        return new(at, fuelKg, allowed, by, allowedFigure);
    }

    /// <summary>The most a load may weigh on its way, hooked on in a clock hour with some fuel: its figure is <c>payload.NUMBER</c>.</summary>
    public LoadPayload Payload(LoadOnHook load, int hour, Figure fuel)
    {
        ArgumentNullException.ThrowIfNull(load);
        Site pickUp = request.SiteOf(load.Load.PickUp, Debriefing.SiteUse.PickUp)!, delivery = request.SiteOf(load.Load.Delivery, Debriefing.SiteUse.Delivery)!;
        string key = KeyOf(load.Load.Number);
        LoadPayload allowed = new(Payload(load, At(pickUp, hour), fuel, key + ".pickUp"), Payload(load, At(delivery, hour), fuel, key + ".delivery"));
        if (allowed.PickUp.Figure is { } atPickUp && allowed.Delivery.Figure is { } atDelivery)
            figures.Add(new(key, $"most that load {load.Load.Number} may weigh", Amount.Kilograms(allowed.Governing.AllowedKg), "smaller of both sites",
                [FigureBook.Of(atPickUp, $"at {pickUp.Name}"), FigureBook.Of(atDelivery, $"at {delivery.Name}")], "SPO-HESLO", $"{allowed.Governing.At.Site.Name} governs"));
        return allowed;
    }

    /// <summary>Key of the figure of the most that a load may weigh.</summary>
    public static string KeyOf(string number) => $"payload.{FigureKey.Part(number)}";

    /// <summary>The most fuel, kg, with which a load may be hooked on at a gross mass (kg); not a number when no fuel makes it fit.</summary>
    public double MostFuelKg(LoadOnHook load, double grossKg)
    {
        ArgumentNullException.ThrowIfNull(load);
        double fuel = grossKg - OperatingKg - OnHookKg(load);
        return fuel >= 0 && NeedBeforeMarginKg(load) <= StaticMaxKg(load) ? fuel : double.NaN;
    }

    /// <summary>What hangs on the hook with the margin counted in, kg: the figure that gross − operating − fuel must reach.</summary>
    public double OnHookKg(LoadOnHook load)
    {
        ArgumentNullException.ThrowIfNull(load);
        return NeedBeforeMarginKg(load) + load.KitKg;
    }

    /// <summary>The most that hook and rigging permit for the load alone, kg, before the construction margin.</summary>
    public double StaticMaxKg(LoadOnHook load)
    {
        ArgumentNullException.ThrowIfNull(load);
        return Math.Min(aircraft.HookLimit!.Value.Kilograms - load.KitKg, load.RiggingMaxKg);
    }

    /// <summary>The load's mass as the limits before the construction margin see it, kg.</summary>
    public double NeedBeforeMarginKg(LoadOnHook load)
    {
        ArgumentNullException.ThrowIfNull(load);
        return load.NeedKg / (1 - (load.Construction ? policy.ConstructionPercent.Value : 0) / 100);
    }

    /// <summary>What a limit is called by the crew.</summary>
    public static string Words(LoadLimitedBy by, LoadOnHook load) => by switch
    {
        LoadLimitedBy.HoverMass => "hover mass",
        LoadLimitedBy.PowerMargin => "torque limit",
        LoadLimitedBy.ExternalGrossLimit => "external gross limit",
        LoadLimitedBy.CargoHook => "cargo hook",
        LoadLimitedBy.Rigging => $"rigging: {load?.WeakestPart}",
        _ => "not judged",
    };

    /// <summary>A value of the policy as an input.</summary>
    public static FigureInput Input(string name, Amount value, Chosen<double> chosen) => new(name, value, chosen.From, chosen.Where);

    private (double Kg, LoadLimitedBy By) AllowedBeforeMargin(LoadOnHook load, double grossKg, double fuelKg, GrossLimitedBy by)
    {
        double kg = grossKg - OperatingKg - fuelKg - load.KitKg;
        LoadLimitedBy limitedBy = by switch
        {
            GrossLimitedBy.PowerMargin => LoadLimitedBy.PowerMargin,
            GrossLimitedBy.ExternalGrossLimit => LoadLimitedBy.ExternalGrossLimit,
            _ => LoadLimitedBy.HoverMass,
        };
        double hookKg = aircraft.HookLimit!.Value.Kilograms - load.KitKg;
        if (hookKg < kg)
            (kg, limitedBy) = (hookKg, LoadLimitedBy.CargoHook);
        if (load.RiggingMaxKg < kg)
            (kg, limitedBy) = (load.RiggingMaxKg, LoadLimitedBy.Rigging);
        return (kg, limitedBy);
    }

    private SiteHour Work(Site site, int hour, WeatherAt w)
    {
        double elevation = site.Elevation!.Value.Meters;
        double above = HeightAboveSiteM();
        double pressureAltitude = Altimeter.PressureAltitudeM(elevation + above, w.QnhPa);
        double? dewPoint = w.DewPointC is { } observed && observed >= LowestDewPointC && observed <= w.TemperatureC ? observed : null;
        double density = dewPoint is { } dew
            ? Humidity.DensityByDewPointKgM3(StandardAtmosphere.PressurePa(pressureAltitude), w.TemperatureC + StandardAtmosphere.ZeroCelsiusK, dew + StandardAtmosphere.ZeroCelsiusK)
            : StandardAtmosphere.DensityKgM3(StandardAtmosphere.PressurePa(pressureAltitude), w.TemperatureC + StandardAtmosphere.ZeroCelsiusK);
        double densityAltitude = DensityAltitude.OfDensityM(density);
        string where = $"{FigureKey.Part(site.Name)}.{hour:00}", period = $"{site.Name}, {ClockText.Hour(hour)}";
        string sitePath = $"sites[{request.Sites.ToList().IndexOf(site)}]";
        FigureInput temperature = new("hottest in the hour and until a load hooked on at its end is down", Amount.Celsius(w.TemperatureC), InputFrom.JobFile, w.Where);
        Figure pa = new($"pressureAltitude.{where}", $"pressure altitude of the aircraft at {period}", Altitude(pressureAltitude),
            "elevation, height of the aircraft above the site, and the standard height of the altimeter setting",
            [new("elevation", Altitude(elevation), InputFrom.JobFile, sitePath + ".elevation"), new("aircraft above the site: line, rigging, tallest load", Altitude(above), InputFrom.JobFile, "line.length"), new("altimeter setting", new(Pressure.FromHectopascals(w.QnhPa / 100), 0.1), InputFrom.JobFile, sitePath + ".weather.qnh")],
            "ISO2533");
        Figure da = new($"densityAltitude.{where}", $"density altitude at {period}", Altitude(densityAltitude),
            "the standard height at which dry air of 15 °C at sea level has this density", dewPoint is { } d
                ? [FigureBook.Of(pa), temperature, new("dew point", Amount.Celsius(d), InputFrom.JobFile, sitePath + ".weather.dewPoint")]
                : [FigureBook.Of(pa), temperature],
            "ISO2533", dewPoint is null ? "dry: no dew point given that can be used" : "for information: the chart is entered with pressure altitude and temperature");

        (double gross, GrossLimitedBy by, ChartReading chart, double withMargin) = GrossOf(pressureAltitude, w.TemperatureC);
        if (double.IsNaN(gross))
            return new(site, hour, w.TemperatureC, pressureAltitude, densityAltitude, double.NaN, double.NaN, by, $"{site.Name} {ClockText.Of(hour % 24 * 60)}: {NotJudgedBecause(chart, pressureAltitude, w.TemperatureC)}.", [pa, da]);
        Figure hoverFigure = new($"hover.{where}", $"hover mass out of ground effect at {period}", Amount.Kilograms(chart.Value),
            "linear between the printed values of the chart, inside its range only", [FigureBook.Of(pa), temperature, .. ChartInputs(chart, "aircraft.hoverOutOfGroundEffect")],
            "flight manual, " + aircraft.HoverOutOfGroundEffect!.Source, Typed(aircraft.HoverOutOfGroundEffect));
        List<FigureInput> inputs = [FigureBook.Of(hoverFigure)];
        if (ReductionKg > 0)
            inputs.Add(new("weight reduction", Amount.Kilograms(ReductionKg), InputFrom.JobFile, "aircraft.weightReduction"));
        if (!double.IsNaN(withMargin))
            inputs.Add(new("mass that hovers at the torque limit less the power kept in hand, from the torque chart", Amount.Kilograms(withMargin), InputFrom.JobFile, "aircraft.hoverTorque"));
        inputs.Add(new("external gross limit", Amount.Kilograms(aircraft.ExternalGrossLimit!.Value.Kilograms), InputFrom.JobFile, "aircraft.externalGrossLimit"));
        inputs.Add(new("torque limit", Amount.Percent(TorqueLimitPercent), aircraft.TorqueLimit is null ? InputFrom.Default : InputFrom.JobFile, "aircraft.torqueLimit"));
        inputs.Add(Input("power kept in hand", Amount.Percent(policy.PowerMarginPercent.Value), policy.PowerMarginPercent));
        inputs.Add(Input("mass kept back on every lift", Amount.Kilograms(policy.MassMarginKg.Value), policy.MassMarginKg));
        Figure grossFigure = new($"gross.{where}", $"most gross mass at {period}", Amount.Kilograms(gross),
            "smallest of them, less the mass margin; never ground effect", inputs, "14CFR-133.43");
        return new(site, hour, w.TemperatureC, pressureAltitude, densityAltitude, chart.Value, gross, by, "", [pa, da, hoverFigure, grossFigure]);
    }

    /// <summary>With the load touching the ground the aircraft is a line, its rigging and the load above it, m: the tallest load stands for all.</summary>
    private double HeightAboveSiteM() =>
        (request.Line?.Length?.Meters ?? 0) + (request.Line?.Rigging?.Meters ?? 0) + request.Loads.Select(l => l.Height?.Meters ?? 0).DefaultIfEmpty().Max();

    private (double GrossKg, GrossLimitedBy By, ChartReading Chart, double WithMarginKg) GrossOf(double pressureAltitudeM, double temperatureC)
    {
        ChartReading chart = hover.At(pressureAltitudeM, temperatureC);
        if (!chart.IsGiven)
            return (double.NaN, GrossLimitedBy.HoverMass, chart, double.NaN);
        double gross = chart.Value - ReductionKg;
        GrossLimitedBy by = GrossLimitedBy.HoverMass;
        double withMargin = double.NaN;
        if (torque is not null || policy.PowerMarginPercent.Value > 0)
        {
            withMargin = PowerMarginMass(pressureAltitudeM, temperatureC).Value;
            if (double.IsNaN(withMargin))
                return (double.NaN, GrossLimitedBy.PowerMargin, chart, withMargin);
            if (withMargin < gross)
                (gross, by) = (withMargin, GrossLimitedBy.PowerMargin);
        }
        if (aircraft.ExternalGrossLimit!.Value.Kilograms is var limit && limit < gross)
            (gross, by) = (limit, GrossLimitedBy.ExternalGrossLimit);
        return (gross - policy.MassMarginKg.Value, by, chart, withMargin);
    }

    private ChartReading PowerMarginMass(double pressureAltitudeM, double temperatureC) =>
        torque?.MassAt(TorqueLimitPercent - policy.PowerMarginPercent.Value, pressureAltitudeM, temperatureC)
        ?? new(double.NaN, "power is to be kept in hand, but there is no hover torque chart to read it from", []);

    private string NotJudgedBecause(ChartReading chart, double pressureAltitudeM, double temperatureC) =>
        chart.IsGiven ? PowerMarginMass(pressureAltitudeM, temperatureC).Refused : chart.Refused;

    private double TorqueLimitPercent => aircraft.TorqueLimit?.Percent ?? 100;

    /// <summary>Taken off jettisonable loads under the interagency method by agreement only, kg.</summary>
    private double ReductionKg => policy is { Method.Value: PayloadMethod.Interagency, ReduceJettisonable.Value: true } ? aircraft.WeightReduction?.Kilograms ?? 0 : 0;

    private Figure OperatingMass()
    {
        List<FigureInput> inputs = [new("equipped mass", Amount.Kilograms(aircraft.EquippedMass!.Value.Kilograms), InputFrom.JobFile, "aircraft.equippedMass")];
        double sum = aircraft.EquippedMass.Value.Kilograms;
        for (int i = 0; i < request.Crew.Count; i++)
        {
            if (!request.Crew[i].FliesAlong())
                continue;
            double kg = request.Crew[i].Mass!.Value.Kilograms;
            sum += kg;
            inputs.Add(new(request.Crew[i].Name, Amount.Kilograms(kg), InputFrom.JobFile, $"crew[{i}].mass"));
        }
        return figures.Add(new("operating", "operating mass without fuel and load", Amount.Kilograms(sum), "equipped mass and everybody aboard", inputs, "14CFR-133.43", aircraft.EquippedMassSource ?? ""));
    }

    private static IEnumerable<FigureInput> ChartInputs(ChartReading chart, string path) =>
        chart.Corners.Select(c => new FigureInput(string.Create(CultureInfo.InvariantCulture, $"printed at {c.PressureAltitude.Feet:0} ft, {c.TemperatureC:0.#} °C (share {c.Weight:0.00})"),
            Amount.Kilograms(c.Value), InputFrom.JobFile, path));

    private static string Typed(HoverChart chart) =>
        $"typed in by {chart.EnteredBy ?? "nobody named"}, compared by {chart.CheckedBy ?? "nobody named"}; not checked by this program";

    private static Amount Altitude(double m) => new(Length.FromFeet(Length.FromMeters(m).Feet), 10);

    private static double RoundDown(double kg) => Math.Floor(kg + 1e-9);

    // Vapour pressure over water is known down to here; density altitude is for information and is then that of dry air.
    private const double LowestDewPointC = -45;
}
