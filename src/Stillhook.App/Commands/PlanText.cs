using System.Text.RegularExpressions;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Quoting;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary>The lift plan as a person reads it in a terminal: the answer, the loads, order and fuel, rigging, wires, papers, quote, what was assumed.</summary>
internal sealed partial class PlanText(TextWriter output, LiftPlan plan, DisplayUnits units)
{
    private const string None = "-";

    // A proving lift with less than this over its mass is pointed at. Common practice, no source.
    private const double ThinSpareShare = 0.05;

    public void Write()
    {
        output.WriteLine(Cautions.Plan);
        output.WriteLine();
        WriteAnswer();
        WriteAir();
        WriteLoads();
        WriteOrder();
        WriteForm();
        WriteRigging();
        WriteWires();
        WritePapers();
        WriteQuote();
        WriteDefaults();
        output.WriteLine(Cautions.Charts);
        output.WriteLine("The working of any figure: stillhook why JOB payload." + FigureKeyOfFirst());
    }

    private string FigureKeyOfFirst() => plan.Loads[0].OnHook.Load.Number;

    private void WriteAnswer()
    {
        output.WriteLine(plan.Request.Job);
        int lift = plan.Loads.Count(l => l.Verdict == LoadVerdict.Lifts);
        output.WriteLine(plan.AllLift
            ? Invariant($"All {lift} loads lift.")
            : Invariant($"{lift} of {plan.Loads.Count} loads lift. Not lifted: {string.Join(", ", plan.Loads.Where(l => l.Verdict != LoadVerdict.Lifts).Select(l => l.OnHook.Load.Number))}."));
        foreach (IGrouping<string, LoadPlan> same in plan.Loads.Where(l => l.Verdict != LoadVerdict.Lifts).GroupBy(l => l.Why))
        {
            output.WriteLine($"  {(same.Count() == 1 ? "Load" : "Loads")} {string.Join(", ", same.Select(l => l.OnHook.Load.Number))}: {units.Sentence(same.Key)}");
            foreach (string remedy in same.SelectMany(l => l.Remedies).Distinct())
                output.WriteLine($"    would fit: {units.Sentence(remedy)}");
        }
        int fails = plan.ToLookAt.Count(i => i.Verdict == CheckVerdict.Fails), toConfirm = plan.ToLookAt.Count - fails;
        if (plan.ToLookAt.Count > 0)
            output.WriteLine(Invariant($"Before the first lift: {(fails > 0 ? Invariant($"{fails} FAIL, ") : "")}{toConfirm} to confirm, under air, rigging, wires and papers below."));
        output.WriteLine();
    }

    private void WriteAir()
    {
        if (plan.Air.Count > 0)
        {
            output.WriteLine("Air, of the aircraft with the load at the ground; hottest of the hour and until a load hooked on at its end is down");
            TextTable table = new TextTable("Site", "Hour", "Temperature", "Pressure altitude", "Density altitude", "Hover mass", "Most gross mass").Words(0, 1);
            foreach (SiteHour a in plan.Air)
                table.Add(a.Site.Name, ClockText.Hour(a.Hour), Invariant($"{a.TemperatureC:0.0} °C"), units.Height(a.PressureAltitudeM), units.Height(a.DensityAltitudeM), units.Mass(a.HoverMassKg), units.Mass(a.GrossKg));
            table.Write(output, "  ");
        }
        foreach (CheckItem item in plan.Conditions)
            output.WriteLine($"  {Word(item.Verdict)}: {item.Subject}: {item.Text}");
        if (plan.Air.Count > 0 || plan.Conditions.Count > 0)
            output.WriteLine();
    }

