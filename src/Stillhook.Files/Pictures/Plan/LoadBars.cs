using System.Globalization;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Planning.Payload;

namespace Stillhook.Files.Pictures.Plan;

/// <summary>Each load as a bar: the mass to plan for against the most it may weigh at both sites. Shape and word carry the meaning, colour only repeats it.</summary>
public static class LoadBars
{
    private const double Width = 360, Height = 46, Left = 4, BarY = 16, BarHeight = 16, Label = 150, RowHeight = 54;

    /// <summary>The end of the scale that fits all loads of a plan, kg: bars of one plan can be compared.</summary>
    public static double ScaleKg(LiftPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return 1.06 * plan.Loads.SelectMany(l => new[] { l.OnHook.NeedKg, Most(l) ?? 0 }).DefaultIfEmpty(1).Max();
    }

    /// <summary>One load's bar.</summary>
    /// <param name="load">The load.</param>
    /// <param name="scaleKg">End of the scale, kg.</param>
    /// <param name="units">Units of the words.</param>
    public static string Draw(LoadPlan load, double scaleKg, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(units);
        SvgWriter svg = new(Width, Height, "plan-picture load-bar", Title(load, units));
        Row(svg, load, scaleKg, units, Left, 0, Width - 2 * Left);
        return svg.Close();
    }

    /// <summary>All loads of a plan under each other.</summary>
    public static string DrawAll(LiftPlan plan, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(units);
        double scale = ScaleKg(plan);
        SvgWriter svg = new(Label + 640, plan.Loads.Count * RowHeight + 46, "plan-picture load-bars", $"Mass to plan for of each load against the most it may weigh, {units.MassUnit}");
        svg.Text(8, 18, $"Each load: bar = mass to plan for, lighter part = what it may be off; P most at the pick-up, D most at the delivery; flag = what limits ({units.MassUnit})", "axis");
        for (int i = 0; i < plan.Loads.Count; i++)
        {
            LoadPlan load = plan.Loads[i];
            double y = 34 + i * RowHeight;
            svg.Text(8, y + BarY + 13, $"{load.OnHook.Load.Number}  {Short(load.OnHook.Load.Name, 16)}", "word");
            Row(svg, load, scale, units, Label, y, 360);
            svg.Text(Label + 372, y + BarY + 13, Verdict(load, units), load.Verdict == LoadVerdict.Lifts ? "word" : "word warn");
        }
        return svg.Close();
    }

    /// <summary>The numbers behind the bars.</summary>
    public static string Csv(LiftPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        List<IReadOnlyList<string>> rows = [["load", "name", "verdict", "massKg", "planForKg", "fuelAtHookOnKg", "limit", "site", "permitsKg", "limits"]];
        foreach (LoadPlan load in plan.Loads)
            foreach (LoadLimit limit in LoadLimits.Of(plan, load))
                rows.Add([CsvTable.Typed(load.OnHook.Load.Number), CsvTable.Typed(load.OnHook.Load.Name), load.Verdict.ToString(), Number(load.OnHook.Load.Mass.Kilograms), Number(load.OnHook.NeedKg),
                    Number(load.Payload!.PickUp.FuelKg), CsvTable.Typed(limit.Name), CsvTable.Typed(limit.Site?.Name ?? "every site"), Number(limit.Kg), limit.IsLeast ? "yes" : "no"]);
        return PlanFiles.Text(rows);
    }

    /// <summary>The answer for a load in a few words.</summary>
    public static string Verdict(LoadPlan load, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(units);
        return load.Verdict switch
        {
            LoadVerdict.Lifts => "lifts, " + load.Why,
            LoadVerdict.NotJudged => "NOT JUDGED",
            _ => "DOES NOT LIFT",
        };
    }

    private static void Row(SvgWriter svg, LoadPlan load, double scaleKg, DisplayUnits units, double left, double top, double width)
    {
        double X(double kg) => left + Math.Clamp(kg / Math.Max(scaleKg, 1), 0, 1) * width;
        double y = top + BarY, massEnd = X(load.OnHook.Load.Mass.Kilograms), needEnd = X(load.OnHook.NeedKg);
        svg.Line(left, y + BarHeight + 2, left + width, y + BarHeight + 2, "rule");
        svg.Rectangle(left, y, Math.Max(0, massEnd - left), BarHeight, "mass");
        if (needEnd > massEnd + 0.5)
            svg.Rectangle(massEnd, y, needEnd - massEnd, BarHeight, "off");
        if (load.Payload is not { } payload || load.Verdict == LoadVerdict.NotJudged || !payload.PickUp.At.IsJudged || !payload.Delivery.At.IsJudged)
        {
            svg.Text(left + width, y - 4, "no limit known: outside the chart", "small", "end");
            return;
        }
        double most = X(payload.Governing.AllowedKg);
        if (needEnd > most + 0.5)
        {
            svg.Rectangle(most, y, needEnd - most, BarHeight, "over");
            for (double x = most + 3; x < needEnd + BarHeight; x += 6)
            {
                // Strokes at 45°, cut to the bar.
                double from = Math.Min(x, needEnd), down = x - from, to = Math.Max(x - BarHeight, most), up = to - (x - BarHeight);
                if (from > to)
                    svg.Line(from, y + down, to, y + BarHeight - up, "hatch");
            }
        }
        Mark(svg, X(payload.PickUp.AllowedKg), y, "P", payload.Governing == payload.PickUp, X(payload.PickUp.AllowedKg) < X(payload.Delivery.AllowedKg));
        Mark(svg, X(payload.Delivery.AllowedKg), y, "D", payload.Governing == payload.Delivery, X(payload.Delivery.AllowedKg) <= X(payload.PickUp.AllowedKg));
    }

    /// <summary>A limit: a stroke with its letter; the one that governs is heavy and carries a flag.</summary>
    private static void Mark(SvgWriter svg, double x, double y, string letter, bool governs, bool isLess)
    {
        svg.Line(x, y - 6, x, y + BarHeight + 6, governs ? "limit governs" : "limit");
        if (governs)
            svg.Path([(x, y - 7), (x - 9, y - 11), (x, y - 15)], "flag", closed: true);
        svg.Text(isLess ? x - (governs ? 11 : 3) : x + 3, y - 5, letter, "small", isLess ? "end" : "start");
    }

    private static string Title(LoadPlan load, DisplayUnits units)
    {
        string need = $"Load {load.OnHook.Load.Number}: {units.Mass(load.OnHook.NeedKg)} to plan for";
        return load.Payload is { } p && load.Verdict != LoadVerdict.NotJudged
            ? $"{need}; most {units.MassDown(p.PickUp.AllowedKg)} {units.MassUnit} at {p.PickUp.At.Site.Name}, {units.MassDown(p.Delivery.AllowedKg)} {units.MassUnit} at {p.Delivery.At.Site.Name}; {Verdict(load, units)}"
            : $"{need}; {Verdict(load, units)}";
    }

    private static double? Most(LoadPlan load) => load.Payload is { } p ? Math.Max(p.PickUp.AllowedKg, p.Delivery.AllowedKg) : null;

    internal static string Short(string? text, int most) => text is null ? "" : text.Length <= most ? text : text[..(most - 1)] + "…";

    internal static string Number(double value) => Math.Round(value, 1).ToString("0.#", CultureInfo.InvariantCulture);
}
