using Stillhook.Debriefing;

namespace Stillhook.Adjusting;

/// <summary>What to change on the next approach: nothing, or one or two things.</summary>
public static class Adjuster
{
    private const int MostChanges = 2;

    /// <summary>The next approach from the rotations of a day; rotations without a measured delivery are left out.</summary>
    public static NextApproach Next(IReadOnlyList<Rotation> rotations, AdjustLimits limits, AdjustSettings settings) =>
        Next([.. rotations.Select(r => r.Delivery).OfType<Delivery>()], limits, settings);

    /// <summary>The next approach from deliveries in order of time. A pure function: the same input gives the same words.</summary>
    /// <param name="deliveries">All deliveries flown to this plan and site, oldest first.</param>
    /// <param name="limits">What no advice may pass.</param>
    /// <param name="settings">The plan, tolerances and names.</param>
    public static NextApproach Next(IReadOnlyList<Delivery> deliveries, AdjustLimits limits, AdjustSettings settings)
    {
        ArgumentNullException.ThrowIfNull(deliveries);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(settings);
        if (deliveries.Count == 0)
            return new("Same again.", [], [], "No delivery measured yet.", false);
        return new Day(limits, settings, deliveries).Next();
    }

    // The day is replayed from its first load, so that what was advised before is known without being kept anywhere.
    private sealed class Day
    {
        private readonly AdjustLimits _limits;
        private readonly AdjustSettings _settings;
        private readonly IReadOnlyList<Delivery> _all;
        private readonly ApproachKnobs _reference;
        private readonly SafeSide _safe;
        private readonly PlanRule? _plan;
        private readonly List<(Knob Knob, double Change, string Limit)> _stopped = [];

        public Day(AdjustLimits limits, AdjustSettings settings, IReadOnlyList<Delivery> all)
        {
            (_limits, _settings, _all) = (limits, settings, all);
            _reference = settings.Plan?.Knobs ?? OwnMedians(all);
            _safe = new(limits, _reference);
            _plan = settings.Plan is { } plan ? new(settings, plan, _safe) : null;
        }

        public NextApproach Next()
        {
            List<Advice> advice = [];
            int first = _plan is null ? _all.Count - 1 : 0;
            for (int n = first; n < _all.Count; n++)
                advice = After(n);
            return NextApproachText.Compose(_all, advice, _stopped, _plan?.ConditionsMoved ?? false, _limits, _settings, _reference);
        }

        private List<Advice> After(int n)
        {
            _stopped.Clear();
            IReadOnlyList<Advice> learnt = _plan?.Take(_all[n]) ?? [];
            if (_plan is not null)
                _stopped.AddRange(_plan.Stopped);
            if (_plan is { ConditionsMoved: true })
                return [];
            Delivery[] sofar = [.. _all.Take(n + 1)];
            var faults = FaultAdvice.From(sofar, _settings).Where(a => Permitted(a, sofar));
            List<Advice> chosen = Choose([.. HardGates(_all[n]), .. learnt, .. faults]);
            if (_settings.AdviceWasSpoken)
                _plan?.Spoken(chosen.Where(a => !a.HardGate && (_plan.ChangesBrief || !learnt.Contains(a))));
            return chosen;
        }

        private static List<Advice> Choose(IReadOnlyList<Advice> candidates)
        {
            var chosen = new List<Advice>();
            foreach (Advice a in candidates.OrderByDescending(a => a.HardGate).ThenByDescending(a => a.Effect).ThenBy(a => a.Knob))
                if (chosen.Count < MostChanges && !chosen.Any(c => SameThing(c.Knob, a.Knob)))
                    chosen.Add(a);
            return chosen;
        }

        // Starting down sooner and slowing down sooner are one thing to the person who does it.
        private static bool SameThing(Knob a, Knob b) =>
            a == b || (a is Knob.StartDistance or Knob.SlowDownStart && b is Knob.StartDistance or Knob.SlowDownStart);

        private IEnumerable<Advice> HardGates(Delivery last)
        {
            if (last.SecondsOverPeople > 0)
                yield return new(Knob.LineUp, 0, 100, Evidence.People, HardGate: true);
            double sink = last.Gates.Select(g => g.SinkMs).DefaultIfEmpty(0).Max();
            if (sink > _limits.SinkGateMs)
                yield return new(Knob.Sink, -Math.Ceiling((sink - _limits.SinkGateMs.Value) / TradeStep.SinkMs) * TradeStep.SinkMs, 10, Evidence.GateSink, HardGate: true);
            if (last.EntrySpeedMs > _limits.ProvenSpeedMs + 0.5)
                yield return new(Knob.EntrySpeed, -TradeStep.SpeedMs, 9, Evidence.EntrySpeed, HardGate: true);
        }

        private bool Permitted(Advice a, Delivery[] sofar)
        {
            string? limit = _safe.StoppedBy(a.Knob, a.Change);
            if (limit is null && Array.IndexOf(TradeStep.Knobs, a.Knob) is >= 0 and var k)
            {
                var move = new int[4];
                move[k] = (int)Math.Round(a.Change / TradeStep.Sizes[k]);
                ApproachKnobs from = FlownLately(sofar);
                limit = _safe.StoppedBy(from, from.Plus(move));
            }
            if (limit is not null)
                _stopped.Add((a.Knob, a.Change, limit));
            return limit is null;
        }

        private ApproachKnobs FlownLately(Delivery[] sofar)
        {
            Delivery[] last = [.. sofar.TakeLast(3)];
            return new(
                FaultAdvice.Own(last, d => d.StartHeightM) ?? _reference.StartHeightM,
                FaultAdvice.Own(last, d => d.StartDistanceM) ?? _reference.StartDistanceM,
                FaultAdvice.Own(last, d => d.EntrySpeedMs) ?? _reference.EntrySpeedMs,
                _reference.PowerInHeightM);
        }

        // Where nothing was measured a value stands that no advice can lean on: changes of it are only ever made by faults that measured it.
        private static ApproachKnobs OwnMedians(IReadOnlyList<Delivery> all) => new(
            FaultAdvice.Own(all, d => d.StartHeightM, Fault.HighStart, Fault.LowStart) ?? 100,
            FaultAdvice.Own(all, d => d.StartDistanceM) ?? 500,
            FaultAdvice.Own(all, d => d.EntrySpeedMs, Fault.FastEntry) ?? 20,
            0);
    }
}
