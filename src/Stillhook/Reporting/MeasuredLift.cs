using Stillhook.Debriefing;

namespace Stillhook.Reporting;

/// <summary>Of a lift only what baselines are made of, so that years of them fit side by side. Null where not measured or not told.</summary>
/// <param name="PickUpSite">From.</param>
/// <param name="DeliverySite">To.</param>
/// <param name="Family">Kind of load.</param>
/// <param name="LineM">Line, m.</param>
/// <param name="AtS">When it touched, else left the ground, s since 1970 UTC.</param>
/// <param name="CycleTimeS">Lift-off to next lift-off, s.</param>
/// <param name="HoverTimeS">Hover before the touch, s.</param>
/// <param name="OvershootM">Past the spot, m.</param>
/// <param name="SinkLast15Ms">Sink over the last part, m/s.</param>
/// <param name="SwingAfterStopM">Swing after the stop, m.</param>
/// <param name="SwingContactM">Swing at contact, m.</param>
public readonly record struct MeasuredLift(string? PickUpSite, string? DeliverySite, string? Family, double? LineM, double? AtS, double? CycleTimeS, double? HoverTimeS, double? OvershootM, double? SinkLast15Ms, double? SwingAfterStopM, double? SwingContactM)
{
    /// <summary>The lifts that count: measured, and not struck out.</summary>
    public static IEnumerable<MeasuredLift> Of(IEnumerable<KeptLift> lifts) => lifts.Where(l => !l.StruckOut && l.Measures is not null).Select(l => new MeasuredLift(
        l.PickUpSite, l.DeliverySite, l.Family, l.LineM, l.DeliveryTimeS ?? l.PickUpTimeS, l.Measures!.CycleTimeS, l.Measures.HoverTimeS, l.Measures.OvershootM, l.Measures.SinkLast15Ms, l.Measures.SwingAfterStopM?.Value, l.Measures.SwingContactM?.Value));

    /// <summary>A delivery as one of these.</summary>
    internal static MeasuredLift Of(Delivery d) => Of([new KeptLift { Number = 0, Measures = d }]).Single();
}