    private void WriteLoads()
    {
        output.WriteLine($"Loads, {units.MassUnit}. Most at each site with the fuel and in the hour of its lift; the worse site governs.");
        TextTable table = new TextTable("Load", "What", "Mass", "Known by", "Plan for", "Pick-up max", "Delivery max", "Margin", "Limited by", "Lifts up to", "Passed", "Hover power").Words(1, 3, 8);
        foreach (LoadPlan l in plan.Loads)
        {
            SitePayload? p = l.Payload?.Governing;
            bool judged = p is not null && l.Verdict != LoadVerdict.NotJudged;
            table.Add(l.OnHook.Load.Number, Short(l.OnHook.Load.Name ?? ""), units.MassNumber(l.OnHook.Load.Mass.Kilograms), l.OnHook.Load.HowKnown.ToString().ToLowerInvariant(), units.MassNumber(l.OnHook.NeedKg),
                judged ? units.MassDown(l.Payload!.PickUp.AllowedKg) : None, judged ? units.MassDown(l.Payload!.Delivery.AllowedKg) : None, l.SpareKg is { } spare ? units.MassDown(spare) : "NO LIFT",
                judged ? $"{PayloadCalculator.Words(p!.LimitedBy, l.OnHook)}, {p.At.Site.Name}" : None, Hot(l.Hot), l.Hot?.Minute is { } m ? ClockText.Limit(m) : l.Hot is { HasForecast: false } ? "no forecast" : None, Power(l));
        }
        table.Write(output, "  ");
        output.WriteLine("  Lifts up to: temperature at the limiting site above which it no longer lifts, and when the forecast passes it; 'chart end' where the page ends first.");
        output.WriteLine($"  Hover power: percent torque over pick-up / delivery by the flight manual's page, or by the model (m){(plan.ModelErrorPercent is { } e ? Invariant($", which is off by up to {e:0.0} % of mass where it was not shown the chart") : "")}.");
        if (plan.MeasuredHover is { } measured)
            output.WriteLine("  " + measured.Facts);
        if (plan.LastDay is { Shift: not null } last)
            output.WriteLine("  " + last.FactsOf("on the last day flown was"));
        if (plan.Loads.Any(l => l.OnHook.Load.HowKnown != MassKnownBy.Weighed))
            output.WriteLine("  " + Cautions.Weights);
        output.WriteLine();
    }

    private static string Hot(HotOfDay? hot) => hot is null || double.IsNaN(hot.TemperatureC) ? None : hot.ToEndOfChart ? "chart end" : Invariant($"{hot.TemperatureC:0.0} °C");

    private static string Power(LoadPlan l) => l.Hover.Count == 0 ? None : string.Join(" / ", l.Hover.Select(h =>
        h.ChartTorquePercent is { } chart ? Invariant($"{chart:0} %") : h.ModelTorquePercent is { } model ? Invariant($"{model:0} % m") : None));

    private void WriteOrder()
    {
        if (plan.Order is not { } order || !order.Lifts.Any())
            return;
        OrderTimeline t = order.Timeline;
        output.WriteLine(Invariant($"Order and fuel: start {ClockText.Of(t.Steps[0].FromMinute)} with {units.Mass(t.Steps[0].FuelFromKg)}{(plan.Request.Day?.StartFuel is null ? " (chosen by the plan)" : "")}, back at {plan.OrderSites[plan.OrderBase]} {ClockText.Of(t.FinishMinute)} with {units.Mass(t.FinishFuelKg)}; reserve {units.Mass(Kilograms("reserve"))}, {Times(t.Refuels)} refuelled, {t.FlyingMinutes:0} min flying, {units.Mass(t.BurntKg)} burnt."));
        output.WriteLine("  " + Proof(order));
        TextTable table = new TextTable("", "Hook-on", "Released", "Load", "What", "Fuel at hook-on", "Margin", "Why here").Words(4, 7);
        foreach (OrderStep step in t.Steps)
            switch (step)
            {
                case LiftStep l:
                    LoadPlan load = plan.Loads.First(x => x.OnHook.Load.Number == l.Number);
                    table.Add(Invariant($"{l.Position}"), ClockText.Of(l.HookOnMinute), ClockText.Of(l.ReleaseMinute), l.Number, Short(load.OnHook.Load.Name ?? ""), units.Mass(l.FuelFromKg), load.SpareKg is { } spare ? $"{units.MassDown(spare)} {units.MassUnit}" : None, units.Sentence(l.Reason));
                    break;
                case RefuelStep r:
                    table.Add("", ClockText.Of(r.FromMinute), ClockText.Of(r.ToMinute), "", "REFUEL", $"{units.Mass(r.FuelFromKg)} to {units.Mass(r.FuelToKg)}", "", "");
                    break;
                case BreakStep b:
                    table.Add("", ClockText.Of(b.FromMinute), ClockText.Of(b.ToMinute), "", "BREAK", "", "", "hot refuelling is no break");
                    break;
            }
        table.Write(output, "  ");
        if (order.Lifts.Any(l => l.ProvingLift))
            output.WriteLine("  Proving lifts: " + Cautions.ProvingLift);
        foreach (LoadPlan load in plan.Loads.Where(l => l.Lift is { ProvingLift: true } && l.SpareKg < ThinSpareShare * l.OnHook.NeedKg))
            output.WriteLine($"  Load {load.OnHook.Load.Number} is a proving lift with next to no margin: prove the kind with less fuel or a lighter load first.");
        foreach (string note in order.Notes)
            output.WriteLine("  " + units.Sentence(note));
        output.WriteLine();
    }

