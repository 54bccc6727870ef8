using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.App.Serving;

/// <summary>Pictures and plots of chosen deliveries as files of their own, and the numbers behind them.</summary>
internal static class DeliveryFiles
{
    /// <summary>Half-length of the close side view, m.</summary>
    public const double CloseSideM = 90;

    private const string Caution = "For planning and debriefing only. From a recorder that may be wrong.";
    private const string SwingIs = "Swing is without trail and lean; the band holds the true value nine times in ten.";

    /// <summary>Content of a file by its name, such as <c>side.svg</c>; null when there is no such file or nothing to show in it.</summary>
    public static string? Make(string file, OpenFlight flight, IReadOnlyList<DeliveryPath> paths, DisplayUnits units)
    {
        if (paths.Count == 0)
            return null;
        Debrief debrief = flight.Debrief;
        Channel? power = ToGoCurves.PowerOf(flight.Channels);
        string? picture = file switch
        {
            "plan.svg" => PlanView.Draw(paths, debrief, units),
            "plan-close.svg" => PlanView.Draw(paths, debrief, units, PlanView.CloseUpM(paths)),
            "side.svg" => SideView.Draw(paths, debrief.Setup, units),
            "side-close.svg" => SideView.Draw(paths, debrief.Setup, units, CloseSideM),
            "speed.svg" => ToGo(paths, $"Ground speed, {units.SpeedUnit}", null, c => [.. c.SpeedMs.Select(v => v * units.SpeedPerMetreSecond)]),
            "sink.svg" => ToGo(paths, $"Sink, {units.SinkUnit}", null, c => [.. c.SinkMs.Select(v => v * units.SinkPerMetreSecond)]),
            "power.svg" when power is not null => ToGo(paths, power.Kind == ChannelKind.TorquePercent ? "Torque, %" : "Power, kW", power, c => c.Power!),
            "fore.svg" => Swing(paths, debrief, "Swing fore and aft, m (ahead +)", sideways: false),
            "right.svg" => Swing(paths, debrief, "Swing sideways, m (right +)", sideways: true),
            _ => null,
        };
        if (picture is not null)
            return DeliverySheet.With(picture, Shown(flight, paths), file is "fore.svg" or "right.svg" ? [SwingIs, Caution] : [Caution]);
        return file switch
        {
            "plan.csv" => DeliveryTable.Plan(paths),
            "side.csv" => DeliveryTable.Side(paths, units),
            "speed.csv" => DeliveryTable.Speed(paths, units),
            "sink.csv" => DeliveryTable.Sink(paths, units),
            "power.csv" when power is not null => DeliveryTable.Power(paths, power),
            "fore.csv" or "right.csv" when paths.Any(p => p.HasSwing) => DeliveryTable.Swing(paths, debrief.Swings, sideways: file == "right.csv"),
            _ => null,
        };
    }

    /// <summary>Name under which a file is saved.</summary>
    public static string NameOf(string file, OpenFlight flight, IReadOnlyList<DeliveryPath> paths) =>
        $"{Path.GetFileNameWithoutExtension(flight.Flight.Name)} delivery {string.Join(' ', paths.Select(p => DisplayUnits.Text(p.Rotation.Number, 0)))} {file}";

    private static IReadOnlyList<string> Shown(OpenFlight flight, IReadOnlyList<DeliveryPath> paths) =>
    [
        $"{flight.Flight.Name}, {flight.Debrief.Setup.Clock.Day(paths[0].ContactTimeS)}",
        (paths.Count == 1 ? "Delivery " : "Deliveries ") + string.Join(", ", paths.Select(p => $"{DisplayUnits.Text(p.Rotation.Number, 0)} at {flight.Debrief.Setup.Clock.Clock(p.ContactTimeS)}")) + $", time of {flight.Debrief.Setup.Clock.Zone}",
    ];

    private static string ToGo(IReadOnlyList<DeliveryPath> paths, string title, Channel? power, Func<ToGoCurves, double[]> values) =>
        PlotPicture.Draw(title, "m to go", [.. paths.Select(p => (p.Rotation.Number, Curves: ToGoCurves.Of(p, power))).Select(c => new PlotCurve(c.Number, c.Curves.ToGoM, values(c.Curves)))], falling: true);

    private static string? Swing(IReadOnlyList<DeliveryPath> paths, Debrief debrief, string title, bool sideways)
    {
        List<PlotCurve> curves = [];
        foreach (DeliveryPath path in paths)
            if (SwingCurves.Of(path, debrief.Swings.GetValueOrDefault(path.Rotation.Number)) is { } c)
                curves.Add(new(path.Rotation.Number, [.. c.TimeS.Select(t => t - path.ContactTimeS)], sideways ? c.RightM : c.ForeM, sideways ? c.RightBandM : c.ForeBandM));
        return curves.Count == 0 ? null : PlotPicture.Draw(title, "s to contact", curves, falling: false);
    }
}
