namespace Stillhook.Reporting;

/// <summary>Which lifts of a day count, and when each one was.</summary>
internal static class CountedLift
{
    /// <summary>Lifts that count, in order of time: all but those struck out; those without a time come last.</summary>
    public static IReadOnlyList<KeptLift> Of(IEnumerable<KeptLift> lifts) =>
        [.. lifts.Where(l => !l.StruckOut).OrderBy(l => TimeS(l) ?? double.PositiveInfinity).ThenBy(l => l.FlightId).ThenBy(l => l.Number)];

    /// <summary>Time of a lift, s since 1970 UTC: its delivery, else release, else pick-up; null when nobody knows one.</summary>
    public static double? TimeS(KeptLift lift) => Finite(lift.DeliveryTimeS) ?? Finite(lift.ReleaseTimeS) ?? Finite(lift.PickUpTimeS);

    private static double? Finite(double? timeS) => timeS is { } t && double.IsFinite(t) ? t : null;
}
