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
        l."SwingContactM", l."SwingContactLowM", l."SwingContactHighM", w."FromS", l."AtS"
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
        RowNumbers numbers = new(row);
        while (row.Read())
            points.Add(new(numbers.Double(0), aircraft, texts.Read(row, 1), numbers.Double(2), numbers.Double(3), numbers.Number(4), numbers.Number(5)));
        return points;
    }

    public static IReadOnlyList<KeptLift> Lifts(StillhookContext context, string? pilot, string? aircraft)
    {
        string where = Where(pilot, aircraft);
        ILookup<long, CorrectionRow> corrections = Corrections(context, pilot, aircraft, where);
        using DbCommand query = Command(context, $"SELECT {LiftColumns} {FromLifts} {where}");
        Filter(query, pilot, aircraft);
        using DbDataReader row = query.ExecuteReader();
        List<(double FlightS, long Flight, double AtS, KeptLift Lift)> lifts = [];
        Repeated texts = new();
        RowNumbers numbers = new(row);
        while (row.Read())
        {
            KeptLift lift = Lift(row, numbers, texts);
            lifts.Add((numbers.Double(25), lift.FlightId, numbers.Number(26) ?? double.MaxValue, corrections.Count > 0 ? LiftReader.Apply(lift, corrections[numbers.Long(0)]) : lift));
        }
        // Sorted here: the database would carry whole rows through its sorter.
        lifts.Sort((a, b) => (a.FlightS, a.Flight, a.AtS, a.Lift.Number).CompareTo((b.FlightS, b.Flight, b.AtS, b.Lift.Number)));
        return lifts.ConvertAll(l => l.Lift);
    }

    private static KeptLift Lift(DbDataReader row, RowNumbers numbers, Repeated texts) => new()
    {
        FlightId = numbers.Long(1),
        Number = numbers.Int(2),
        AddedByHand = numbers.Bool(3),
        LoadNumber = texts.Read(row, 4),
        Family = texts.Read(row, 5),
        LoadKg = numbers.Number(6),
        LoadMeasured = numbers.Bool(7),
        PickUpTimeS = numbers.Number(8),
        DeliveryTimeS = numbers.Number(9),
        PickUpSite = texts.Read(row, 10),
        DeliverySite = texts.Read(row, 11),
        LineM = numbers.Number(12),
        GoArounds = numbers.Int(13),
        StruckOut = numbers.Bool(14),
        Measures = new Delivery
        {
            CycleTimeS = numbers.Number(15),
            HoverTimeS = numbers.Number(16),
            OvershootM = numbers.Number(17),
            SinkLast15Ms = numbers.Number(18),
            SwingAfterStopM = Band(numbers, 19),
            SwingContactM = Band(numbers, 22),
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

    private static Banded? Band(RowNumbers numbers, int column) =>
        numbers.Number(column) is { } value ? new Banded(value, numbers.Double(column + 1), numbers.Double(column + 2)) : null;

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
