using System.ComponentModel;
using Stillhook.Planning.Rechecking;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Files.Reports;

/// <summary>What changed since the plan was made, for machines.</summary>
public sealed record RecheckDocument(
    [property: Description("Always stillhook-recheck.")] string Schema,
    int Version,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<ChangeDocument> Changes,
    IReadOnlyList<LoadChangeDocument> Loads,
    double QnhHPa,
    IReadOnlyList<GateDocument> Gates,
    [property: Description("The whole plan for what was read.")] LiftPlanDocument Plan);

/// <summary>One change.</summary>
public sealed record ChangeDocument([property: Description("stop, do or know.")] string Kind, string Text);

/// <summary>A load whose allowed mass or place moved.</summary>
public sealed record LoadChangeDocument(string Number, double NeedKg, double? AllowedBeforeKg, double? AllowedNowKg, int? PositionBefore, int? PositionNow);

/// <summary>A gate as the altimeter shows it.</summary>
public sealed record GateDocument(double DistanceM, double AltimeterFt, double TemperatureCorrectionFt, double GroundSpeedKt, double SinkFtPerMin, [property: Description("Delivery site that it stands before.")] string Site);

/// <summary>Makes the document of a re-check.</summary>
public static class RecheckDocuments
{
    /// <summary>Writes the re-check as JSON.</summary>
    public static void Write(Stream stream, Recheck recheck, Func<string, long?> lineOf)
    {
        ArgumentNullException.ThrowIfNull(recheck);
        PlanJson.Write(stream, new RecheckDocument("stillhook-recheck", LiftPlanDocuments.Version, [Cautions.Plan, Cautions.Charts, Cautions.Weights, Cautions.Gates],
            [.. recheck.Changes.Select(c => new ChangeDocument(PlanJson.Camel(c.Kind), c.Text))],
            [.. recheck.Loads.Select(l => new LoadChangeDocument(l.Number, l.NeedKg, l.BeforeKg, l.AfterKg, l.PositionBefore, l.PositionAfter))],
            Math.Round(recheck.QnhHPa, 1),
            [.. recheck.Gates.Select(g => new GateDocument(g.DistanceM, g.ReadingFt, Math.Round(g.TemperatureFt, 1), Math.Round(g.GroundSpeedKt, 1), Math.Round(g.SinkFtPerMin), g.Site))],
            LiftPlanDocuments.Of(recheck.After, lineOf)));
    }
}
