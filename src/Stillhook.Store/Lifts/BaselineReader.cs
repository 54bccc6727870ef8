using System.Data.Common;
using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>Reads years of lifts and hovers by plain queries: ten thousands of rows, a few numbers of each, side by side without an object a row (bench/results/store.md).</summary>
internal static class BaselineReader
{
    private const string FromLifts = """
        FROM flight_work w JOIN lift l ON l."FlightId" = w."FlightId"
        """;

    public static IReadOnlyList<HoverPoint> Hovers(StillhookContext context, string aircraft)
    {
        ILookup<long, CorrectedLift> corrected = CorrectedLoads(context, aircraft);
        // Counted first: a list that grows copies all it holds again and again.
        using DbCommand count = Command(context, """
            SELECT count(*) FROM hover_point WHERE "Aircraft" = @aircraft
            """);
        Add(count, "@aircraft", aircraft);
        List<HoverPoint> points = new(Convert.ToInt32(count.ExecuteScalar(), CultureInfo.InvariantCulture));
        using DbCommand query = Command(context, """
            SELECT "AtS", "Pilot", "DensityAltitudeM", "GrossKg", "TorquePercent", "PowerKw", "FuelFrom", "FlightId", "LoadKg" FROM hover_point WHERE "Aircraft" = @aircraft ORDER BY "AtS"
            """);
        Add(query, "@aircraft", aircraft);
        using DbDataReader row = query.ExecuteReader();
        Repeated texts = new(row);
        RowNumbers numbers = new(row);
        while (row.Read())
        {
            HoverPoint point = new(numbers.Double(0), aircraft, texts.Read(1), numbers.Double(2), numbers.Double(3), numbers.Number(4), numbers.Number(5), FuelFrom: From(texts.Read(6)));
            if (corrected.Count == 0)
                points.Add(point);
            else if (Corrected(point with { LoadKg = numbers.Number(8) }, corrected[numbers.Long(7)]) is { } now)
                points.Add(now with { LoadKg = null });
        }
        return points;
    }

    public static IReadOnlyList<MeasuredLift> Lifts(StillhookContext context, string? pilot, string? aircraft)
    {
        string where = Where(pilot, aircraft);
        ILookup<long, CorrectionRow> corrections = Corrections(context, pilot, aircraft, where);
        using DbCommand query = Command(context, $"""
            SELECT l."PickUpSite", l."DeliverySite", l."Family", l."LineM", coalesce(l."DeliveryTimeS", l."PickUpTimeS"), l."CycleTimeS", l."HoverTimeS", l."OvershootM", l."SinkLast15Ms", l."SwingAfterStopM", l."SwingContactM", l."StruckOut", l."Id"
            {FromLifts} {where}
            """);
        Filter(query, pilot, aircraft);
        using DbDataReader row = query.ExecuteReader();
        List<MeasuredLift> lifts = [];
        Repeated texts = new(row);
        RowNumbers n = new(row);
        while (row.Read())
        {
            MeasuredLift lift = new(texts.Read(0), texts.Read(1), texts.Read(2), n.Number(3), n.Number(4), n.Number(5), n.Number(6), n.Number(7), n.Number(8), n.Number(9), n.Number(10));
            bool struckOut = n.Bool(11);
            if (corrections.Count > 0 && corrections[n.Long(12)] is var changes && changes.Any())
                (lift, struckOut) = Corrected(lift, struckOut, changes);
            if (!struckOut)
                lifts.Add(lift);
        }
        return lifts;
    }

    /// <summary>A lift with what people changed of it, by the same rules as a whole one.</summary>
    private static (MeasuredLift Lift, bool StruckOut) Corrected(MeasuredLift lift, bool struckOut, IEnumerable<CorrectionRow> corrections)
    {
        KeptLift changed = LiftReader.Apply(new() { Number = 0, PickUpSite = lift.PickUpSite, DeliverySite = lift.DeliverySite, Family = lift.Family, LineM = lift.LineM, DeliveryTimeS = lift.AtS, StruckOut = struckOut }, corrections);
        return (lift with { PickUpSite = changed.PickUpSite, DeliverySite = changed.DeliverySite, Family = changed.Family, LineM = changed.LineM, AtS = changed.DeliveryTimeS ?? lift.AtS }, changed.StruckOut);
    }

