using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Planning.Rechecking;

/// <summary>A refuelling that was noticed.</summary>
/// <param name="AtS">When, s since 1970 UTC.</param>
/// <param name="What">How it was noticed, a clause.</param>
public sealed record RefuelNoticed(double AtS, string What);

/// <summary>A check of the plan that is offered, since something moved past the operator's limit or fuel was taken on. It stands until it is taken or put aside.</summary>
/// <remarks>
/// Each of setting, temperature and wind is held against what it was at the last check taken or put aside, before the first against what the plan has for the time of the reading. Wind counts as a
/// vector: the speed of the difference. Limits: <see cref="PolicyInForce.ReplanQnhPa"/>, <see cref="PolicyInForce.ReplanTemperatureC"/>, <see cref="PolicyInForce.ReplanWindKt"/>; reached counts as passed.
/// </remarks>
/// <param name="Reasons">Why, a clause each, at least one.</param>
/// <param name="Shift">All that was read so far, the latest of each; without fuel and loads.</param>
public sealed record RecheckOffer(IReadOnlyList<string> Reasons, Shift Shift)
{
    private const double Slip = 1e-6;

    /// <summary>The check to be offered now; null for none.</summary>
    /// <param name="request">The job.</param>
    /// <param name="options">How it is planned.</param>
    /// <param name="readings">What was read during the day.</param>
    /// <param name="marks">Checks taken or put aside.</param>
    /// <param name="refuels">Refuellings noticed.</param>
    /// <param name="clock">From s since 1970 UTC to the sites' own clock.</param>
    public static RecheckOffer? Of(
        LiftRequest request, PlanOptions options, IReadOnlyList<AirReading> readings, IReadOnlyList<RecheckMark> marks, IReadOnlyList<RefuelNoticed> refuels, Func<double, DateTimeOffset> clock)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(marks);
        ArgumentNullException.ThrowIfNull(refuels);
        ArgumentNullException.ThrowIfNull(clock);
        double checkedS = marks.Select(m => m.AtS).DefaultIfEmpty(double.NegativeInfinity).Max();
        AirReading[] inOrder = [.. readings.OrderBy(r => r.AtS)];
        PolicyInForce policy = new(request);
        List<string> reasons = [.. Moved(inOrder, checkedS, r => r.QnhPa, Qnh), .. Moved(inOrder, checkedS, r => r.TemperatureC, Temperature), .. Moved(inOrder, checkedS, r => r.ReadWind(), Blowing)];
        reasons.AddRange(refuels.Where(r => r.AtS > checkedS).OrderBy(r => r.AtS).Select(r => r.What));
        return reasons.Count == 0 ? null : new(reasons, Latest(inOrder, clock));

        string? Qnh(double now, double? before, AirReading at)
        {
            double? was = before ?? Planned(at)?.QnhPa;
            return was is { } w && Math.Abs(now - w) >= policy.ReplanQnhPa.Value - Slip
                ? Text($"QNH {now / 100:0.#} hPa is {Math.Abs(now - w) / 100:0.#} hPa {(now > w ? "over" : "under")} the {Since(before)} {w / 100:0.#} hPa") : null;
        }

        string? Temperature(double now, double? before, AirReading at)
        {
            double? was = before ?? Planned(at)?.TemperatureC;
            return was is { } w && Math.Abs(now - w) >= policy.ReplanTemperatureC.Value - Slip
                ? Text($"temperature {now:0.#} °C is {Math.Abs(now - w):0.#} °C {(now > w ? "over" : "under")} the {Since(before)} {w:0.#} °C") : null;
        }

        string? Blowing(Wind now, Wind? before, AirReading at)
        {
            if ((before ?? Planned(at)?.Wind) is not { } was)
                return Planned(at) is null ? null : Text($"wind {now.FromDeg:000}/{now.Speed.Knots:0} kt was read, and the plan has none");
            double apart = Apart(now, was);
            return apart >= policy.ReplanWindKt.Value - Slip ? Text($"wind {now.FromDeg:000}/{now.Speed.Knots:0} kt is {apart:0} kt off the {Since(before)} {was.FromDeg:000}/{was.Speed.Knots:0} kt") : null;
        }

        WeatherAt? Planned(AirReading at) => Rechecker.Planned(request, options, new() { Minute = clock(at.AtS).TimeOfDay.TotalMinutes });
    }

    /// <summary>Speed of the difference of two winds, kt.</summary>
    private static double Apart(Wind a, Wind b)
    {
        Enu difference = a.VelocityEnu - b.VelocityEnu;
        return UnitsNet.Speed.FromMetersPerSecond(difference.Horizontal).Knots;
    }

    private static IEnumerable<string> Moved<T>(AirReading[] readings, double checkedS, Func<AirReading, T?> value, Func<T, T?, AirReading, string?> why)
        where T : struct
    {
        AirReading? now = readings.LastOrDefault(r => value(r) is not null), before = readings.LastOrDefault(r => r.AtS <= checkedS && value(r) is not null);
        if (now is not null && now.AtS > checkedS && why(value(now)!.Value, before is null ? null : value(before), now) is { } reason)
            yield return reason;
    }

    /// <summary>The latest of each that was read, as of the last reading; nothing when nothing was.</summary>
    /// <param name="readings">What was read during the day.</param>
    /// <param name="clock">From s since 1970 UTC to the sites' own clock.</param>
    public static Shift Latest(IEnumerable<AirReading> readings, Func<double, DateTimeOffset> clock)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(clock);
        AirReading[] inOrder = [.. readings.OrderBy(r => r.AtS)];
        return new()
        {
            QnhPa = inOrder.LastOrDefault(r => r.QnhPa is not null)?.QnhPa,
            TemperatureC = inOrder.LastOrDefault(r => r.TemperatureC is not null)?.TemperatureC,
            Wind = inOrder.LastOrDefault(r => r.ReadWind() is not null)?.ReadWind(),
            Minute = inOrder.Length > 0 ? Math.Floor(clock(inOrder[^1].AtS).TimeOfDay.TotalMinutes) : null,
        };
    }

    private static string Since(object? before) => before is null ? "planned" : "last checked";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
