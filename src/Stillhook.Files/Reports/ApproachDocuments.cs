using Stillhook.Approaching;
using Stillhook.Physics.Air;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Files.Reports;

/// <summary>Makes the document of an approach.</summary>
public static class ApproachDocuments
{
    /// <summary>Version of the document's shape.</summary>
    public const int Version = 1;

    private const double SampleS = 0.5;

    /// <summary>Writes the approach as JSON.</summary>
    /// <param name="stream">Where to.</param>
    /// <param name="request">The job it was planned from.</param>
    /// <param name="plan">The approach.</param>
    /// <param name="changes">What moved, when it was planned again; null otherwise.</param>
    /// <param name="lineOf">Line of the job file for a path in the request, or null.</param>
    public static void Write(Stream stream, LiftRequest request, ApproachPlan plan, IReadOnlyList<string>? changes, Func<string, long?> lineOf) => PlanJson.Write(stream, Of(request, plan, changes, lineOf));

    /// <summary>The published schema of the document (JSON Schema 2020-12), from the same types.</summary>
    public static string Schema() => PlanJson.Schema<ApproachDocument>();

    /// <summary>The document of an approach.</summary>
    public static ApproachDocument Of(LiftRequest request, ApproachPlan plan, IReadOnlyList<string>? changes, Func<string, long?> lineOf)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(lineOf);
        bool offered = plan.IsOffered;
        return new(
            "stillhook-approach", Version, request.Job, request.Date, request.TimeZone, [Cautions.Plan, Cautions.Charts, Cautions.Weights, Cautions.Gates],
            [.. plan.Findings.Select(f => new FindingDocument(PlanJson.Camel(f.Severity), f.Code, f.Path, f.What, f.Mend))],
            offered, plan.Refused, plan.Remedies, changes, plan.Situation is { } s ? Situation(s) : null,
            offered ? Way(plan.Way!, plan.Situation!) : null, [.. plan.Gates.Select(g => Gate(g, plan.Situation!))], offered ? PowerIn(plan) : null, offered ? Reject(plan) : null,
            offered ? Round(plan.FallReachM, 1) : null, Round(plan.Situation?.PeriodS, 2), [.. plan.Sectors.Select(Sector)],
            plan.Robustness is { } r ? Robustness(r) : null, [.. plan.Checks.Select(Check)], plan.Empty is { } e ? Empty(e) : null,
            [.. plan.Defaults.Select(i => LiftPlanDocuments.Input(i, lineOf))], [.. plan.Figures.All.Select(f => LiftPlanDocuments.Figure(f, lineOf))], offered ? [.. Path(plan)] : []);
    }

    private static ApproachSituationDocument Situation(ApproachSituation s) => new(
        s.Site.Name, s.Listed?.Number, s.LoadName, Shown(s.Load.MassKg, 1), Round(s.GrossKg, 0), Shown(s.ContactLengthM, 2), Shown(s.ElevationM, 1),
        s.Minute is { } minute ? ClockText.Of(minute) : null, s.Wind is { } w ? new(Shown(w.FromDeg, 1), Shown(w.Speed.Knots, 1)) : null, Knots(s.GustMs),
        Shown(s.TemperatureC, 1), Round(s.QnhPa / 100, 1), Feet(s.PressureAltitudeM), Feet(DensityAltitude.OfDensityM(s.Load.AirDensityKgM3)), Round(s.Hover?.InHandPercent, 1), Round(s.Hover?.LeftPercent, 1));

    private static ApproachWayDocument Way(WayIn way, ApproachSituation s)
    {
        PathShape shape = way.Path.Shape;
        return new(
            Shown(way.CourseDeg, 1), Knots(s.Rules.EntrySpeedMs.Value), Knots(shape.EntryMs), Shown(shape.StartM, 1), Shown(shape.StartHeightM, 1), Shown(shape.GlideDeg, 1), PlanJson.Camel(shape.Law),
            Shown(shape.SlowDownM, 1), Shown(way.Path.PeakHookSlowDownMs2() / Gravity.Standard, 4), Shown(shape.LetDownM, 1), Shown(way.Path.TimeS(way.Path.Count - 1), 1));
    }

    private static ApproachGateDocument Gate(ApproachGate g, ApproachSituation s) => new(
        g.Name.Length > 0 ? g.Name : null, Shown(g.DistanceM, 1), g.Landmark, Shown(g.HookHeightM, 1), Shown(g.LoadHeightM, 1), Shown(g.AltimeterFt, 0), Shown(g.UnroundedFt, 1), Shown(g.TemperatureFt, 1), Round(s.QnhPa / 100, 1),
        Shown(g.GroundKt, 0), g.AirKt, g.SinkFtPerMin, Round(g.PowerPercent, 1), Round(g.TorquePercent, 1), Round(g.Broken, 4));

    private static PowerInDocument? PowerIn(ApproachPlan plan) => plan.PowerIn is { } p && plan.Gate(ApproachGates.PowerInName) is { } mark ? new(
        Shown(mark.AltimeterFt, 0), mark.DistanceM, Shown(p.DistanceM, 1), Shown(p.HookHeightM, 1), Shown(p.LoadHeightM, 1), Shown(p.SinkMs, 2), Shown(p.LostM, 1), Shown(p.ReserveM, 1),
        plan.LargestSinkAtPowerInMs is { } sink ? Math.Floor(Speed.FromMetersPerSecond(sink).FeetPerMinute / 50) * 50 : null) : null;

    private static RejectDocument? Reject(ApproachPlan plan) => plan.Reject is { } r && plan.Gate(ApproachGates.RejectName) is { } mark ? new(
        Shown(mark.AltimeterFt, 0), mark.DistanceM, Shown(r.DistanceM, 1), Shown(r.HookHeightM, 1), Shown(r.LoadHeightM, 1), r.TurnDeg, Shown(r.LowestM, 1)) : null;

    private static SectorDocument Sector(SectorCheck x) => new(Shown(x.CourseDeg, 1), x.Allowed, x.Block?.Code, x.Block?.Text, Knots(x.HeadwindMs), Knots(x.CrosswindMs));

    private static RobustnessDocument Robustness(Robustness r) => new(
        r.Flights, Shown(r.MissM.Half, 2), Shown(r.MissM.NinetyFive, 2), Shown(r.AlongM.Mean, 2), Shown(r.AlongM.Sigma, 2), Shown(r.AcrossM.Mean, 2), Shown(r.AcrossM.Sigma, 2),
        Shown(r.SwingM.Half, 2), Shown(r.SwingM.NinetyFive, 2), Shown(r.WorstTenthM, 2), Shown(r.Slack, 4),
        [.. r.Causes.Select(c => new CauseDocument(c.Cause, Shown(c.Share, 3)))], [.. r.Places.Select(p => new PlaceDocument(Shown(p.Along, 2), Shown(p.Right, 2)))]);

    private static ApproachCheckDocument Check(CheckItem i) => new(PlanJson.Camel(i.Colour), PlanJson.Camel(i.Verdict), i.Code, i.Subject, i.Text, i.Source, i.Path);

    private static EmptyLineDocument Empty(EmptyLine e) => new(
        Shown(e.PeriodS, 2), e.LargestSpeedMs is { } limit ? Math.Floor(limit / ApproachGates.KnotMs / 5) * 5 : null, Shown(e.TrailDeg, 1), Knots(e.AtMs), e.Note, Cautions.EmptyLine);

    private static IEnumerable<PathSampleDocument> Path(ApproachPlan plan)
    {
        LoadPath path = plan.Way!.Path;
        int every = (int)Math.Round(SampleS / path.StepS), last = path.Count - 1;
        for (int i = 0; i < last; i += every)
            yield return Sample(path, plan.Power, i);
        yield return Sample(path, plan.Power, last);
    }

    private static PathSampleDocument Sample(LoadPath path, ApproachPower? power, int i) => new(
        Shown(path.TimeS(i), 2), Shown(path.DistanceM[i], 2), Shown(path.LoadHeightM[i], 2), Shown(path.Hook[i].East, 2), Shown(path.Hook[i].North, 2), Shown(path.Hook[i].Up, 2),
        Shown(path.SpeedMs[i], 3), Shown(path.SinkMs(i), 3), Round(100 * power?.RequiredShare[i], 1));

    private static double Knots(double ms) => Shown(Speed.FromMetersPerSecond(ms).Knots, 1);

    private static double Feet(double m) => Math.Round(Length.FromMeters(m).Feet);

    private static double Shown(double value, int digits) => Round(value, digits)!.Value;

    private static double? Round(double? value, int digits) => LiftPlanDocuments.Round(value, digits);
}
