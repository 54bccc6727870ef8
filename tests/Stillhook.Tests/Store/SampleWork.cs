using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>Work made up for the tests: every member filled, numbers that are not round.</summary>
internal static class SampleWork
{
    public static readonly DateTimeOffset Now = new(2026, 6, 1, 18, 0, 0, TimeSpan.FromHours(2));

    /// <summary>1 June 2026 08:00:00 UTC.</summary>
    public const double MorningS = 1780300800;

    public static FlightWork Flight(double fromS = MorningS, int lifts = 3, string? pilot = "Anna", string? aircraft = "HB-XYZ", Guid? job = null) => new()
    {
        Recorded = new(fromS, fromS + 3600.25),
        Airborne = [new(fromS + 10, fromS + 1700.5), new(fromS + 2000, fromS + 3500)],
        Pilot = pilot,
        Aircraft = aircraft,
        Job = job,
        Lifts = [.. Enumerable.Range(1, lifts).Select(n => Lift(n, fromS + 240 * n))],
        Hovers = [new(fromS + 200, aircraft ?? "HB-XYZ", pilot, 1234.5678901, 2100.1, 81.3, null, 780.25, 183.4, FuelFrom.Gauge), new(fromS + 440, aircraft ?? "HB-XYZ", pilot, 1240, 2090, null, 512.75)],
        Exceedances = [new(LimitKind.Torque, 100, 103.7, fromS + 300, 2.5), new(LimitKind.HookLoad, 1200, 1225, fromS + 310, 0.5)],
        Track = Track(fromS),
        Summary = new("0.1.0", fromS, lifts, "Same again."),
    };

    public static KeptLift Lift(int number, double atS) => new()
    {
        Number = number,
        LoadNumber = $"{number:00}",
        Family = "concrete",
        LoadKg = 780.1 + number / 3.0,
        LoadMeasured = true,
        PickUpTimeS = atS - 90.1,
        ApproachStartTimeS = atS - 40,
        StopTimeS = atS - 12,
        DeliveryTimeS = atS,
        ReleaseTimeS = atS + 4.2,
        ClearTimeS = atS + 9,
        PickUp = new(46.123456789, 8.987654321),
        Delivery = new(46.2, 8.1),
        PickUpSite = "Valley",
        DeliverySite = "Hütte",
        LineM = 30.48,
        GoArounds = 1,
        Confidence = Confidence.High,
        Measures = new()
        {
            StartHeightM = 61.1 / 3, EntrySpeedMs = 14.2, CycleTimeS = 239.9, HoverTimeS = 12, OvershootM = 1.1, SinkLast15Ms = 0.31, SwingAfterStopM = new(1.5, 1.1, 1.9), SwingContactM = new(0.4, 0.2, 0.7),
            Corrections = 4, Gates = [new(400, atS - 30, 100.5, 20, 1.5), new(200, atS - 20, 50, 12, 1)], Faults = [Fault.LateSink, Fault.HoverWait], MainFault = Fault.HoverWait,
        },
    };

    public static Track Track(double fromS)
    {
        double[] times = [.. Enumerable.Range(0, 200).Select(i => fromS + i * 0.1)];
        double[] Column(double scale) => [.. times.Select((_, i) => (double)(float)(scale * Math.Sin(i / 7.0)))];
        float[] Errors(float scale) => [.. times.Select((_, i) => scale * (1 + i % 5))];
        return new()
        {
            Frame = new LocalFrame(46.1, 8.2, 1234.5), TimeS = times, StretchStarts = [0, 120], HasHeight = true,
            East = Column(300), North = Column(200), Up = Column(50), VelocityEast = Column(20), VelocityNorth = Column(15), VelocityUp = Column(3),
            AccelerationEast = Column(2), AccelerationNorth = Column(1.5), AccelerationUp = Column(0.7),
            HorizontalErrorM = Errors(0.3f), HorizontalVelocityErrorMs = Errors(0.1f), HorizontalAccelerationErrorMs2 = Errors(0.2f),
            HeightErrorM = Errors(0.5f), ClimbErrorMs = Errors(0.15f), VerticalAccelerationErrorMs2 = Errors(0.25f),
        };
    }

    /// <summary>A lift with its lists as text, so that two can be compared whole.</summary>
    public static string Whole(KeptLift lift) => System.Text.Json.JsonSerializer.Serialize(lift);
}
