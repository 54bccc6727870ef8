using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>A lift to its row and back.</summary>
internal static class LiftRows
{
    public static LiftRow From(KeptLift lift) => new()
    {
        Key = Guid.CreateVersion7(),
        FlightId = lift.FlightId == 0 ? null : lift.FlightId,
        Number = lift.Number,
        AddedByHand = lift.AddedByHand,
        AtS = Kept.OptionalNumber(lift.DeliveryTimeS ?? lift.PickUpTimeS ?? lift.ReleaseTimeS),
        LoadNumber = Kept.OptionalText(lift.LoadNumber),
        Family = Kept.OptionalText(lift.Family),
        LoadKg = Kept.OptionalNumber(lift.LoadKg),
        LoadMeasured = lift.LoadMeasured,
        PickUpTimeS = Kept.OptionalNumber(lift.PickUpTimeS),
        ApproachStartTimeS = Kept.OptionalNumber(lift.ApproachStartTimeS),
        StopTimeS = Kept.OptionalNumber(lift.StopTimeS),
        DeliveryTimeS = Kept.OptionalNumber(lift.DeliveryTimeS),
        ReleaseTimeS = Kept.OptionalNumber(lift.ReleaseTimeS),
        ClearTimeS = Kept.OptionalNumber(lift.ClearTimeS),
        PickUpLatitudeDeg = Kept.OptionalNumber(lift.PickUp?.LatitudeDeg),
        PickUpLongitudeDeg = Kept.OptionalNumber(lift.PickUp?.LongitudeDeg),
        DeliveryLatitudeDeg = Kept.OptionalNumber(lift.Delivery?.LatitudeDeg),
        DeliveryLongitudeDeg = Kept.OptionalNumber(lift.Delivery?.LongitudeDeg),
        PickUpSite = Kept.OptionalText(lift.PickUpSite),
        DeliverySite = Kept.OptionalText(lift.DeliverySite),
        LineM = Kept.OptionalNumber(lift.LineM),
        GoArounds = lift.GoArounds,
        Confidence = lift.Confidence,
        StruckOut = lift.StruckOut,
        CycleTimeS = lift.Measures?.CycleTimeS,
        HoverTimeS = lift.Measures?.HoverTimeS,
        OvershootM = lift.Measures?.OvershootM,
        SinkLast15Ms = lift.Measures?.SinkLast15Ms,
        SwingAfterStopM = lift.Measures?.SwingAfterStopM?.Value,
        SwingAfterStopLowM = lift.Measures?.SwingAfterStopM?.Low,
        SwingAfterStopHighM = lift.Measures?.SwingAfterStopM?.High,
        SwingContactM = lift.Measures?.SwingContactM?.Value,
        SwingContactLowM = lift.Measures?.SwingContactM?.Low,
        SwingContactHighM = lift.Measures?.SwingContactM?.High,
    };

    public static KeptLift ToLift(LiftRow row, string? measures) => new()
    {
        FlightId = row.FlightId ?? 0,
        Number = row.Number,
        LoadNumber = row.LoadNumber,
        Family = row.Family,
        LoadKg = row.LoadKg,
        LoadMeasured = row.LoadMeasured,
        PickUpTimeS = row.PickUpTimeS,
        ApproachStartTimeS = row.ApproachStartTimeS,
        StopTimeS = row.StopTimeS,
        DeliveryTimeS = row.DeliveryTimeS,
        ReleaseTimeS = row.ReleaseTimeS,
        ClearTimeS = row.ClearTimeS,
        PickUp = ToPlace(row.PickUpLatitudeDeg, row.PickUpLongitudeDeg),
        Delivery = ToPlace(row.DeliveryLatitudeDeg, row.DeliveryLongitudeDeg),
        PickUpSite = row.PickUpSite,
        DeliverySite = row.DeliverySite,
        LineM = row.LineM,
        GoArounds = row.GoArounds,
        Confidence = row.Confidence,
        Measures = measures is null ? null : StoreJson.Read<Delivery>(measures),
        StruckOut = row.StruckOut,
        AddedByHand = row.AddedByHand,
    };

    private static Place? ToPlace(double? latitudeDeg, double? longitudeDeg) => latitudeDeg is { } la && longitudeDeg is { } lo ? new Place(la, lo) : null;
}