    /// <summary>Lifts of an aircraft whose load or whose being a lift at all somebody changed, by flight. They are few.</summary>
    private static ILookup<long, CorrectedLift> CorrectedLoads(StillhookContext context, string aircraft)
    {
        // From the few corrections to their lifts, not from the many lifts to their corrections.
        long[] ids = [.. context.Corrections.Where(c => c.Member == "loadKg" || c.Member == "struckOut").Select(c => c.LiftId).Distinct()];
        List<LiftRow> rows = ids.Length == 0 ? [] : [.. context.Lifts.AsNoTracking().Where(l => ids.Contains(l.Id) && l.FlightId != null && !l.NotFoundAgain && context.FlightWork.Any(w => w.FlightId == l.FlightId && w.Aircraft == aircraft))];
        return (rows.Count == 0 ? [] : LiftReader.Corrected(context, rows)).ToLookup(l => l.Lift.FlightId);
    }

    private static HoverPoint? Corrected(HoverPoint point, IEnumerable<CorrectedLift> ofFlight)
    {
        foreach (CorrectedLift lift in ofFlight)
            if (point.AtS >= lift.AsKept.PickUpTimeS && point.AtS <= lift.AsKept.DeliveryTimeS)
                return lift.Lift.StruckOut ? null : lift.Lift.LoadKg is { } kg ? point.WithLoad(kg) : point;
        return point;
    }

    private static FuelFrom? From(string? name) => name switch
    {
        nameof(FuelFrom.Gauge) => FuelFrom.Gauge,
        nameof(FuelFrom.Plan) => FuelFrom.Plan,
        nameof(FuelFrom.Assumed) => FuelFrom.Assumed,
        _ => null,
    };

    private static ILookup<long, CorrectionRow> Corrections(StillhookContext context, string? pilot, string? aircraft, string where)
    {
        using DbCommand query = Command(context, $"SELECT c.\"LiftId\", c.\"Member\", c.\"NewJson\" {FromLifts} JOIN correction c ON c.\"LiftId\" = l.\"Id\" {where} ORDER BY c.\"Id\"");
        // Corrections are few and lifts are many: none at all is the common case, and then the join isn't made.
        using DbCommand any = Command(context, "SELECT count(*) FROM correction");
        if (Convert.ToInt64(any.ExecuteScalar(), CultureInfo.InvariantCulture) == 0)
            return Array.Empty<CorrectionRow>().ToLookup(c => c.LiftId);
        Filter(query, pilot, aircraft);
        using DbDataReader row = query.ExecuteReader();
        List<CorrectionRow> found = [];
        while (row.Read())
            found.Add(new() { LiftId = row.GetInt64(0), Member = row.GetString(1), NewJson = row.GetString(2), Old = "", New = "", By = "" });
        return found.ToLookup(c => c.LiftId);
    }

    private static string Where(string? pilot, string? aircraft) =>
        "WHERE NOT l.\"NotFoundAgain\"" + (pilot is null ? "" : " AND w.\"Pilot\" = @pilot") + (aircraft is null ? "" : " AND w.\"Aircraft\" = @aircraft");

    private static void Filter(DbCommand query, string? pilot, string? aircraft)
    {
        if (pilot is not null)
            Add(query, "@pilot", pilot);
        if (aircraft is not null)
            Add(query, "@aircraft", aircraft);
    }

    private static DbCommand Command(StillhookContext context, string text)
    {
        DbCommand command = context.Database.GetDbConnection().CreateCommand();
        command.Transaction = context.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = text;
        return command;
    }

    private static void Add(DbCommand command, string name, object value)
    {
        DbParameter parameter = command.CreateParameter();
        parameter.ParameterName = name;
        parameter.Value = value;
        command.Parameters.Add(parameter);
    }

    /// <summary>Names of sites and kinds come again and again: one object each, found by its bytes where these can be had.</summary>
    private sealed class Repeated(DbDataReader row)
    {
        private const int MostByBytes = 64;
        private readonly RowNumbers raw = new(row);
        private readonly List<(byte[] Utf8, string Text)> byBytes = [];
        private readonly Dictionary<string, string> byText = [];

        public string? Read(int column)
        {
            bool hasBytes = raw.TryText(column, out ReadOnlySpan<byte> utf8);
            if (hasBytes && utf8.Length > 0)
                for (int i = 0; i < byBytes.Count; i++)
                    if (utf8.SequenceEqual(byBytes[i].Utf8))
                        return byBytes[i].Text;
            if (row.IsDBNull(column))
                return null;
            string text = hasBytes ? Encoding.UTF8.GetString(utf8) : row.GetString(column);
            if (byText.TryGetValue(text, out string? known))
                return known;
            byText.Add(text, text);
            if (hasBytes && utf8.Length > 0 && byBytes.Count < MostByBytes)
                byBytes.Add((utf8.ToArray(), text));
            return text;
        }
    }
}
