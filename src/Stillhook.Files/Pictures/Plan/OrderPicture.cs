using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;

namespace Stillhook.Files.Pictures.Plan;

/// <summary>Order and fuel on one time line: fuel aboard over the clock, the reserve, stops, and the loads as blocks with their numbers.</summary>
public static class OrderPicture
{
    private const double Height = 250, Left = 58, Right = 16, Top = 30, FuelFloor = 160, BlockTop = 172, BlockHeight = 34, LeastBlock = 26;

    /// <summary>Draws a time line.</summary>
    /// <param name="day">What happens when.</param>
    /// <param name="reserveKg">Reserve, kg.</param>
    /// <param name="units">Units of the words.</param>
    /// <param name="brokenNumbers">Loads where something breaks; marked.</param>
    public static string Draw(OrderTimeline day, double reserveKg, DisplayUnits units, IReadOnlyCollection<string>? brokenNumbers = null)
    {
        ArgumentNullException.ThrowIfNull(day);
        ArgumentNullException.ThrowIfNull(units);
        double start = day.Steps.Count > 0 ? day.Steps[0].FromMinute : day.FinishMinute, length = Math.Max(1, day.FinishMinute - start);
        double shortest = day.Steps.OfType<LiftStep>().Select(l => l.ToMinute - l.FromMinute).DefaultIfEmpty(length).Min();
        // As wide as it takes to write a number into the shortest block, within reason; the page scrolls it in its own box.
        double width = Left + Right + Math.Clamp(length / Math.Max(shortest, 0.1) * LeastBlock, 640, 2600);
        double X(double minute) => Left + (minute - start) / length * (width - Left - Right);
        double most = Math.Max(1, day.Steps.Select(s => Math.Max(s.FuelFromKg, s.FuelToKg)).DefaultIfEmpty(1).Max()) * 1.08;
        double Y(double kg) => Top + (1 - Math.Clamp(kg / most, 0, 1)) * (FuelFloor - Top);
        SvgWriter svg = new(width, Height, "plan-picture time-line",
            $"Order and fuel from {ClockText.Of(start)} to {ClockText.Of(day.FinishMinute)}: {day.Steps.OfType<LiftStep>().Count()} loads, {Stops(day.Refuels)}, reserve {units.Mass(reserveKg)}",
            FormattableString.Invariant($" width=\"{width:0}\" height=\"{Height:0}\""));
        Grid(svg, day, units, start, width, most, X, Y);
        foreach (OrderStep step in day.Steps)
            if (step is RefuelStep or BreakStep)
                Stop(svg, step, X);
        svg.Path(day.Steps.SelectMany(s => new[] { (X(s.FromMinute), Y(s.FuelFromKg)), (X(s.ToMinute), Y(s.FuelToKg)) }), "fuel");
        svg.Line(Left, Y(reserveKg), width - Right, Y(reserveKg), "reserve");
        svg.Text(Left + 4, Y(reserveKg) + 15, $"reserve {units.Mass(reserveKg)}, never cut", "small");
        foreach (LiftStep lift in day.Steps.OfType<LiftStep>())
            Block(svg, lift, X, brokenNumbers?.Contains(lift.Number) == true);
        return svg.Close();
    }

    /// <summary>The numbers behind the picture, a row for each step.</summary>
    public static string Csv(OrderTimeline day, IReadOnlyList<string> sites)
    {
        ArgumentNullException.ThrowIfNull(day);
        ArgumentNullException.ThrowIfNull(sites);
        List<IReadOnlyList<string>> rows = [["step", "from", "to", "fuelFromKg", "fuelToKg", "place", "load", "planForWithKitKg", "allowedWithKitKg", "reason"]];
        foreach (OrderStep s in day.Steps)
        {
            LiftStep? lift = s as LiftStep;
            rows.Add([Word(s, sites), ClockText.Of(s.FromMinute), ClockText.Of(s.ToMinute), LoadBars.Number(s.FuelFromKg), LoadBars.Number(s.FuelToKg), lift is null ? "" : LoadBars.Number(lift.Position), CsvTable.Typed(lift?.Number),
                lift is null ? "" : LoadBars.Number(lift.NeedKg), lift is null ? "" : LoadBars.Number(lift.AllowedKg), CsvTable.Typed(lift?.Reason)]);
        }
        return PlanFiles.Text(rows);
    }

    private static void Grid(SvgWriter svg, OrderTimeline day, DisplayUnits units, double start, double width, double most, Func<double, double> x, Func<double, double> y)
    {
        svg.Text(8, 16, $"Fuel aboard, {units.MassUnit}", "axis");
        double fuelStep = RoundStep.AtLeast(most * units.MassPerKilogram / 4) / units.MassPerKilogram;
        for (double kg = 0; kg <= most; kg += fuelStep)
        {
            svg.Line(Left, y(kg), width - Right, y(kg), "rule");
            svg.Text(Left - 6, y(kg) + 4, units.MassNumber(kg), "axis", "end");
        }
        double length = day.FinishMinute - start, perLabel = length / Math.Max(1, (width - Left - Right) / 90);
        double every = new double[] { 5, 10, 15, 30, 60, 120, 240 }.FirstOrDefault(m => m >= perLabel, 240);
        for (double minute = Math.Ceiling(start / every) * every; minute <= day.FinishMinute + 1e-9; minute += every)
        {
            svg.Line(x(minute), Top, x(minute), BlockTop + BlockHeight + 6, minute % 60 == 0 ? "hour" : "rule");
            svg.Text(x(minute), BlockTop + BlockHeight + 22, ClockText.Of(minute), "axis", "middle");
        }
        svg.Text(8, BlockTop + 21, "Loads", "axis");
        svg.Text(width - Right, Height - 6, $"back at base {ClockText.Of(day.FinishMinute)}", "small", "end");
    }

    private static void Stop(SvgWriter svg, OrderStep step, Func<double, double> x)
    {
        double from = x(step.FromMinute), to = x(step.ToMinute);
        bool rest = step is BreakStep;
        svg.Rectangle(from, BlockTop, Math.Max(2, to - from), BlockHeight, rest ? "break" : "refuel");
        svg.Text((from + to) / 2, rest ? BlockTop + 29 : BlockTop + 15, to - from > 48 ? rest ? "break" : "refuel" : rest ? "B" : "F", "small", "middle");
    }

    private static void Block(SvgWriter svg, LiftStep lift, Func<double, double> x, bool broken)
    {
        double from = x(lift.FromMinute), to = x(lift.ToMinute), width = Math.Max(2, to - from - 1);
        svg.Rectangle(from, BlockTop, width, BlockHeight, broken ? "block broken" : lift.ProvingLift ? "block proving" : "block");
        if (broken)
            svg.Line(from, BlockTop, from + width, BlockTop + BlockHeight, "hatch");
        int fits = Math.Max(1, (int)(width / 8));
        svg.Text(from + width / 2, BlockTop + 22, LoadBars.Short(lift.Number, fits), "block-number", "middle");
    }

    private static string Word(OrderStep step, IReadOnlyList<string> sites) => step switch
    {
        StartStep => "start",
        LiftStep => "lift",
        RefuelStep => "refuel",
        BreakStep => "break",
        EmptyMoveStep move => CsvTable.Typed($"empty from {sites[move.From]} to {sites[move.To]}"),
        _ => "",
    };

    private static string Stops(int refuels) => refuels switch { 0 => "no refuelling", 1 => "1 refuelling stop", _ => FormattableString.Invariant($"{refuels} refuelling stops") };
}