    private static string Proof(OrderPlan order) => order.Verdict switch
    {
        OrderVerdict.Proven => "No order of these loads ends sooner: proven.",
        OrderVerdict.Given => Invariant($"The order set in the job file; no better one was looked for. The best there is could end at most {100 * order.Gap:0.0} % sooner."),
        OrderVerdict.CutOff => Invariant($"Cut off by the clock: may differ next time. The best order could end at most {100 * order.Gap:0.0} % sooner."),
        OrderVerdict.BestFound => Invariant($"Best order found; the best there is could end at most {100 * order.Gap:0.0} % sooner."),
        _ => Invariant($"Found by the quick search; the best there is could end at most {100 * order.Gap:0.0} % sooner."),
    };

    private void WriteForm()
    {
        if (plan.Form is not { } form)
            return;
        output.WriteLine($"Interagency load calculation at the more demanding site, {units.MassUnit}. Long-line work uses the jettisonable column (HOGE-J).");
        TextTable table = new TextTable(["", .. form.Columns.Select(c => c.Name)]).Words(0);
        Row("computed gross mass", c => c.ComputedKg);
        Row("weight reduction", c => c.ReductionKg);
        Row("adjusted", c => c.AdjustedKg);
        Row("gross limit", c => c.LimitKg);
        Row("selected", c => c.SelectedKg);
        Row("operating mass with fuel", c => c.OperatingKg);
        Row("allowable, attaching means included", c => c.AllowableKg);
        table.Write(output, "  ");
        output.WriteLine();

        void Row(string name, Func<InteragencyColumn, double> of) => table.Add([name, .. form.Columns.Select(c => units.MassNumber(of(c)))]);
    }

    private void WriteRigging()
    {
        output.WriteLine($"Rigging, {units.MassUnit}. Static loads; of the loads on the same parts the heaviest, and every load that fails.");
        foreach (IGrouping<string, LoadPlan> same in plan.Loads.GroupBy(SameParts))
        {
            LoadPlan heaviest = same.MaxBy(l => l.OnHook.NeedKg)!;
            foreach (LoadPlan load in same.Where(l => l == heaviest || l.Rigging.Verdict == CheckVerdict.Fails))
                WriteChain(load, same);
        }
        output.WriteLine();
    }

    private static string SameParts(LoadPlan l) => string.Join('|', [.. l.Rigging.Parts.Select(p => p.Name), $"{l.OnHook.Load.Attachment?.Legs}", $"{l.OnHook.Load.Attachment?.LegAngle}", $"{l.OnHook.Load.Shape}", $"{l.OnHook.Load.Spins}"]);

