using System.Globalization;
using Stillhook.Approaching;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>A ring round the spot: from where it can be flown to, and from where not, each part with a word.</summary>
internal sealed class SectorRing(SvgWriter svg, double x, double y, double inner, double outer)
{
    private const int Hatches = 4;

    /// <summary>Draws the ring; each direction lies where the aircraft comes from.</summary>
    public void Draw(ApproachPlan plan, LabelPlacer labels)
    {
        double half = plan.Sectors.Count > 1 ? 180.0 / plan.Sectors.Count : 5;
        foreach (SectorCheck sector in plan.Sectors)
            Part(sector.CourseDeg + 180 - half, sector.CourseDeg + 180 + half, sector.Allowed);
        foreach (double radius in new[] { inner, outer, (inner + outer) / 2 })
            labels.Take(Enumerable.Range(0, 121).Select(i => At(radius, 3 * i)));
        foreach (List<SectorCheck> run in Runs(plan.Sectors))
            Name(run, plan.Sectors.Count, labels);
        if (plan.Way is { } way)
            Chosen(way.CourseDeg + 180);
    }

    /// <summary>Short word for what rules a direction out.</summary>
    public static string Word(string code) => code switch
    {
        "downwind" => "downwind", "crosswind" => "wind from the side", "crew-side" => "crew's side", "too-short" => "too short", "steep" => "too steep", "sink" => "sink", "people" => "people",
        "obstacle" => "obstacle", "wire-height" => "wire", "ground-unknown" => "ground unknown", "terrain" => "terrain", _ => code.Replace('-', ' '),
    };

    /// <summary>Neighbouring directions with the same answer, over north too.</summary>
    public static IReadOnlyList<List<SectorCheck>> Runs(IReadOnlyList<SectorCheck> sectors)
    {
        List<List<SectorCheck>> runs = [];
        foreach (SectorCheck sector in sectors)
            if (runs.Count > 0 && runs[^1][^1].Block?.Code == sector.Block?.Code)
                runs[^1].Add(sector);
            else
                runs.Add([sector]);
        if (runs.Count > 1 && runs[0][0].Block?.Code == runs[^1][0].Block?.Code)
        {
            runs[0].InsertRange(0, runs[^1]);
            runs.RemoveAt(runs.Count - 1);
        }
        return runs;
    }

    private void Part(double fromDeg, double toDeg, bool allowed)
    {
        IEnumerable<double> degrees = Enumerable.Range(0, 7).Select(i => fromDeg + (toDeg - fromDeg) * i / 6);
        svg.Path([.. degrees.Select(d => At(outer, d)), .. degrees.Reverse().Select(d => At(inner, d))], allowed ? "flyable" : "ruled-out", closed: true);
        if (allowed)
            return;
        double step = (toDeg - fromDeg) / Hatches;
        for (int i = 0; i < Hatches; i++)
            svg.Path([At(inner, fromDeg + i * step), At(outer, fromDeg + (i + 1) * step)], "hatch");
    }

    private void Name(List<SectorCheck> run, int sectors, LabelPlacer labels)
    {
        double middle = run[0].CourseDeg + 180 + Math.IEEERemainder(run[^1].CourseDeg - run[0].CourseDeg, 360) / 2;
        if (run.Count > 1 && Math.IEEERemainder(run[^1].CourseDeg - run[0].CourseDeg, 360) < 0)
            middle += 180;
        string courses = run.Count == 1 ? string.Create(CultureInfo.InvariantCulture, $"{run[0].CourseDeg:000}") : string.Create(CultureInfo.InvariantCulture, $"{run[0].CourseDeg:000} to {run[^1].CourseDeg:000}");
        double aside = Math.Min(60, 180.0 * run.Count / sectors / 2);
        labels.AddNearAny([At(inner, middle), At(inner, middle - aside), At(inner, middle + aside)], (run[0].Block is { } block ? Word(block.Code) : "can be flown") + (run.Count == 1 ? ", course " : ", courses ") + courses, 8);
    }

    private void Chosen(double fromDeg)
    {
        (double tipX, double tipY) = At(inner - 12, fromDeg);
        (double leftX, double leftY) = At(outer + 3, fromDeg - 2.5);
        (double rightX, double rightY) = At(outer + 3, fromDeg + 2.5);
        svg.Path([(tipX, tipY), (leftX, leftY), (rightX, rightY)], "chosen", closed: true);
    }

    private (double X, double Y) At(double radius, double deg)
    {
        (double s, double c) = Math.SinCos(double.DegreesToRadians(deg));
        return (x + radius * s, y - radius * c);
    }
}
