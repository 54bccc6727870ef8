using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Bench.Baselines;

/// <summary>The plain way to read years of lifts: a whole object a lift with its measures, sorted; numbers already taken from the statement itself.</summary>
internal sealed class LiftObjects(string file) : IDisposable
{
    private readonly SqliteConnection connection = Opened(file);

    public List<KeptLift> Lifts(string pilot)
    {
        using SqliteCommand query = Command("""
            SELECT l.Id, l.FlightId, l.Number, l.AddedByHand, l.LoadNumber, l.Family, l.LoadKg, l.LoadMeasured, l.PickUpTimeS, l.DeliveryTimeS, l.PickUpSite, l.DeliverySite,
            l.LineM, l.GoArounds, l.StruckOut, l.CycleTimeS, l.HoverTimeS, l.OvershootM, l.SinkLast15Ms, l.SwingAfterStopM, l.SwingAfterStopLowM, l.SwingAfterStopHighM,
            l.SwingContactM, l.SwingContactLowM, l.SwingContactHighM, w.FromS, l.AtS
            FROM flight_work w JOIN lift l ON l.FlightId = w.FlightId WHERE NOT l.NotFoundAgain AND w.Pilot = $key
            """, pilot);
        using SqliteDataReader row = query.ExecuteReader();
        Dictionary<string, string> texts = [];
        List<(double FlightS, long Flight, double AtS, KeptLift Lift)> lifts = [];
        while (row.Read())
        {
            sqlite3_stmt s = row.Handle!;
            KeptLift lift = new()
            {
                FlightId = raw.sqlite3_column_int64(s, 1), Number = (int)raw.sqlite3_column_int64(s, 2), AddedByHand = raw.sqlite3_column_int64(s, 3) != 0, LoadNumber = Text(row, 4, texts), Family = Text(row, 5, texts),
                LoadKg = Number(s, 6), LoadMeasured = raw.sqlite3_column_int64(s, 7) != 0, PickUpTimeS = Number(s, 8), DeliveryTimeS = Number(s, 9), PickUpSite = Text(row, 10, texts), DeliverySite = Text(row, 11, texts),
                LineM = Number(s, 12), GoArounds = (int)raw.sqlite3_column_int64(s, 13), StruckOut = raw.sqlite3_column_int64(s, 14) != 0,
                Measures = new Delivery { CycleTimeS = Number(s, 15), HoverTimeS = Number(s, 16), OvershootM = Number(s, 17), SinkLast15Ms = Number(s, 18), SwingAfterStopM = Band(s, 19), SwingContactM = Band(s, 22) },
            };
            lifts.Add((raw.sqlite3_column_double(s, 25), lift.FlightId, Number(s, 26) ?? double.MaxValue, lift));
        }
        lifts.Sort((a, b) => (a.FlightS, a.Flight, a.AtS, a.Lift.Number).CompareTo((b.FlightS, b.Flight, b.AtS, b.Lift.Number)));
        return lifts.ConvertAll(l => l.Lift);
    }

    public List<HoverObject> Hovers(string aircraft)
    {
        using SqliteCommand query = Command("SELECT AtS, Pilot, DensityAltitudeM, GrossKg, TorquePercent, PowerKw FROM hover_point WHERE Aircraft = $key ORDER BY AtS", aircraft);
        using SqliteDataReader row = query.ExecuteReader();
        Dictionary<string, string> texts = [];
        List<HoverObject> points = [];
        while (row.Read())
        {
            sqlite3_stmt s = row.Handle!;
            points.Add(new(raw.sqlite3_column_double(s, 0), aircraft, Text(row, 1, texts), raw.sqlite3_column_double(s, 2), raw.sqlite3_column_double(s, 3), Number(s, 4), Number(s, 5)));
        }
        return points;
    }

    public void Dispose() => connection.Dispose();

    private static SqliteConnection Opened(string file)
    {
        SqliteConnection opened = new($"Data Source={file}");
        opened.Open();
        return opened;
    }

    private SqliteCommand Command(string text, string key)
    {
        SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Texts of this file only.
        command.CommandText = text;
#pragma warning restore CA2100
        command.Parameters.AddWithValue("$key", key);
        return command;
    }

    private static double? Number(sqlite3_stmt s, int column) =>
        raw.sqlite3_column_double(s, column) is var value && value == 0 && raw.sqlite3_column_type(s, column) == raw.SQLITE_NULL ? null : value;

    private static Banded? Band(sqlite3_stmt s, int column) => Number(s, column) is { } value ? new Banded(value, raw.sqlite3_column_double(s, column + 1), raw.sqlite3_column_double(s, column + 2)) : null;

    private static string? Text(SqliteDataReader row, int column, Dictionary<string, string> texts)
    {
        if (row.IsDBNull(column))
            return null;
        string text = row.GetString(column);
        return texts.TryGetValue(text, out string? known) ? known : texts[text] = text;
    }

    internal sealed record HoverObject(double AtS, string Aircraft, string? Pilot, double DensityAltitudeM, double GrossKg, double? TorquePercent, double? PowerKw);
}
