using UnitsNet;

namespace Stillhook.Planning;

/// <summary>A value that a rule takes, and whether somebody set it.</summary>
/// <param name="Value">The value.</param>
/// <param name="From">Job file or default.</param>
/// <param name="Where">Path in the request where it stands or would stand.</param>
public readonly record struct Chosen<T>(T Value, InputFrom From, string Where);

/// <summary>The operator's rules with every gap filled by a stated default: conservative ones, each to be set by the operator.</summary>
public sealed class PolicyInForce
{
    /// <summary>The rules of a request.</summary>
    public PolicyInForce(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        OperatorPolicy p = request.Policy ?? new();
        DayPlan d = request.Day ?? new();
        Method = Choose(p.Method, PayloadMethod.Direct, "policy.method");
        ReduceJettisonable = Choose(p.ReduceJettisonable, false, "policy.reduceJettisonable");
        ConstructionPercent = Choose(p.ConstructionMargin?.Percent, 10, "policy.constructionMargin");
        MassMarginKg = Choose(p.MassMargin?.Kilograms, 0, "policy.massMargin");
        PowerMarginPercent = Choose(p.PowerMargin?.Percent, 0, "policy.powerMargin");
        LabelPercent = Choose(p.LabelMargin?.Percent, 5, "policy.labelMargin");
        EstimatePercent = Choose(p.EstimateMargin?.Percent, 10, "policy.estimateMargin");
        ReserveMinutes = Choose(p.Reserve?.Minutes, 20, "policy.reserve");
        ContingencyPercent = Choose(p.Contingency?.Percent, 10, "policy.contingency");
        BreakAfterMinutes = Choose(p.BreakAfter?.Minutes, 180, "policy.breakAfter");
        BreakMinutes = Choose(p.Break?.Minutes, 30, "policy.break");
        FlyingPerDayMinutes = Choose(p.FlyingPerDay?.Minutes, 480, "policy.flyingPerDay");
        DutyDayMinutes = Choose(p.DutyDay?.Minutes, 840, "policy.dutyDay");
        RestMinutes = Choose(p.Rest?.Minutes, 600, "policy.rest");
        RestSource = p.Rest is null ? "PNW-2007" : p.RestSource ?? "operator's rule, entered without a source";
        ReplanTemperatureC = Choose(p.ReplanTemperature?.DegreesCelsius, 5, "policy.replanTemperature");
        ReplanAltitudeM = Choose(p.ReplanAltitude?.Meters, Length.FromFeet(1000).Meters, "policy.replanAltitude");
        ReplanQnhPa = Choose(p.ReplanQnh?.Pascals, 300, "policy.replanQnh");
        ReplanWindKt = Choose(p.ReplanWind?.Knots, 5, "policy.replanWind");
        GroupBySite = Choose(p.GroupBySite, false, "policy.groupBySite");
        RefuelStopMinutes = Choose(d.RefuelStop?.Minutes, 10, "day.refuelStop");
        RefuelKgPerMinute = Choose(d.RefuelRate?.KilogramsPerHour / 60, 30, "day.refuelRate");
    }

    /// <summary>How the payload is worked out.</summary>
    public Chosen<PayloadMethod> Method { get; }

    /// <summary>Whether the interagency reduction is taken on jettisonable loads too.</summary>
    public Chosen<bool> ReduceJettisonable { get; }

    /// <summary>Share of sling capacity kept back for construction work, %: 10 [SPO-HESLO].</summary>
    public Chosen<double> ConstructionPercent { get; }

    /// <summary>Mass kept back on every lift, kg.</summary>
    public Chosen<double> MassMarginKg { get; }

    /// <summary>Power kept in hand in the hover, percent torque.</summary>
    public Chosen<double> PowerMarginPercent { get; }

    /// <summary>Added to a mass known from a label, %: 5, common practice, no source.</summary>
    public Chosen<double> LabelPercent { get; }

    /// <summary>Added to an estimated mass, %: 10, common practice, no source.</summary>
    public Chosen<double> EstimatePercent { get; }

    /// <summary>Final reserve, min: 20 [SPO-OP-131, 14CFR-91.151].</summary>
    public Chosen<double> ReserveMinutes { get; }

    /// <summary>Contingency, % of the fuel of the flight: 10 [LUFTBODV3-34].</summary>
    public Chosen<double> ContingencyPercent { get; }

    /// <summary>Flying time until a break is due, min: 180 [BARS].</summary>
    public Chosen<double> BreakAfterMinutes { get; }

    /// <summary>Length of the break, min: 30 [BARS].</summary>
    public Chosen<double> BreakMinutes { get; }

    /// <summary>Most flying by one pilot in a day, min: 480 [PNW-2007].</summary>
    public Chosen<double> FlyingPerDayMinutes { get; }

    /// <summary>Longest duty day, min: 840 [PNW-2007].</summary>
    public Chosen<double> DutyDayMinutes { get; }

    /// <summary>Shortest rest between two duties, min: 600 [PNW-2007].</summary>
    public Chosen<double> RestMinutes { get; }

    /// <summary>Where the rule of rest stands: as entered with it, else the default's source.</summary>
    public string RestSource { get; }

    /// <summary>Change of temperature that asks for a new plan, °C: 5 [NWCG-PMS-510], from memory.</summary>
    public Chosen<double> ReplanTemperatureC { get; }

    /// <summary>Change of pressure altitude that asks for a new plan, m: 1,000 ft [NWCG-PMS-510], from memory.</summary>
    public Chosen<double> ReplanAltitudeM { get; }

    /// <summary>Change of the altimeter setting from which a check is offered, Pa: 300, about 80 ft of altimeter; common practice, no source.</summary>
    public Chosen<double> ReplanQnhPa { get; }

    /// <summary>Change of the wind as a vector from which a check is offered, kt: 5, common practice, no source.</summary>
    public Chosen<double> ReplanWindKt { get; }

    /// <summary>All loads of one delivery site before the next.</summary>
    public Chosen<bool> GroupBySite { get; }

    /// <summary>Fixed time of a refuelling stop, min: 10, common practice, no source.</summary>
    public Chosen<double> RefuelStopMinutes { get; }

    /// <summary>Fuel pumped, kg/min: 30, common practice, no source.</summary>
    public Chosen<double> RefuelKgPerMinute { get; }

    private static Chosen<T> Choose<T>(T? given, T otherwise, string where)
        where T : struct => given is { } value ? new(value, InputFrom.JobFile, where) : new(otherwise, InputFrom.Default, where);
}