    private void WriteChain(LoadPlan load, IEnumerable<LoadPlan> same)
    {
        string others = string.Join(", ", same.Where(l => l != load).Select(l => l.OnHook.Load.Number));
        output.WriteLine($"  Load {load.OnHook.Load.Number}, {load.OnHook.Load.Name}: weakest part {load.Rigging.Weakest?.Name ?? "not known"}{(load.Rigging.MaxLoadKg is { } max ? $", carries {units.MassDown(max)} {units.MassUnit} of load" : "")}{(others.Length > 0 ? $" (same parts: {others})" : "")}");
        TextTable table = new TextTable("Part", "Carries", "May carry", "Use", "").Words(0, 4);
        foreach (RiggedPart part in load.Rigging.Parts)
            table.Add(part.Name, units.MassNumber(Kilograms(part.StaticLoad)), part.Limit is { } limit ? units.MassNumber(Kilograms(limit)) : "no mark", part.Use is { } use ? AmountText.Of(use.Value, units) : None,
                part.Verdict == CheckVerdict.Passes ? "" : $"{Word(part.Verdict)}: {part.Reason}");
        table.Write(output, "    ");
        foreach (CheckItem item in load.Rigging.Items.Where(i => i.Verdict != CheckVerdict.Passes))
            output.WriteLine($"    {Word(item.Verdict)}: {item.Text}");
    }

    private void WriteWires()
    {
        if (plan.Wires.Count == 0)
            return;
        output.WriteLine("Wires");
        foreach (WireCheck wire in plan.Wires)
            output.WriteLine(Invariant($"  {wire.Site}, {wire.Wire}: keep {AmountText.Of(wire.Needed.Value, units)}; planned {(wire.ClosestPlanned is { } c ? AmountText.Of(new(UnitsNet.Length.FromMeters(c.Meters), 0.1), units) : "not entered")}. {Word(wire.Item.Verdict)}: {wire.Item.Text}"));
        output.WriteLine();
    }

    private void WritePapers()
    {
        if (plan.Papers is not { } papers)
            return;
        output.WriteLine($"Papers, red first. {Stillhook.Planning.Papers.PapersReport.Caution}");
        foreach (CheckItem item in papers.Items.Where(i => i.Verdict != CheckVerdict.Passes))
            output.WriteLine($"  {Word(item.Verdict)}: {item.Subject}: {item.Text}");
        output.WriteLine(Invariant($"  {papers.Items.Count(i => i.Verdict == CheckVerdict.Passes)} in order as entered."));
        output.WriteLine();
    }

    private void WriteQuote()
    {
        if (plan.Quote is not { FlightTime: { } hours } quote)
            return;
        output.WriteLine($"Quote, low / likely / high. {Cautions.Quote}");
        Line("flight time", hours);
        Line("time with stops", quote.OnSite);
        Line("fuel", quote.Fuel);
        Line($"cost{(plan.Request.Quote?.Currency is { } currency ? ", " + currency : "")}", quote.Cost);
        foreach (CheckItem item in quote.Items)
            output.WriteLine($"  {item.Text}");
        output.WriteLine();

        void Line(string name, QuoteRange? range)
        {
            if (range is not null)
                output.WriteLine($"  {name}: {AmountText.Of(range.Low.Value, units)} / {AmountText.Of(range.Likely.Value, units)} / {AmountText.Of(range.High.Value, units)}");
        }
    }

    private void WriteDefaults()
    {
        if (plan.Defaults.Count == 0)
            return;
        output.WriteLine("Nobody set these; set yours in the job file:");
        foreach (IGrouping<(string Where, string Name, string Value), FigureInput> same in plan.Defaults.GroupBy(i => (EachOf().Replace(i.Where, "[each]"), i.Name, AmountText.Of(i.Value, units))))
            output.WriteLine($"  {(same.Count() == 1 ? same.First().Where : same.Key.Where)}: {same.Key.Name}, {same.Key.Value}");
        output.WriteLine();
    }

    private double Kilograms(string key) => Kilograms(plan.Figures.Find(key)!);

    private static double Kilograms(Figure figure) => ((Mass)figure.Value.Quantity).Kilograms;

    private static string Word(CheckVerdict verdict) => verdict switch { CheckVerdict.Fails => "FAILS", CheckVerdict.ToConfirm => "TO CONFIRM", _ => "in order" };

    private static string Times(int count) => count switch { 0 => "never", 1 => "once", 2 => "twice", _ => Invariant($"{count} times") };

    [GeneratedRegex(@"\[\d+\]", RegexOptions.CultureInvariant)]
    private static partial Regex EachOf();

    private static string Short(string name) => name.Length <= 24 ? name : name[..23] + "…";

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
