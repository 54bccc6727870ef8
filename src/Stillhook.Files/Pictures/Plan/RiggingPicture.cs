using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.Files.Pictures.Plan;

/// <summary>The chain from the aircraft's hook to the load, part by part: what each carries against what it may carry, the weakest marked in word and shape.</summary>
public static class RiggingPicture
{
    private const double Width = 560, Axis = 70, Top = 20, Row = 60, BarLeft = 124, BarWidth = 300, LegsHeight = 116;

    /// <summary>Draws the chain under one load.</summary>
    public static string Draw(LoadPlan load, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(units);
        RiggingReport rigging = load.Rigging;
        double legsTop = Top + rigging.Parts.Count * Row, height = legsTop + LegsHeight + 24;
        SvgWriter svg = new(Width, height, "plan-picture chain", Title(load, units));
        svg.Line(Axis, 4, Axis, legsTop, "chain-line");
        for (int i = 0; i < rigging.Parts.Count; i++)
            Part(svg, rigging.Parts[i], rigging.Parts[i] == rigging.Weakest, Top + i * Row, units);
        if (rigging.Parts.Count == 0)
            svg.Text(BarLeft, Top + 8, "No part is entered: nothing can be said of the rigging.", "word warn");
        Load(svg, load, legsTop, units);
        return svg.Close();
    }

    /// <summary>The numbers behind the picture.</summary>
    public static string Csv(LoadPlan load)
    {
        ArgumentNullException.ThrowIfNull(load);
        List<IReadOnlyList<string>> rows = [["part", "kind", "carriesKg", "mayCarryKg", "usePercent", "weakest", "verdict", "reason"]];
        foreach (RiggedPart p in load.Rigging.Parts)
            rows.Add([CsvTable.Typed(p.Name), p.Kind.ToString(), LoadBars.Number(Kilograms(p.StaticLoad)), p.Limit is { } limit ? LoadBars.Number(Kilograms(limit)) : "", p.Use is { } use ? LoadBars.Number(((Ratio)use.Value.Quantity).Percent) : "",
                p == load.Rigging.Weakest ? "yes" : "no", p.Verdict.ToString(), CsvTable.Typed(p.Reason)]);
        return PlanFiles.Text(rows);
    }

    private static void Part(SvgWriter svg, RiggedPart part, bool weakest, double y, DisplayUnits units)
    {
        bool fails = part.Verdict == CheckVerdict.Fails;
        Sign(svg, part.Kind, y + 14, weakest);
        string words = part.Limit is { } limit ? $"carries {units.MassNumber(Kilograms(part.StaticLoad))} of {units.MassDown(Kilograms(limit))} {units.MassUnit}" : $"carries {units.Mass(Kilograms(part.StaticLoad))}, no mark: may not be used";
        svg.Text(BarLeft, y + 8, $"{LoadBars.Short(part.Name, 34)}", weakest ? "word strong" : "word");
        svg.Text(BarLeft + BarWidth + 8, y + 26, part.Use is { } use ? AmountText.Of(use.Value, units) : "", "word");
        svg.Text(BarLeft, y + 43, fails && part.Limit is not null ? words + ": FAILS" : words, fails ? "small warn" : "small");
        svg.Rectangle(BarLeft, y + 14, BarWidth, 14, part.Limit is null ? "limit-box unknown" : "limit-box");
        if (part.Use is { } share)
        {
            double percent = ((Ratio)share.Value.Quantity).Percent;
            svg.Rectangle(BarLeft, y + 14, Math.Min(percent, 100) / 100 * BarWidth, 14, percent > 100 ? "over" : "mass");
        }
        else
        {
            svg.Line(BarLeft, y + 14, BarLeft + BarWidth, y + 28, "hatch");
            svg.Line(BarLeft, y + 28, BarLeft + BarWidth, y + 14, "hatch");
        }
        if (!weakest)
            return;
        svg.Rectangle(BarLeft - 8, y - 8, Width - BarLeft, Row - 4, "weakest");
        svg.Text(Width - 18, y + 8, "◀ weakest part", "small strong", "end");
    }

