using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Air;
using Stillhook.Planning.Checking;
using Stillhook.Planning.Ordering;
using UnitsNet;

namespace Stillhook.Planning.Rechecking;

/// <summary>Compares the plan as made with the plan for what was read since.</summary>
public static class Rechecker
{
    private const double LeastWindChangeKt = 1;

    /// <summary>What changed.</summary>
    /// <param name="request">The job.</param>
    /// <param name="options">How to plan.</param>
    /// <param name="shift">What was read.</param>
    public static Recheck Compare(LiftRequest request, PlanOptions options, Shift shift)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(shift);
        if (Refuse(request, shift) is { } refused)
            throw new ArgumentException(refused, nameof(shift));
        LiftPlan before = Planner.Plan(request, options);
        double minute = Minute(request, shift);
        Site? readAt = ReadingSite(request, shift);
        WeatherAt? planned = Planned(request, options, shift);
        WeatherShift weather = Carried(request, options, shift);
        LiftPlan after = before.IsPlanned ? Planner.Plan(Remaining(request, shift), options with { Weather = weather }) : before;

        List<Change> changes = [.. WindChanges(request, options, weather, minute)];
        if (readAt is not null && planned is not null)
            changes.AddRange([.. AltimeterChanges(request, readAt, planned, shift), .. TemperatureChanges(request, readAt, planned, shift)]);
        if (before.IsPlanned)
            changes.AddRange([.. OrderChanges(before, after), .. FuelChanges(after, shift)]);
        return new(before, after, [.. changes.OrderBy(c => c.Kind)], LoadChanges(before, after, shift), Gates(request, options, weather, minute), (shift.QnhPa ?? planned?.QnhPa ?? double.NaN) / 100);
    }

    /// <summary>The gates entered to be flown, over every delivery site of which weather and height are known.</summary>
    private static IReadOnlyList<GateReading> Gates(LiftRequest request, PlanOptions options, WeatherShift weather, double minute) =>
    [
        .. request.Sites.Where(s => s is { Use: SiteUse.Delivery, Weather: not null } and not { Elevation: null, Recon: null })
            .SelectMany(s => GateReadings.At(MarksInForce.ToFly(request), s, ContactLengthM(request), options.WeatherOf(request, s, weather).At(minute).TemperatureC)),
    ];

    /// <summary>Why a re-check can't be made: a site or load that the job doesn't have; null when it can.</summary>
    public static string? Refuse(LiftRequest request, Shift shift)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(shift);
        if (shift.ReadAt is { } name && !request.Sites.Any(s => IsNamed(s, name)))
            return $"there is no site '{name}' in the job; it has {string.Join(", ", request.Sites.Select(s => $"'{s.Name}'"))}.";
        if (shift.ReadAt is { } at && request.Sites.First(s => IsNamed(s, at)) is { Weather: null } or { Elevation: null })
            return $"site '{shift.ReadAt}' has no weather or no elevation in the job: read the temperature at one that has.";
        string? unknown = shift.Delivered.FirstOrDefault(n => request.Loads.All(l => l.Number != n));
        if (unknown is not null)
            return $"there is no load '{unknown}' in the job.";
        return request.Loads.Count > 0 && shift.Delivered.Distinct().Count() == request.Loads.Count ? "every load is delivered: there is nothing left to plan." : null;
    }

    /// <summary>What was read, as it moves the rest of the day. Only the unfavourable way is carried on: a colder or higher reading now says nothing of the afternoon.</summary>
    public static WeatherShift Carried(LiftRequest request, PlanOptions options, Shift shift)
    {
        ArgumentNullException.ThrowIfNull(shift);
        WeatherAt? planned = Planned(request, options, shift);
        return new(Math.Max(0, shift.TemperatureC - planned?.TemperatureC ?? 0), Math.Min(0, shift.QnhPa - planned?.QnhPa ?? 0), shift.Wind);
    }

    /// <summary>What the plan has for the place and time of the reading; null without a site of which weather and height are known.</summary>
    public static WeatherAt? Planned(LiftRequest request, PlanOptions options, Shift shift)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(shift);
        return ReadingSite(request, shift) is { } at ? options.WeatherOf(request, at).At(Minute(request, shift)) : null;
    }

    private static double Minute(LiftRequest request, Shift shift) => shift.Minute ?? request.Day?.Start?.ToTimeSpan().TotalMinutes ?? 12 * 60;

    private static bool IsNamed(Site site, string name) => string.Equals(site.Name, name, StringComparison.OrdinalIgnoreCase);

    private static Site? ReadingSite(LiftRequest request, Shift shift) => shift.ReadAt is { } name
        ? request.Sites.First(s => IsNamed(s, name))
        : request.Sites.OrderBy(s => s.Use).FirstOrDefault(s => s is { Weather: not null, Elevation: not null });

    /// <summary>The job with what is left of it: loads delivered are gone, the start is now, the fuel is what is aboard.</summary>
    public static LiftRequest Remaining(LiftRequest request, Shift shift)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(shift);
        HashSet<string> gone = [.. shift.Delivered];
        DayPlan? day = request.Day;
        if (shift.Minute is { } minute)
            day = (day ?? new()) with { Start = TimeOnly.FromTimeSpan(TimeSpan.FromMinutes(minute)) };
        if (shift.FuelKg is { } fuel)
            day = (day ?? new()) with { StartFuel = Mass.FromKilograms(fuel) };
        return request with
        {
            Day = day,
            Loads = [.. request.Loads.Where(l => !gone.Contains(l.Number)).Select(l => l with { After = [.. l.After.Where(a => !gone.Contains(a))] })],
        };
    }

    /// <summary>Belly hook to the load's underside, m: line, rigging and the lowest load of the list, which gives the highest readings.</summary>
    private static double ContactLengthM(LiftRequest request)
    {
        double lowest = request.Loads.Select(l => l.Height?.Meters ?? 0).DefaultIfEmpty().Min();
        return (request.Line?.Length?.Meters ?? 0) + (request.Line?.Rigging?.Meters ?? 0) + lowest;
    }

    private static IEnumerable<Change> AltimeterChanges(LiftRequest request, Site at, WeatherAt planned, Shift shift)
    {
        if (shift.QnhPa is not { } now || Math.Abs(now - planned.QnhPa) < 5)
            yield break;
        double highFt = Length.FromMeters(Altimeter.ReadsHighM(planned.QnhPa, now)).Feet;
        yield return new(ChangeKind.Do, string.Create(CultureInfo.InvariantCulture,
            $"QNH {planned.QnhPa / 100:0.#} -> {now / 100:0.#} hPa: altimeter now reads about {Math.Round(Math.Abs(highFt) / 10) * 10:0} ft {(highFt > 0 ? "high" : "low")} if not reset."));
        double shiftM = Altimeter.PressureAltitudeM(at.Elevation!.Value.Meters, now) - Altimeter.PressureAltitudeM(at.Elevation.Value.Meters, planned.QnhPa);
        bool over = Math.Abs(shiftM) >= new PolicyInForce(request).ReplanAltitudeM.Value;
        yield return new(over ? ChangeKind.Stop : ChangeKind.Know, string.Create(CultureInfo.InvariantCulture,
            $"Pressure altitude at every site {Length.FromMeters(Math.Abs(shiftM)).Feet:0} ft {(shiftM > 0 ? "higher" : "lower")}.{(over ? " New load calculation and re-brief." : "")}"));
    }

    private static IEnumerable<Change> TemperatureChanges(LiftRequest request, Site at, WeatherAt planned, Shift shift)
    {
        if (shift.TemperatureC is not { } now || Math.Abs(now - planned.TemperatureC) < 0.05)
            yield break;
        double warmer = now - planned.TemperatureC;
        double trigger = new PolicyInForce(request).ReplanTemperatureC.Value;
        bool over = Math.Abs(warmer) >= trigger;
        yield return new(over ? ChangeKind.Stop : ChangeKind.Know, string.Create(CultureInfo.InvariantCulture,
            $"{now:0.#} °C at {at.Name}, {Math.Abs(warmer):0.#} °C {(warmer > 0 ? "warmer" : "colder")} than planned; {(warmer > 0 ? "taken for every site and the rest of the day" : "not counted: the rest of the day stays as planned")}.{(over ? $" That is {trigger:0.#} °C or more: new load calculation and re-brief." : "")}"));
    }

    private static IEnumerable<Change> WindChanges(LiftRequest request, PlanOptions options, WeatherShift weather, double minute)
    {
        if (weather.Wind is not { } wind)
            yield break;
        yield return new(ChangeKind.Know, string.Create(CultureInfo.InvariantCulture, $"Wind now {wind.FromDeg:000}/{wind.Speed.Knots:0} kt at every site."));
        foreach ((Site pickUp, Site delivery) in DayConditions.Ways(request))
        {
            double course = RotationLegs.CourseDeg(pickUp, delivery), tail = wind.TailKt(course), cross = Math.Abs(wind.TailKt(course + 90));
            double? before = delivery.Weather is not null && options.WeatherOf(request, delivery).At(minute).Wind is { } planned ? planned.TailKt(course) : null;
            if (tail <= 0)
                continue;
            string was = before is { } b ? $", before {(b > 0 ? $"downwind by {b:0}" : $"into wind by {-b:0}")} kt" : "";
            string text = string.Create(CultureInfo.InvariantCulture, $"The straight way in from {pickUp.Name} to {delivery.Name} (course {course:000}) is downwind by {Math.Ceiling(tail):0} kt{was}; across it {cross:0} kt.");
            bool worse = !(tail < before + LeastWindChangeKt);
            yield return worse
                ? new(ChangeKind.Stop, text + " Re-brief the direction of the way in. Expect more power and a faster sink. Plan a reject.")
                : new(ChangeKind.Know, text + " As planned.");
        }
    }

    private static IEnumerable<Change> OrderChanges(LiftPlan before, LiftPlan after)
    {
        if (!after.IsPlanned)
        {
            yield return new(ChangeKind.Stop, "Nothing can be planned for what was read: " + string.Join(" ", after.Findings.Select(f => f.What)));
            yield break;
        }
        HashSet<string> lifted = [.. before.Loads.Where(l => l.Verdict == LoadVerdict.Lifts).Select(l => l.OnHook.Load.Number)];
        foreach (var same in after.Loads.Where(l => l.Verdict != LoadVerdict.Lifts).GroupBy(l => (Lifted: lifted.Contains(l.OnHook.Load.Number), l.Why)))
            yield return new(ChangeKind.Stop, $"Load {string.Join(", ", same.Select(l => l.OnHook.Load.Number))} {(same.Key.Lifted ? "no longer lifts" : "still doesn't lift")}: {same.Key.Why}");
        if (before.Order is { } b && after.Order is { } a)
        {
            if (RefuelText(a.Timeline) is var now && RefuelText(b.Timeline) is var then && now != then)
                yield return new(ChangeKind.Do, $"Refuel {now} (was {then}).");
            yield return new(ChangeKind.Know, string.Create(CultureInfo.InvariantCulture, $"Back at base {ClockText.Of(a.Timeline.FinishMinute)} (was {ClockText.Of(b.Timeline.FinishMinute)})."));
        }
    }

    private static IEnumerable<Change> FuelChanges(LiftPlan after, Shift shift)
    {
        if (shift.FuelKg is null && after.Order is { } order)
            yield return new(ChangeKind.Know, string.Create(CultureInfo.InvariantCulture,
                $"Fuel aboard was not read: {order.Timeline.Steps[0].FuelFromKg:0} kg at the start, {(after.Request.Day?.StartFuel is null ? "chosen by the plan" : "as entered")}."));
    }

    private static string RefuelText(OrderTimeline timeline)
    {
        List<string> after = [];
        string last = "";
        foreach (OrderStep step in timeline.Steps)
        {
            if (step is LiftStep lift)
                last = lift.Number;
            else if (step is RefuelStep)
                after.Add(last.Length == 0 ? "before the first load" : $"after load {last}");
        }
        return after.Count == 0 ? "not needed" : string.Join(", ", after);
    }

    private static IReadOnlyList<LoadChange> LoadChanges(LiftPlan before, LiftPlan after, Shift shift) =>
    [
        .. before.Loads.Where(l => !shift.Delivered.Contains(l.OnHook.Load.Number)).Select(b =>
        {
            LoadPlan? a = after.Loads.FirstOrDefault(x => x.OnHook.Load.Number == b.OnHook.Load.Number);
            return new LoadChange(b.OnHook.Load.Number, b.OnHook.NeedKg, b.Lift is null ? null : b.Payload?.Governing.AllowedKg, a?.Lift is null ? null : a.Payload?.Governing.AllowedKg, b.Lift?.Position, a?.Lift?.Position);
        }),
    ];
}
