using System.Globalization;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;

namespace Stillhook.App.Serving;

/// <summary>A moment of the flight with what plan and day add to it.</summary>
public sealed record LiveShown
{
    // A gauge reading that is this much over what was reckoned with means that fuel was taken on. Common practice, no source.
    private const double FuelOverKg = 10;

    /// <summary>The flight at this moment.</summary>
    public required LiveState State { get; init; }

    /// <summary>What is kept of the day.</summary>
    public required DayWork Day { get; init; }

    /// <summary>Deliveries with their loads, and what comes next.</summary>
    public required LiveLoads Loads { get; init; }

    /// <summary>Numbers of loads delivered on flights before this one.</summary>
    public required IReadOnlyList<string> Before { get; init; }

    /// <summary>Moments marked.</summary>
    public required IReadOnlyList<double> Marks { get; init; }

    /// <summary>The pilot's flying against the break rule, by the rule of the Day.</summary>
    public required BreakClock Break { get; init; }

    /// <summary>Times on the ground as long as a break that nobody has marked as one; the last may still go on.</summary>
    public required IReadOnlyList<Stretch> MayBeBreaks { get; init; }

    /// <summary>Fuel aboard now.</summary>
    public required FuelNow Fuel { get; init; }

    /// <summary>What the loads still to be flown may weigh with it, the next one first; null when it is not known.</summary>
    public PayloadNow? Limits { get; init; }

    /// <summary>A check of the plan that is offered; null for none.</summary>
    public RecheckOffer? Offer { get; init; }

    /// <summary>The next load with its limit now; null when there is none.</summary>
    public LoadNow? NextLimit => Loads.NextLoad is { } next ? Limits?.Loads.FirstOrDefault(l => l.Load.OnHook.Load.Number == next.OnHook.Load.Number) : null;

    /// <summary>A moment of a flight.</summary>
    public static LiveShown Of(LiveDesk live)
    {
        ArgumentNullException.ThrowIfNull(live);
        LiveState state = live.Flight.State();
        DayWork day = live.Work();
        LiftPlan? plan = live.Flight.Setup.Plan;
        LiftRequest? request = live.Flight.Setup.Job?.File.Request;
        string[] before = [.. DeliveredBefore(day, state)];
        LiveLoads loads = LiveLoads.Of(state.Deliveries, plan, day.Tally, before);
        string? pilot = MeasuredFlight.OnlyPilot(request);
        KeptFlight[] flights = [.. day.Flights.Where(f => f.Pilot == pilot), new(0, live.Flight.Setup.Name, state.Recorded, state.Airborne, [], pilot, request?.Aircraft?.Name)];
        PolicyInForce policy = new(request ?? new());
        BreakClock clock = BreakClock.Of(flights, day.TimeMarks, policy.BreakAfterMinutes.Value * 60, policy.BreakMinutes.Value * 60)[0];
        FlownTime flown = FlownTime.Of([.. day.Flights, flights[^1]]);
        Stretch[] stops = request is null ? [] : [.. FuelNow.StopsForFuel(request, state.Stands).Where(s => flown.BeforeS(s.FromS) > 0)];
        FuelNow FuelAt(double nowS, IReadOnlyList<FuelEntry> entries) => FuelNow.Of(plan, entries, flown, stops, nowS, live.Clock.Minute);
        FuelNow fuel = FuelAt(state.NowS, day.Fuel);
        return new()
        {
            State = state,
            Day = day,
            Before = before,
            Loads = loads,
            Marks = [.. day.Events.Where(e => e.Kind == EventKind.TimeMark).Select(e => e.AtS).Order()],
            Break = clock,
            MayBeBreaks = [.. state.Stands.Select(s => s.When).Where(s => s.LengthS >= clock.LengthS && flown.BeforeS(s.FromS) > 0 && !clock.Breaks.Any(b => b.FromS < s.ToS && b.ToS > s.FromS))],
            Fuel = fuel,
            Limits = plan is not null && fuel.Figure is { } figure ? Limit(live, plan, figure, loads, day, state.NowS) : null,
            Offer = request is null ? null : RecheckOffer.Of(request, live.Flight.Setup.Job!.PlanOptions(), day.Readings, day.Rechecks, Refuels(day, stops, live, FuelAt), live.Clock.At),
        };
    }

    /// <summary>Loads delivered on flights before this one. What is kept of this flight itself, taken in while it goes on, is known from it already.</summary>
    private static IEnumerable<string> DeliveredBefore(DayWork day, LiveState state) => day.Lifts
        .Where(l => !l.StruckOut && !((l.DeliveryTimeS ?? l.PickUpTimeS) >= state.Recorded.FromS)).Select(l => l.LoadNumber).OfType<string>();

    private static PayloadNow Limit(LiveDesk live, LiftPlan plan, Figure fuel, LiveLoads loads, DayWork day, double nowS)
    {
        LiftRequest request = plan.Request;
        PlanOptions options = live.Flight.Setup.Job!.PlanOptions();
        Shift read = RecheckOffer.Latest(day.Readings, live.Clock.At);
        string[] left = [.. loads.Left.OrderBy(n => n != loads.NextLift?.Number)];
        return PayloadNow.Of(plan, options with { Weather = Rechecker.Carried(request, options, read) }, fuel, live.Clock.At(nowS).TimeOfDay.TotalMinutes, left);
    }

    private static IReadOnlyList<RefuelNoticed> Refuels(DayWork day, Stretch[] stops, LiveDesk live, Func<double, IReadOnlyList<FuelEntry>, FuelNow> fuelAt)
    {
        List<RefuelNoticed> found = [];
        foreach (FuelEntry entry in day.Fuel)
        {
            string at = live.Clock.Minute(entry.AtS);
            if (entry.TakenOnKg is { } on)
                found.Add(new(entry.AtS, string.Create(CultureInfo.InvariantCulture, $"{on:0} kg of fuel taken on at {at}")));
            else if (entry.OnBoardKg is { } aboard)
            {
                double? reckoned = fuelAt(entry.AtS, [.. day.Fuel.Where(e => e.AtS < entry.AtS)]).Kg;
                if (aboard > reckoned + FuelOverKg)
                    found.Add(new(entry.AtS, string.Create(CultureInfo.InvariantCulture, $"{aboard:0} kg of fuel entered at {at}, {aboard - reckoned:0} kg over what was reckoned with")));
                else if (reckoned is null && stops.Any(s => s.FromS < entry.AtS))
                    found.Add(new(entry.AtS, string.Create(CultureInfo.InvariantCulture, $"{aboard:0} kg of fuel entered at {at}")));
            }
        }
        found.AddRange(stops.Select(s => new RefuelNoticed(s.FromS, $"the aircraft stood at the fuel site at {live.Clock.Minute(s.FromS)}")));
        return found;
    }
}
