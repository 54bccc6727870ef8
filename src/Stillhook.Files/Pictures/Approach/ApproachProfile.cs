using System.Globalization;
using Stillhook.Approaching;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>Speed, sink, power, height of the load and how far it hangs from under the hook, over the hook's distance to go, one strip under the other on one axis, with the marks through all of them.</summary>
public static class ApproachProfile
{
    private const double Width = 960, Left = 70, Right = 150, LabelTop = 26, StripTop = LabelTop + MarkLabels.HeightPx + 58, StripHeight = 98, Gap = 34;

    /// <summary>Draws the way offered; in words why there is none when there is none.</summary>
    public static string Draw(ApproachPlan plan, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(units);
        if (plan.Way is not { } way || plan.Situation is not { } s)
            return Signs.NoApproach("picture approach profile", "Speed, sink and power: no approach is offered", plan);
        Strip[] strips = [.. Strips(plan, s, way.Path, units)];
        double height = StripTop + strips.Length * (StripHeight + Gap) + 82;
        string title = string.Create(CultureInfo.InvariantCulture, $"Speed, sink, power, height and lean of the load over the distance to go, course {way.CourseDeg:000}° true");
        Axis axis = new(Math.Min(-way.Path.Hook[0].East, 1.08 * way.Path.Shape.StartM), Math.Min(0, -way.Path.Hook.Max(p => p.East)) - 0.02 * way.Path.Shape.StartM);
        double bottom = StripTop + strips.Length * (StripHeight + Gap) - Gap;
        SvgWriter svg = new(Width, height, "picture approach profile", title, axis.Attributes(bottom));
        svg.Text(16, 20, title, "caption");
        foreach (ApproachGate gate in plan.Gates)
            svg.Line(axis.X(gate.DistanceM), StripTop - 32, axis.X(gate.DistanceM), bottom, "at-mark");
        for (int i = 0; i < strips.Length; i++)
            DrawStrip(svg, axis, way.Path, strips[i], StripTop + i * (StripHeight + Gap));
        MarkLabels.Draw(svg, plan.Gates, g => (axis.X(g.DistanceM), StripTop - 32), LabelTop, 8, Width - 8);
        foreach (ApproachGate gate in plan.Gates)
            Signs.Mark(svg, axis.X(gate.DistanceM), StripTop - 32, gate.Name);
        DrawDistances(svg, axis, bottom);
        Signs.Caution(svg, Left, bottom + 68, s, units, altimeter: true);
        return svg.Close();
    }

    private static IEnumerable<Strip> Strips(ApproachPlan plan, ApproachSituation s, LoadPath path, DisplayUnits units)
    {
        double[] air = [.. path.SpeedMs.Select(path.Hanging.AirspeedMs)];
        yield return new("Speed, " + units.SpeedUnit, [new("over the ground", "track", Scaled(path.SpeedMs, units.SpeedPerMetreSecond)), new("through the air", "second", Scaled(air, units.SpeedPerMetreSecond))], 0);
        yield return new("Sink, " + units.SinkUnit, [new("sink", "track", [.. Enumerable.Range(0, path.Count).Select(i => path.SinkMs(i) * units.SinkPerMetreSecond)]), new("limit", "limit", [.. air.Select(v => s.SinkLimit.At(v) * units.SinkPerMetreSecond)])], 0);
        if (plan.Power is { } power)
            yield return Power(power);
        yield return new("Load over the spot's ground, " + units.HeightUnit, [new("underside", "track", Scaled(path.LoadHeightM, units.HeightPerMetre))], 0);
        yield return new("Load from under the hook, m", [new("ahead", "track", [.. path.Load.Zip(path.Hook, (l, h) => l.East - h.East)]), new("to the right", "second", [.. path.Load.Zip(path.Hook, (l, h) => l.North - h.North)])], 0);
    }

    private static Strip Power(ApproachPower power)
    {
        if (power.TorquePercent is not { } torque)
            return new("Power expected, % of what is available", [new("expected", "track", Scaled(power.RequiredShare, 100)), new("100 %", "limit", Level(power.RequiredShare, 100))], 0);
        double available = torque[^1] / power.RequiredShare[^1];
        List<Curve> curves = [new("expected", "track", torque), new("100 %", "limit", Level(torque, 100))];
        if (double.IsFinite(available) && available < 99.5)
            curves.Add(new("available", "second", Level(torque, available)));
        return new("Power expected, % torque", curves, 0);
    }