    /// <summary>A sign for each kind of part on the chain's own line.</summary>
    private static void Sign(SvgWriter svg, PartKind kind, double y, bool weakest)
    {
        string look = weakest ? "part heavy" : "part";
        switch (kind)
        {
            case PartKind.CargoHook or PartKind.RemoteHook:
                svg.Path([(Axis - 9, y - 10), (Axis + 9, y - 10), (Axis + 9, y + 2), (Axis + 3, y + 11), (Axis - 6, y + 9), (Axis - 9, y + 3)], look, closed: true);
                break;
            case PartKind.Ring:
                svg.Circle(Axis, y, 10, look);
                break;
            case PartKind.Shackle:
                svg.Path([(Axis - 9, y + 10), (Axis - 9, y - 3), (Axis - 5, y - 10), (Axis + 5, y - 10), (Axis + 9, y - 3), (Axis + 9, y + 10)], look, closed: true);
                break;
            case PartKind.Line:
                svg.Rectangle(Axis - 4, y - 16, 8, 32, look);
                break;
            case PartKind.Swivel:
                svg.Circle(Axis, y - 6, 6, look);
                svg.Circle(Axis, y + 7, 6, look);
                break;
            default:
                svg.Path([(Axis, y - 11), (Axis + 10, y + 9), (Axis - 10, y + 9)], look, closed: true);
                break;
        }
    }

    /// <summary>The load on its legs, at their angle to the horizontal, with the tension of the hardest-pulled one.</summary>
    private static void Load(SvgWriter svg, LoadPlan load, double top, DisplayUnits units)
    {
        Attachment? attachment = load.OnHook.Load.Attachment;
        int legs = attachment?.Legs ?? 1;
        double angle = legs > 1 ? attachment!.LegAngle?.Degrees ?? 30 : 90;
        double spread = legs > 1 ? Math.Min(50, 62 / Math.Tan(angle * Math.PI / 180)) : 0, down = legs > 1 ? Math.Min(62, spread * Math.Tan(angle * Math.PI / 180)) : 40;
        foreach (double side in legs == 1 ? new double[] { 0 } : legs == 2 ? [-1, 1] : legs == 3 ? [-1, 0, 1] : [-1, -0.4, 0.4, 1])
            svg.Line(Axis, top, Axis + side * spread, top + down, "leg");
        double half = Math.Max(26, spread + 6);
        svg.Rectangle(Axis - half, top + down, 2 * half, 26, "load-box");
        svg.Text(Axis, top + down + 18, LoadBars.Short(load.OnHook.Load.Number, 8), "block-number", "middle");
        double left = Math.Max(BarLeft, Axis + half + 12), words = Math.Max(top + down, top + 42);
        svg.Text(left, words + 12, $"{LoadBars.Short(load.OnHook.Load.Name, 30)}", "word");
        svg.Text(left, words + 30, $"{units.Mass(load.OnHook.NeedKg)} to plan for{(load.OnHook.Load.HowKnown == MassKnownBy.Weighed ? "" : $", {load.OnHook.Load.HowKnown.ToString().ToLowerInvariant()}: keep the spare")}", "small");
        if (legs > 1)
            svg.Text(left, top + 14, FormattableString.Invariant($"{legs} legs at {angle:0}° to the horizontal{(attachment!.LegAngle is null ? ", not entered" : "")}"), attachment.LegAngle is null ? "small warn" : "small");
        if (load.Rigging.Parts.LastOrDefault() is { } sling && sling.Path.EndsWith(".sling", StringComparison.Ordinal) && legs > 1)
            svg.Text(left, top + 31, $"hardest-pulled leg {units.Mass(Kilograms(sling.StaticLoad))}", "small");
    }

    private static string Title(LoadPlan load, DisplayUnits units)
    {
        RiggingReport r = load.Rigging;
        string weakest = r.Weakest is { } part ? $"weakest part {part.Name}{(r.MaxLoadKg is { } max ? $", permits {units.MassDown(max)} {units.MassUnit} of load" : "")}" : "no part has a mark";
        return $"Rigging from hook to load {load.OnHook.Load.Number}, {r.Parts.Count.ToString(System.Globalization.CultureInfo.InvariantCulture)} parts; {weakest}";
    }

    private static double Kilograms(Figure figure) => ((Mass)figure.Value.Quantity).Kilograms;
}
