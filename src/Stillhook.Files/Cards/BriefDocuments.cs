using System.Globalization;
using System.Text.Json;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;

namespace Stillhook.Files.Cards;

/// <summary>What is kept of an earlier brief to hold a later one against.</summary>
/// <param name="IssuedAt">When it was issued.</param>
/// <param name="Units">Its units: ft, m or lb.</param>
/// <param name="Lines">Its facts.</param>
/// <param name="Cards">Names of its cards' files, without their ending.</param>
public sealed record EarlierBrief(DateTimeOffset IssuedAt, string Units, IReadOnlyList<BriefLine> Lines, IReadOnlyList<string> Cards);

/// <summary>Writes a brief as JSON, and reads the facts of an earlier one back.</summary>
public static class BriefDocuments
{
    /// <summary>Version of the document's shape.</summary>
    public const int Version = 1;

    private const string Kind = "stillhook-brief";

    /// <summary>Writes the brief.</summary>
    /// <param name="stream">Where to.</param>
    /// <param name="brief">The brief.</param>
    /// <param name="units">Units of its facts.</param>
    /// <param name="since">Earlier brief that it is held against; null for none.</param>
    public static void Write(Stream stream, Brief brief, DisplayUnits units, EarlierBrief? since = null) => PlanJson.Write(stream, Of(brief, units, since));

    /// <summary>The published schema of the document (JSON Schema 2020-12), from the same types.</summary>
    public static string Schema() => PlanJson.Schema<BriefDocument>();

    /// <summary>The document of a brief.</summary>
    public static BriefDocument Of(Brief brief, DisplayUnits units, EarlierBrief? since = null)
    {
        ArgumentNullException.ThrowIfNull(brief);
        ArgumentNullException.ThrowIfNull(units);
        IReadOnlyList<BriefLine> lines = BriefLines.Of(brief, units);
        return new(Kind, Version, brief.Request.Job, brief.Request.Date, brief.Issue.At, brief.Issue.By, units.Name, [CardCautions.Advice, CardCautions.Gates, CardCautions.Charts, CardCautions.Weights],
            [.. CardPrints.Of(brief, units, since).Select(c => c.Name)], [.. brief.Cockpit.Select(Cockpit)], [.. brief.LoadMasters.Select(LoadMaster)], [.. brief.Receivers.Select(r => new ReceiverDocument(r.Site, r.StandOffM, r.EscapeSideDeg, [.. r.Loads.Select(l => l.Number)]))],
            [.. lines.Select(l => new BriefLineDocument(l.Topic, l.Name, l.Value))], since?.IssuedAt, since is null ? null : [.. BriefDifference.Between(since.Lines, lines).Select(c => new BriefChangeDocument(c.Topic, c.Name, c.Was, c.Now))]);
    }

    /// <summary>The facts of a brief that was written; null, with the reason, when it is none.</summary>
    public static EarlierBrief? Read(string json, out string? wrong)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(json);
            JsonElement root = document.RootElement;
            wrong = null;
            if (root.ValueKind == JsonValueKind.Object && root.TryGetProperty("schema", out JsonElement kind) && kind.ValueKind == JsonValueKind.String && kind.ValueEquals(Kind))
                return new(root.GetProperty("issuedAt").GetDateTimeOffset(), Text(root, "units"), [.. root.GetProperty("lines").EnumerateArray().Select(l => new BriefLine(Text(l, "topic"), Text(l, "name"), Text(l, "value")))], [.. root.GetProperty("cards").EnumerateArray().Select(c => c.GetString() ?? "")]);
            wrong = "It is not a brief: 'schema' is not stillhook-brief.";
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            wrong = "It is not a brief: " + e.Message;
        }
        return null;
    }

    /// <summary>What a written brief was made of, to plan the same again; null when it is none.</summary>
    public static BriefedOrder? OrderOf(string json)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(json);
            JsonElement root = document.RootElement;
            return new(
                [.. root.GetProperty("loadMasters").EnumerateArray().SelectMany(m => m.GetProperty("loads").EnumerateArray()).OrderBy(l => l.GetProperty("position").GetInt32()).Select(l => Text(l, "number"))],
                root.GetProperty("cockpit").EnumerateArray().Where(c => Text(c, "reason") == PlanJson.Camel(ApproachReason.Planned)).GroupBy(c => Text(c, "site"), StringComparer.OrdinalIgnoreCase).ToDictionary(c => c.Key, c => Text(c.First(), "load"), StringComparer.OrdinalIgnoreCase));
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    private static string Text(JsonElement of, string name) => of.GetProperty(name).GetString() ?? "";

    private static CockpitDocument Cockpit(CockpitCard c) => new(c.Site, c.Load, PlanJson.Camel(c.Reason), c.Blocked, c.Remedies, c.QnhPa / 100, c.Wind?.FromDeg, c.Wind?.Speed.Knots, Finite(c.CourseDeg), c.OverTheSpotFt,
        [.. c.Marks.Select(Mark)], c.PowerIn is { } p ? Mark(p.Mark) : null, c.PowerIn?.LargestSinkMs is { } sink ? ApproachGates.RoundSink(Math.Max(0, sink)) : null, c.Reject is { } r ? Mark(r.Mark) : null, c.Reject?.TurnDeg, c.Period?.HeldS, c.PowerLeftPercent);

    private static CockpitMarkDocument Mark(CockpitMark m) => new(m.Label, m.Name.Length > 0 ? m.Name : null, m.Landmark, m.DistanceM, m.AltimeterFt, To5Kt(m.GroundMs), m.AirMs is { } air ? To5Kt(air) : null, ApproachGates.RoundSink(m.SinkMs));

    private static double To5Kt(double ms) => Math.Round(ms / ApproachGates.KnotMs / 5) * 5;

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;

    private static LoadMasterDocument LoadMaster(LoadMasterSheet s) => new(s.PickUp,
        [.. s.Loads.Select(l => new LoadRowDocument(l.Position, l.Number, l.Name, l.MassKg, PlanJson.Camel(l.HowKnown), l.NeedKg, l.MostKg, l.LimitedBy, ClockText.Of(l.HookOnMinute), l.Proving, l.Delivery))], [.. s.NotFlown.Select(n => string.Create(CultureInfo.InvariantCulture, $"{n.Number}: {n.Why}"))]);
}