    private static double[] Scaled(double[] values, double by) => [.. values.Select(v => v * by)];

    private static double[] Level(double[] like, double value) => [.. like.Select(_ => value)];

    private static void DrawStrip(SvgWriter svg, Axis axis, LoadPath path, Strip strip, double top)
    {
        int[] shown = [.. Enumerable.Range(0, path.Count).Where(i => -path.Hook[i].East <= axis.FarM)];
        IEnumerable<double> values = strip.Curves.SelectMany(c => shown.Select(i => c.Values[i]));
        double low = Math.Min(strip.From, values.Min()), step = RoundStep.AtLeast((values.Max() - low) / 4), high = Math.Ceiling(values.Max() / step - 1e-9) * step;
        low = Math.Floor(low / step + 0.15) * step;
        double Y(double v) => top + StripHeight - (v - low) / (high - low) * StripHeight;
        for (double v = low; v <= high + step / 2; v += step)
            svg.Line(Left, Y(v), Width - Right, Y(v), v == 0 ? "ground" : "grid").Text(Left - 8, Y(v) + 5, DisplayUnits.Text(v, step < 1 ? 1 : 0), "axis", "end");
        svg.Text(Left, top - 8, strip.Title, "label");
        double[] ends = Ends(strip.Curves, Y);
        for (int k = 0; k < strip.Curves.Count; k++)
        {
            Curve curve = strip.Curves[k];
            int[] kept = Kept(path, curve.Values, shown);
            svg.Path(kept.Select(i => (axis.X(-path.Hook[i].East), Math.Clamp(Y(curve.Values[i]), top, top + StripHeight))), curve.CssClass);
            svg.Line(Width - Right + 8, ends[k] - 4.5, Width - Right + 30, ends[k] - 4.5, curve.CssClass).Text(Width - Right + 36, ends[k], curve.Name, "small");
        }
    }

    /// <summary>Heights of the curves' names: where each curve ends, moved apart.</summary>
    private static double[] Ends(IReadOnlyList<Curve> curves, Func<double, double> y)
    {
        int[] order = [.. Enumerable.Range(0, curves.Count).OrderBy(k => y(curves[k].Values[^1])).ThenBy(k => k)];
        double[] wanted = [.. order.Select(k => y(curves[k].Values[^1]))], placed = MarkLabels.Spread(wanted, [.. wanted.Select(_ => 18.0)], double.MinValue / 4, double.MaxValue / 4), ends = new double[curves.Count];
        for (int i = 0; i < order.Length; i++)
            ends[order[i]] = placed[i] + 4.5;
        return ends;
    }

    private static int[] Kept(LoadPath path, double[] values, int[] shown) =>
        [.. Thinning.MinMax([.. shown.Select(i => path.Hook[i].East)], (int)(Width - Left - Right), [.. shown.Select(i => values[i])]).Select(k => shown[k])];

    private static void DrawDistances(SvgWriter svg, Axis axis, double y)
    {
        double step = RoundStep.AtLeast((axis.FarM - axis.NearM) / 10);
        for (double d = 0; d <= axis.FarM; d += step)
            svg.Line(axis.X(d), y, axis.X(d), y + 6, "ground").Text(axis.X(d), y + 22, DisplayUnits.Text(d, 0), "axis", "middle");
        svg.Text(Width - Right, y + 42, "hook's distance before the spot, m", "axis", "end");
    }

    /// <summary>A curve over the path's samples, in the unit shown.</summary>
    private sealed record Curve(string Name, string CssClass, double[] Values);

    /// <summary>Curves on one scale.</summary>
    private sealed record Strip(string Title, IReadOnlyList<Curve> Curves, double From);

    /// <summary>Distances to go and where they are drawn.</summary>
    private sealed record Axis(double FarM, double NearM)
    {
        public string Attributes(double bottom) => string.Create(CultureInfo.InvariantCulture, $" data-x0=\"{X(0):0.##}\" data-per-metre=\"{(Width - Left - Right) / (FarM - NearM):0.#####}\" data-top=\"{StripTop - 32}\" data-bottom=\"{bottom:0.##}\"");

        public double X(double beforeM) => Left + (FarM - beforeM) / (FarM - NearM) * (Width - Left - Right);
    }
}
