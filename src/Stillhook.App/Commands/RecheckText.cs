using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning.Rechecking;

namespace Stillhook.App.Commands;

/// <summary>What changed since the plan was made, on one screen: what stops first, then what to do, the loads that moved, the gates.</summary>
internal sealed class RecheckText(TextWriter output, Recheck recheck, DisplayUnits units)
{
    private const int MostLoads = 12;
    private const string None = "-";

    public void Write()
    {
        output.WriteLine(Cautions.Plan);
        output.WriteLine(Cautions.Charts);
        if (recheck.Changes.Count == 0)
            output.WriteLine("Nothing moved.");
        WriteChanges();
        WriteLoads();
        WriteGates();
    }

    /// <summary>What changed alone, for where the marks stand elsewhere.</summary>
    public void WriteChanges()
    {
        foreach (Change change in recheck.Changes)
            output.WriteLine($"{change.Kind switch { ChangeKind.Stop => "STOP  ", ChangeKind.Do => "DO    ", _ => "      " }}{units.Sentence(change.Text)}");
    }

    private void WriteLoads()
    {
        LoadChange[] tightest = [.. recheck.Loads.OrderBy(l => (l.AfterKg ?? 0) - l.NeedKg).ThenBy(l => l.Number, StringComparer.Ordinal).Take(MostLoads)];
        output.WriteLine($"Loads still to fly, tightest first, {units.MassUnit}{(recheck.Loads.Count > MostLoads ? FormattableString.Invariant($" ({MostLoads} of {recheck.Loads.Count})") : "")}:");
        TextTable table = new("Load", "Plan for", "Allowed was", "Allowed now", "Margin now", "Place was", "Place now");
        foreach (LoadChange l in tightest)
            table.Add(l.Number, units.MassNumber(l.NeedKg), Mass(l.BeforeKg), l.AfterKg is null ? "NO LIFT" : Mass(l.AfterKg), Mass(l.AfterKg - l.NeedKg), Place(l.PositionBefore), Place(l.PositionAfter));
        table.Write(output, "  ");
    }

    private void WriteGates()
    {
        if (recheck.Gates.Count == 0)
            return;
        output.WriteLine($"Gates entered in the job, for {units.Pressure(recheck.QnhHPa * 100)}: altimeter rounded up to 20 ft marks; temperature correction is in the reading.");
        TextTable table = new TextTable("Site", "Distance", "Altimeter", "of it temperature", "Ground speed", "Sink").Words(0);
        foreach (GateReading gate in recheck.Gates)
            table.Add(gate.Site, $"{gate.DistanceM:0} m", FormattableString.Invariant($"{gate.ReadingFt:0} ft"), FormattableString.Invariant($"{gate.TemperatureFt:+0;-0;0} ft"), units.SpeedText(UnitsNet.Speed.FromKnots(gate.GroundSpeedKt).MetersPerSecond), units.Sink(UnitsNet.Speed.FromFeetPerMinute(gate.SinkFtPerMin).MetersPerSecond));
        table.Write(output, "  ");
        output.WriteLine("  " + Cautions.Gates);
    }

    private string Mass(double? kg) => kg is { } value ? units.MassDown(value) : None;

    private static string Place(int? position) => position is { } p ? FormattableString.Invariant($"{p}") : None;
}
