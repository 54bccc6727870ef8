using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Tests.Files.Pictures;

/// <summary>A debrief made by hand: straight approaches from the south-west to one target, with closed-form motion, so that pictures have known coordinates.</summary>
internal static class HandMadeDebrief
{
    /// <summary>Contact of rotation n is at n·300 s after this.</summary>
    public const double StartS = 1_780_000_000;

    public const double CourseDeg = 45;
    public const double LineM = 30;

    /// <summary>So many deliveries; rotation n comes in n metres to the right and touches n metres past the target along the course.</summary>
    public static Debrief WithDeliveries(int count)
    {
        const double step = 0.5;
        int knots = (int)(count * 300 / step) + 60;
        double[] time = new double[knots], east = new double[knots], north = new double[knots], up = new double[knots];
        for (int i = 0; i < knots; i++)
        {
            time[i] = StartS + i * step;
            int n = Math.Clamp((int)Math.Ceiling(i * step / 300), 1, count);
            double beforeContact = n * 300 - i * step;
            (double along, double height) = Motion(beforeContact);
            (east[i], north[i]) = Place(along, n, n);
            up[i] = height;
        }
        return new()
        {
            RecordName = "hand-made",
            Setup = new()
            {
                Line = new(Length.FromMeters(LineM), Origin.Typed),
                Wind = new Given<Wind>(new(240, Speed.FromKnots(12)), Origin.Typed),
                People = [new("Receiver", 46.0001, 8.0002)],
            },
            Quality = new(step, knots * step, 0, 0.8, 1.2, 0.1, true, false, ["Place and time of each delivery."], ["Load on the hook: no load cell in the record."]),
            Track = Track(time, east, north, up),
            Sites = [new("Drop", SiteUse.Delivery, new(0, 0, 0), count, Known: true)],
            Rotations = [.. Enumerable.Range(1, count).Select(Rotation)],
            Swings = Enumerable.Range(1, count).ToDictionary(n => n, Swing),
            Findings = [new(Severity.Note, "hand-made", null, 1, "Made by hand.", "Nothing to mend.")],
        };
    }

    // 400 m out at 120 m, slowing evenly over 80 s to rest over the spot; 10 s of hover; sink of the last metres in the hover.
    private static (double Along, double Height) Motion(double beforeContact)
    {
        if (beforeContact < 0)
            return (0, LineM - beforeContact);
        if (beforeContact < 10)
            return (0, LineM + beforeContact * 0.5);
        double part = Math.Min(1, (beforeContact - 10) / 80);
        return (400 * part * part, LineM + 5 + 85 * part * part);
    }

    private static (double East, double North) Place(double toGo, double right, double past)
    {
        (double s, double c) = Math.SinCos(double.DegreesToRadians(CourseDeg));
        double along = past - toGo;
        return (along * s + right * c, along * c - right * s);
    }

    private static Rotation Rotation(int n)
    {
        double contact = StartS + n * 300;
        (double east, double north) = Place(0, n, n);
        return new()
        {
            Number = n,
            PickupTimeS = contact - 200,
            ApproachStartTimeS = contact - 90,
            StopTimeS = contact - 12,
            DeliveryTimeS = contact,
            ReleaseTimeS = contact + 2,
            ClearTimeS = contact + 5,
            DeliveryEnu = new(east, north, 0),
            Confidence = Confidence.Medium,
            Delivery = new()
            {
                StartHeightM = 120, StartDistanceM = 400, EntrySpeedMs = 10, OvershootM = n, HoverTimeS = 12, ApproachCourseDeg = CourseDeg,
                SwingShownM = new(1.5, 0.9, 2.1), MainFault = n == 2 ? Fault.Overshoot : Fault.None,
            },
        };
    }

    private static SwingTrace Swing(int n)
    {
        const int count = 500;
        double[] offset = [.. Enumerable.Range(0, count).Select(i => 1.5 * Math.Sin(0.57 * 0.2 * i))];
        double[] error = [.. Enumerable.Repeat(0.4, count)];
        return new()
        {
            StartTimeS = StartS + n * 300 - 99.8, StepS = 0.2, EastM = offset, NorthM = offset, EastRateMs = offset, NorthRateMs = offset,
            ShownEastM = offset, ShownNorthM = offset, ErrorM = error, EastErrorM = error, NorthErrorM = error, RateErrorMs = error,
            LengthM = LineM, FrequencyRadS = 0.57, FrequencyIdentified = false,
        };
    }

    private static Track Track(double[] time, double[] east, double[] north, double[] up)
    {
        double[] Rate(double[] p) => [.. p.Select((_, i) => i == 0 || i == p.Length - 1 ? 0 : (p[i + 1] - p[i - 1]) / (time[i + 1] - time[i - 1]))];
        double[] zero = new double[time.Length];
        float[] error = [.. Enumerable.Repeat(0.5f, time.Length)];
        return new()
        {
            Frame = new LocalFrame(46, 8, 500), TimeS = time, East = east, North = north, Up = up,
            VelocityEast = Rate(east), VelocityNorth = Rate(north), VelocityUp = Rate(up),
            AccelerationEast = zero, AccelerationNorth = zero, AccelerationUp = zero,
            HorizontalErrorM = error, HorizontalVelocityErrorMs = error, HorizontalAccelerationErrorMs2 = error,
            HeightErrorM = error, ClimbErrorMs = error, VerticalAccelerationErrorMs2 = error,
            StretchStarts = [0], HasHeight = true,
        };
    }
}
