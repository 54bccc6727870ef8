using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Quoting;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.Files.Reports;

/// <summary>Makes the document of a lift plan.</summary>
public static class LiftPlanDocuments
{
    /// <summary>Version of the document's shape.</summary>
    public const int Version = 1;

    /// <summary>Writes the plan as JSON.</summary>
    /// <param name="stream">Where to.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="lineOf">Line of the job file for a path in the request, or null.</param>
    public static void Write(Stream stream, LiftPlan plan, Func<string, long?> lineOf) => PlanJson.Write(stream, Of(plan, lineOf));

    /// <summary>The published schema of the document (JSON Schema 2020-12), from the same types.</summary>
    public static string Schema() => PlanJson.Schema<LiftPlanDocument>();

    /// <summary>The document of a plan.</summary>
    public static LiftPlanDocument Of(LiftPlan plan, Func<string, long?> lineOf)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(lineOf);
        return new(
            "stillhook-plan", Version, plan.Request.Job, plan.Request.Date, plan.Request.TimeZone, [Cautions.Plan, Cautions.Charts, Cautions.Weights],
            [.. plan.Findings.Select(f => new FindingDocument(PlanJson.Camel(f.Severity), f.Code, f.Path, f.What, f.Mend))],
            plan.AllLift, [.. plan.Loads.Select(Load)], plan.Order is { } order ? Order(order, plan) : null,
            [.. plan.Conditions.Select(Check)], [.. plan.Air.Select(Air)],
            [.. plan.Wires.Select(w => new WireDocument(w.Site, w.Wire, Round(((Length)w.Needed.Value.Quantity).Meters, 2)!.Value, Round(w.ClosestPlanned?.Meters, 2), PlanJson.Camel(w.Item.Verdict), w.Item.Text))],
            [.. plan.Papers?.Items.Select(Check) ?? []], plan.Quote is { } quote ? Quote(quote, plan) : null,
            plan.Form is { } form ? [.. form.Columns.Select(c => new FormColumnDocument(c.Name, c.ComputedKg, c.ReductionKg, c.AdjustedKg, c.LimitKg, c.SelectedKg, c.OperatingKg, c.AllowableKg))] : null,
            Round(plan.ModelErrorPercent, 2), [.. plan.Defaults.Select(i => Input(i, lineOf))], [.. plan.Figures.All.Select(f => Figure(f, lineOf))]);
    }

    private static LoadDocument Load(LoadPlan l) => new(
        l.OnHook.Load.Number, l.OnHook.Load.Name, PlanJson.Camel(l.Verdict), l.Why, Round(l.OnHook.Load.Mass.Kilograms, 1)!.Value, PlanJson.Camel(l.OnHook.Load.HowKnown), Round(l.OnHook.NeedKg, 1)!.Value, Round(l.OnHook.KitKg, 1)!.Value,
        l.Payload is { } p && l.Verdict != LoadVerdict.NotJudged ? p.Governing.AllowedKg : null, Round(l.SpareKg, 1), Site(l.Payload?.PickUp), Site(l.Payload?.Delivery),
        l.Lift?.Position, l.Lift?.ProvingLift ?? false, Round(l.Hot?.TemperatureC, 1), l.Hot?.ToEndOfChart, l.Hot?.Minute is { } m ? ClockText.Limit(m) : null,
        [.. l.Hover.Select(h => new HoverDocument(h.Site.Name, Round(h.GrossKg, 0)!.Value, Round(h.ChartTorquePercent, 1), Round(h.ModelTorquePercent, 1), Round(h.ModelMarginPercent, 1), h.InsideChart))],
        [.. l.Rigging.Parts.Select(Part)], l.Rigging.Weakest?.Name, [.. l.Rigging.Everything.Select(Check)], l.Remedies);

    private static SitePayloadDocument? Site(SitePayload? p) => p is null ? null : new(
        p.At.Site.Name, ClockText.Of(p.At.Hour * 60), ClockText.Of(p.At.Hour * 60 + 60), Round(p.At.TemperatureC, 1)!.Value, Feet(p.At.PressureAltitudeM), Feet(p.At.DensityAltitudeM),
        Round(p.At.HoverMassKg, 0), Round(p.At.GrossKg, 0), Round(p.FuelKg, 1)!.Value, p.LimitedBy == LoadLimitedBy.NotJudged ? null : p.AllowedKg, PlanJson.Camel(p.LimitedBy));

    private static AirDocument Air(SiteHour a) => new(
        a.Site.Name, ClockText.Of(a.Hour * 60), Round(a.TemperatureC, 1)!.Value, Feet(a.PressureAltitudeM), Feet(a.DensityAltitudeM), Round(a.HoverMassKg, 0), Round(a.GrossKg, 0));

    private static PartDocument Part(RiggedPart p) => new(
        p.Name, PlanJson.Camel(p.Kind), Kilograms(p.StaticLoad), p.Limit is { } limit ? Kilograms(limit) : null, p.Use is { } use ? Round(((Ratio)use.Value.Quantity).Percent, 1) : null, PlanJson.Camel(p.Verdict), p.Reason);

    private static CheckDocument Check(CheckItem i) => new(PlanJson.Camel(i.Verdict), i.Code, i.Subject, i.Text, i.Source);

    private static OrderDocument Order(OrderPlan order, LiftPlan plan)
    {
        OrderTimeline t = order.Timeline;
        return new(PlanJson.Camel(order.Verdict), plan.OrderSites[plan.OrderBase], ClockText.Of(t.FinishMinute), ClockText.Of(order.BoundMinute), Round(100 * order.Gap, 2)!.Value, Round(t.Steps[0].FuelFromKg, 1)!.Value, Round(t.FinishFuelKg, 1)!.Value,
            Round(Kilograms(plan.Figures.Find("reserve")!), 1)!.Value, Round(t.BurntKg, 1)!.Value, Round(t.FlyingMinutes, 1)!.Value, t.Refuels, [.. t.Steps.Select(s => Step(s, plan.OrderSites))], order.Notes);
    }

    private static StepDocument Step(OrderStep step, IReadOnlyList<string> sites)
    {
        LiftStep? lift = step as LiftStep;
        EmptyMoveStep? move = step as EmptyMoveStep;
        string kind = step switch { StartStep => "start", EmptyMoveStep => "move", LiftStep => "lift", RefuelStep => "refuel", _ => "break" };
        return new(kind, ClockText.Of(step.FromMinute), ClockText.Of(step.ToMinute), Round(step.FuelFromKg, 1)!.Value, Round(step.FuelToKg, 1)!.Value,
            move is null ? null : sites[move.From], move is null ? null : sites[move.To], lift?.Number, lift?.Position, Round(lift?.NeedKg, 1), Round(lift?.SpareKg, 1), lift?.ProvingLift, lift?.Reason);
    }

    private static QuoteDocument? Quote(Quote quote, LiftPlan plan) => quote.FlightTime is not { } hours ? null : new(
        plan.Request.Quote?.Lifts ?? plan.Request.Loads.Count, plan.Order?.Timeline.Refuels ?? 0, Range(hours, q => ((Duration)q).Hours, 2)!, Range(quote.OnSite, q => ((Duration)q).Hours, 2),
        Range(quote.Fuel, q => ((Mass)q).Kilograms, 0), Range(quote.Cost, q => (double)q.Value, 0), plan.Request.Quote?.Currency, [.. quote.Items.Select(Check)], Cautions.Quote);

    private static RangeDocument? Range(QuoteRange? range, Func<IQuantity, double> of, int digits) => range is null ? null : new(
        Round(of(range.Low.Value.Quantity), digits)!.Value, Round(of(range.Likely.Value.Quantity), digits)!.Value, Round(of(range.High.Value.Quantity), digits)!.Value);

    /// <summary>The document of a figure.</summary>
    internal static FigureDocument Figure(Figure f, Func<string, long?> lineOf)
    {
        (double value, string unit) = AmountText.Machine(f.Value);
        return new(f.Key, f.Name, Round(value, 4)!.Value, unit, f.Formula, [.. f.Inputs.Select(i => Input(i, lineOf))], f.Source, f.Note);
    }

    /// <summary>The document of an input, with its line where it stands in the job file.</summary>
    internal static InputDocument Input(FigureInput i, Func<string, long?> lineOf)
    {
        (double value, string unit) = AmountText.Machine(i.Value);
        return new(i.Name, Round(value, 4)!.Value, unit, PlanJson.Camel(i.From), i.Where, i.From == InputFrom.JobFile ? lineOf(i.Where) : null);
    }

    private static double Kilograms(Figure figure) => ((Mass)figure.Value.Quantity).Kilograms;

    private static double Feet(double m) => Math.Round(Length.FromMeters(m).Feet);

    /// <summary>A value to some digits, never -0; null for one that is not finite.</summary>
    internal static double? Round(double? value, int digits) => value is { } v && double.IsFinite(v) ? Math.Round(v, digits) + 0.0 : null;
}
