using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>Reads years of lifts and hovers by plain queries: ten thousands of rows, a few numbers of each (bench/results/store.md).</summary>
internal static class BaselineReader
{
    private const string LiftColumns = """
        l."Id", l."FlightId", l."Number", l."AddedByHand", l."LoadNumber", l."Family", l."LoadKg", l."LoadMeasured", l."PickUpTimeS", l."DeliveryTimeS", l."PickUpSite", l."DeliverySite",
        l."LineM", l."GoArounds", l."StruckOut", l."CycleTimeS", l."HoverTimeS", l."OvershootM", l."SinkLast15Ms", l."SwingAfterStopM", l."SwingAfterStopLowM", l."SwingAfterStopHighM",
        l."SwingContactM", l."SwingContactLowM", l."SwingContactHighM"
        """;

    private const string FromLifts = """
        FROM flight_work w JOIN lift l ON l."FlightId" = w."FlightId"
        """;

    public static IReadOnlyList<HoverPoint> Hovers(StillhookContext context, string aircraft)
    {
        using DbCommand query = Command(context, """
            SELECT "AtS", "Pilot", "DensityAltitudeM", "GrossKg", "TorquePercent", "PowerKw" FROM hover_point WHERE "Aircraft" = @aircraft ORDER BY "AtS"
            """);
        Add(query, "@aircraft", aircraft);
        using DbDataReader row = query.ExecuteReader();
        List<HoverPoint> points = [];
        Repeated texts = new();
        while (row.Read())
            points.Add(new(row.GetDouble(0), aircraft, texts.Read(row, 1), row.GetDouble(2), row.GetDouble(3), Number(row, 4), Number(row, 5)));
        return points;
    }

    public static IReadOnlyList<KeptLift> Lifts(StillhookContext context, string? pilot, string? aircraft)
    {
        string where = Where(pilot, aircraft);
        ILookup<long, CorrectionRow> corrections = Corrections(context, pilot, aircraft, where);
        using DbCommand query = Command(context, $"SELECT {LiftColumns} {FromLifts} {where} ORDER BY w.\"FromS\", l.\"FlightId\", l.\"AtS\"");
        Filter(query, pilot, aircraft);
        using DbDataReader row = query.ExecuteReader();
        List<KeptLift> lifts = [];
        Repeated texts = new();
        while (row.Read())
        {
            KeptLift lift = Lift(row, texts);
            lifts.Add(corrections.Count > 0 ? LiftReader.Apply(lift, corrections[row.GetInt64(0)]) : lift);
        }
        return lifts;
    }

    private static KeptLift Lift(DbDataReader row, Repeated texts) => new()
    {
        FlightId = row.GetInt64(1),
        Number = row.GetInt32(2),
        AddedByHand = row.GetBoolean(3),
        LoadNumber = texts.Read(row, 4),
        Family = texts.Read(row, 5),
        LoadKg = Number(row, 6),
        LoadMeasured = row.GetBoolean(7),
        PickUpTimeS = Number(row, 8),
        DeliveryTimeS = Number(row, 9),
        PickUpSite = texts.Read(row, 10),
        DeliverySite = texts.Read(row, 11),
        LineM = Number(row, 12),
        GoArounds = row.GetInt32(13),
        StruckOut = row.GetBoolean(14),
        Measures = new Delivery
        {
            CycleTimeS = Number(row, 15),
            HoverTimeS = Number(row, 16),
            OvershootM = Number(row, 17),
            SinkLast15Ms = Number(row, 18),
            SwingAfterStopM = Band(row, 19),
            SwingContactM = Band(row, 22),
        },
    };

    private static ILookup<long, CorrectionRow> Corrections(StillhookContext context, string? pilot, string? aircraft, string where)
    {
        using DbCommand query = Command(context, $"SELECT c.\"LiftId\", c.\"Member\", c.\"NewJson\" {FromLifts} JOIN correction c ON c.\"LiftId\" = l.\"Id\" {where} ORDER BY c.\"Id\"");
        // Corrections are few and lifts are many: none at all is the common case, and then the join isn't made.
        using DbCommand any = Command(context, "SELECT count(*) FROM correction");
        if (Convert.ToInt64(any.ExecuteScalar(), System.Globalization.CultureInfo.InvariantCulture) == 0)
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

    private static double? Number(DbDataReader row, int column) => row.IsDBNull(column) ? null : row.GetDouble(column);

    private static Banded? Band(DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : new Banded(row.GetDouble(column), row.GetDouble(column + 1), row.GetDouble(column + 2));

    /// <summary>Names of sites and kinds come again and again: one object each.</summary>
    private sealed class Repeated
    {
        private readonly Dictionary<string, string> seen = [];

        public string? Read(DbDataReader row, int column)
        {
            if (row.IsDBNull(column))
                return null;
            string text = row.GetString(column);
            if (seen.TryGetValue(text, out string? known))
                return known;
            seen.Add(text, text);
            return text;
        }
    }
}
