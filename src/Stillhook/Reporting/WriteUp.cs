using System.Globalization;

namespace Stillhook.Reporting;

/// <summary>An exceedance to be written up: value, time, duration. Whether the aircraft may fly is not said here.</summary>
/// <param name="Exceedance">What was recorded.</param>
/// <param name="Flight">Flight it is from.</param>
/// <param name="Lift">Lift that was under way; null between lifts.</param>
/// <param name="Facts">Value, limit, time and duration in a sentence.</param>
public sealed record WriteUp(Exceedance Exceedance, KeptFlight Flight, KeptLift? Lift, string Facts)
{
    /// <summary>What to do about every one of them.</summary>
    public const string Words = "Write up; maintenance decides.";

    /// <summary>All of a day in order of time.</summary>
    public static IReadOnlyList<WriteUp> Of(DayWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        IReadOnlyList<KeptLift> lifts = CountedLift.Of(work.Lifts);
        return [.. work.Flights.SelectMany(f => f.Exceedances.Select(e => new WriteUp(e, f, lifts.FirstOrDefault(l => e.AtS >= l.PickUpTimeS && e.AtS <= (l.ClearTimeS ?? l.DeliveryTimeS)), Sentence(work, e)))).OrderBy(w => w.Exceedance.AtS)];
    }

    internal static string Sentence(DayWork work, Exceedance e)
    {
        (string what, string unit, string format) = e.Kind switch
        {
            LimitKind.Torque => ("Torque", "%", "0.#"),
            LimitKind.HookLoad => ("Load on the cargo hook", "kg", "0"),
            _ => ("Load on the weakest rigging part", "kg", "0"),
        };
        string Number(double v) => v.ToString(format, CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"{what} {Number(e.Peak)} {unit} at {DayText.Clock(work, e.AtS)}, limit entered {Number(e.Limit)} {unit}, beyond it for {e.DurationS:0.0} s.");
    }
}
