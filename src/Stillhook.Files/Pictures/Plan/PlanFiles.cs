using System.Text;
using Stillhook.Files.Pictures.Approach;
using Stillhook.Files.Reports;
using Stillhook.Planning;

namespace Stillhook.Files.Pictures.Plan;

/// <summary>The pictures of a lift plan with their numbers, each as a file of its own.</summary>
public static class PlanFiles
{
    /// <summary>Looks of the plan pictures when opened alone. Every meaning is doubled by dash, hatch, shape or word.</summary>
    public const string Rules = """
        .plan-picture { background: #fff; font-family: system-ui, "Segoe UI", Roboto, "DejaVu Sans", sans-serif; }
        .plan-picture text { font-size: 14px; fill: #16191d; }
        .plan-picture .small, .plan-picture .axis { font-size: 13px; } .plan-picture .axis { fill: #4d545c; }
        .plan-picture .strong, .plan-picture .block-number { font-weight: 700; } .plan-picture .warn { fill: #8a3b00; font-weight: 700; }
        .plan-picture path, .plan-picture line, .plan-picture circle, .plan-picture rect { fill: none; stroke: #16191d; stroke-width: 1; }
        .plan-picture .rule { stroke: #d5d8d6; } .plan-picture .hour { stroke: #8b9296; }
        .plan-picture .mass { fill: #0b4f6c; stroke: none; } .plan-picture .off { fill: #bcd3dc; stroke: #0b4f6c; }
        .plan-picture .over { fill: #fbf1e6; stroke: #8a3b00; stroke-width: 1.5; } .plan-picture .hatch { stroke: #8a3b00; stroke-width: 1.5; }
        .plan-picture .limit { stroke-width: 1.5; } .plan-picture .limit.governs { stroke-width: 3; } .plan-picture .flag { fill: #16191d; }
        .plan-picture .steps { stroke-width: 2; } .plan-picture .need { stroke-width: 2; stroke-dasharray: 7 4; } .plan-picture .no-lift { fill: #fbf1e6; stroke: none; } .plan-picture .now { stroke-dasharray: 2 3; }
        .plan-picture .fuel { stroke: #0b4f6c; stroke-width: 2.5; } .plan-picture .reserve { stroke: #8a3b00; stroke-width: 2; stroke-dasharray: 10 3 2 3; }
        .plan-picture .block { fill: #eef3f4; } .plan-picture .proving { stroke-width: 3; } .plan-picture .broken { fill: #fbf1e6; stroke: #8a3b00; stroke-width: 3; }
        .plan-picture .refuel { stroke-dasharray: 5 3; } .plan-picture .break { stroke-dasharray: 1 3; stroke-width: 2; }
        .plan-picture .chain-line { stroke: #8b9296; stroke-width: 2; } .plan-picture .part { fill: #fff; stroke-width: 2; } .plan-picture .heavy { stroke-width: 4; }
        .plan-picture .weakest { stroke-width: 2; } .plan-picture .limit-box { fill: #fff; } .plan-picture .unknown { stroke: #8a3b00; } .plan-picture .leg { stroke-width: 2; } .plan-picture .load-box { fill: #eef3f4; stroke-width: 2; }
        """;

    /// <summary>One file by its name, or null: <c>loads.svg</c>, <c>loads.csv</c>, <c>order.svg</c>, <c>order.csv</c>, <c>rigging.N.svg</c>, <c>rigging.N.csv</c> with the load's number.</summary>
    public static string? Of(LiftPlan plan, string name, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(name);
        const string chain = "rigging.";
        if (name.StartsWith(chain, StringComparison.Ordinal) && name.Length > chain.Length + 4)
            return plan.Loads.FirstOrDefault(l => l.OnHook.Load.Number == name[chain.Length..^4]) is not { } load ? null
                : name.EndsWith(".svg", StringComparison.Ordinal) ? Alone(RiggingPicture.Draw(load, units)) : name.EndsWith(".csv", StringComparison.Ordinal) ? RiggingPicture.Csv(load) : null;
        return name switch
        {
            "loads.svg" => Alone(LoadBars.DrawAll(plan, units)),
            "loads.csv" => LoadBars.Csv(plan),
            "order.svg" when plan.Order is { } order => Alone(OrderPicture.Draw(order.Timeline, ReserveKg(plan), units)),
            "order.csv" when plan.Order is { } order => OrderPicture.Csv(order.Timeline, plan.OrderSites),
            _ => null,
        };
    }

    /// <summary>The reserve of a plan, kg.</summary>
    public static double ReserveKg(LiftPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Figures.Find("reserve") is { } reserve ? ((UnitsNet.Mass)reserve.Value.Quantity).Kilograms : 0;
    }

    internal static string Text(IEnumerable<IReadOnlyList<string>> rows)
    {
        using MemoryStream stream = new();
        CsvTable.Write(stream, rows);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static string Alone(string svg) => StandaloneSvg.WithStyles(svg, Rules);
}
