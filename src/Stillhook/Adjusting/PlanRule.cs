using Stillhook.Debriefing;

namespace Stillhook.Adjusting;

/// <summary>Advice against a plan, delivery by delivery: first fly what was briefed, then learn the pilot's offset and change the brief.</summary>
/// <remarks>
/// Deliveries flown beside the briefed knobs, on one side in two of the last three, are asked back to the brief. Only when the brief is
/// flown is an expected miss over half a tolerance, with two of the last three over half a tolerance on its side, turned into a change of the brief.
/// Past deliveries are carried over to the present brief by the model's slopes before their sides are compared. A knob within half its tolerance of the brief counts as flown to the brief:
/// the pilot closes such differences by eye, and the recorder's own error is not to be learnt. A delivery flown further beside the brief than
/// one load may move it was another approach: the slopes don't reach there, so its end is not learnt from and no surprise is made of it.
/// </remarks>
internal sealed class PlanRule
{
    private const double HalfTolerance = 0.5;

    private readonly AdjustSettings _settings;
    private readonly ApproachTargets _plan;
    private readonly SafeSide _safe;
    private readonly double[,] _slopes;
    private readonly OffsetEstimate _estimate;
    private readonly StepChoice _choice;
    private readonly int[] _brief = new int[4];
    private readonly List<double[]> _flown = [], _measured = [], _beside = [], _outcomes = [];

    public PlanRule(AdjustSettings settings, ApproachTargets plan, SafeSide safe)
    {
        (_settings, _plan, _safe) = (settings, plan, safe);
        _slopes = KinematicApproach.Sensitivities(plan.Knobs);
        _estimate = new(settings, _slopes);
        _choice = new(settings, _slopes);
    }

    /// <summary>Two surprises in a row on the same side.</summary>
    public bool ConditionsMoved { get; private set; }

    /// <summary>Change that would have been the best but for a limit, and the limit.</summary>
    public List<(Knob Knob, double Change, string Limit)> Stopped { get; } = [];

    /// <summary>Takes in one delivery and gives the changes it leads to.</summary>
    public IReadOnlyList<Advice> Take(Delivery delivery)
    {
        Stopped.Clear();
        double[] flown = Flown(delivery);
        _measured.Add(flown);
        _beside.Add([.. flown.Select((x, k) => x - _brief[k])]);
        _flown.Add([.. flown.Select((x, k) => Math.Abs(x - _brief[k]) < Half(k) ? _brief[k] : x)]);
        bool another = Enumerable.Range(0, 3).Any(k => Math.Abs(_beside[^1][k]) > TradeStep.Most[k] + Half(k));
        _outcomes.Add(another ? [double.NaN, double.NaN, double.NaN] : Outcome(delivery));
        if (!another)
            _estimate.Learn(_flown[^1], _outcomes[^1]);
        ConditionsMoved = !another && _estimate.ConditionsMoved;
        if (ConditionsMoved || _flown.Count < 2)
            return [];
        IReadOnlyList<Advice> back = BackToBrief();
        return back.Count > 0 || Stopped.Count > 0 ? back : ChangeBrief();
    }

    /// <summary>Notes the changes of the brief that were really said, so that the next delivery is held against them.</summary>
    public void Spoken(IEnumerable<Advice> advice)
    {
        foreach (Advice a in advice)
            if (Array.IndexOf(TradeStep.Knobs, a.Knob) is >= 0 and var k)
                _brief[k] += (int)Math.Round(a.Change / TradeStep.Sizes[k]);
    }

    /// <summary>Whether the last advice changed the brief, or only asked back to it.</summary>
    public bool ChangesBrief { get; private set; }

    private IReadOnlyList<Advice> BackToBrief()
    {
        ChangesBrief = false;
        var advice = new List<Advice>();
        ApproachKnobs from = At(MeanMeasured());
        for (int k = 0; k < 3; k++)
        {
            double mean = _beside.TakeLast(3).Average(b => b[k]), half = Half(k);
            int sameSide = _beside.TakeLast(3).Count(b => b[k] * mean > 0 && Math.Abs(b[k]) > half);
            int steps = FaultAdvice.Steps(-mean, 1, TradeStep.Most[k]);
            if (sameSide < 2 || Math.Abs(mean) <= half || steps == 0)
                continue;
            var move = new int[4];
            move[k] = steps;
            if (_safe.StoppedBy(from, from.Plus(move)) is { } limit)
                Stopped.Add((TradeStep.Knobs[k], steps * TradeStep.Sizes[k], limit));
            else
                advice.Add(new(TradeStep.Knobs[k], steps * TradeStep.Sizes[k], Math.Abs(mean), (Evidence)k));
        }
        return advice;
    }

    // Half a tolerance in steps: 20 ft of height, 25 m, 2.5 kt.
    private static double Half(int knob) => knob == 0 ? 0.95 : 0.5;

    private IReadOnlyList<Advice> ChangeBrief()
    {
        ChangesBrief = true;
        double[] brief = [.. _brief.Select(s => (double)s)];
        double[] miss = [.. Enumerable.Range(0, 3).Select(i => _estimate.Expected(i, brief) / _settings.Tolerance[i])];
        int worst = Worst(brief, miss);
        if (worst < 0)
            return [];
        ApproachKnobs from = At(brief);
        int[] wanted = _choice.Best(miss, _ => true);
        int[] move = wanted;
        if (_safe.StoppedBy(from, from.Plus(wanted)) is { } limit)
        {
            NameStopped(from, wanted, limit);
            move = _choice.Best(miss, m => _safe.StoppedBy(from, from.Plus(m)) is null);
        }
        return [.. Enumerable.Range(0, 4).Where(k => move[k] != 0).Select(k => AsAdvice(miss, move, k, worst))];
    }

    private void NameStopped(ApproachKnobs from, int[] wanted, string limit)
    {
        for (int k = 0; k < 4; k++)
        {
            var alone = new int[4];
            alone[k] = wanted[k];
            if (wanted[k] != 0 && (_safe.StoppedBy(from, from.Plus(alone)) ?? (wanted.Count(s => s != 0) == 1 ? limit : null)) is { } why)
                Stopped.Add((TradeStep.Knobs[k], wanted[k] * TradeStep.Sizes[k], why));
        }
        if (Stopped.Count == 0)
            Stopped.Add((TradeStep.Knobs[Array.FindIndex(wanted, s => s != 0)], 0, limit));
    }

    private Advice AsAdvice(double[] miss, int[] move, int knob, int worst)
    {
        int[] without = [.. move];
        without[knob] = 0;
        double gain = _choice.Cost(miss, without) - _choice.Cost(miss, move);
        return new(TradeStep.Knobs[knob], move[knob] * TradeStep.Sizes[knob], Math.Sqrt(Math.Max(gain, 0)), Evidence.Stop + worst);
    }

    // The outcome expected furthest off, of those that two of the last three deliveries bear out; -1 when none is.
    private int Worst(double[] brief, double[] miss)
    {
        int worst = -1;
        double most = HalfTolerance;
        for (int i = 0; i < 3; i++)
            if (Math.Abs(miss[i]) > most && SameSide(i, brief, miss[i]) >= 2)
                (worst, most) = (i, Math.Abs(miss[i]));
        return worst;
    }

    private int SameSide(int outcome, double[] brief, double miss)
    {
        int count = 0;
        for (int n = Math.Max(0, _flown.Count - 3); n < _flown.Count; n++)
        {
            double now = _outcomes[n][outcome];
            for (int k = 0; k < 4; k++)
                now += _slopes[outcome, k] * (brief[k] - _flown[n][k]);
            if (now * miss > 0 && Math.Abs(now) > HalfTolerance * _settings.Tolerance[outcome])
                count++;
        }
        return count;
    }

    // Measured where measured; else as briefed. What the record can't show is the power-in height.
    private double[] Flown(Delivery d)
    {
        GatePassage? start = _plan.Gates.Count > 0 ? Passage(d, _plan.Gates[0].DistanceM) : null;
        double? height = start?.HeightAboveTargetM ?? d.StartHeightM, speed = start?.GroundSpeedMs ?? d.EntrySpeedMs;
        return [Off(height, 0), Off(d.StartDistanceM, 1), Off(speed, 2), _brief[3]];
        double Off(double? measured, int k) => measured is { } m && double.IsFinite(m) ? (m - _plan.Knobs[k]) / TradeStep.Sizes[k] : _brief[k];
    }

    private double[] Outcome(Delivery d)
    {
        double? arrival = null;
        if (_plan.Gates.Count > 1 && Passage(d, _plan.Gates[^1].DistanceM) is { } last)
            arrival = last.HeightAboveTargetM - _plan.Gates[^1].HeightAboveTargetM;
        return [Miss.Stop(d) ?? double.NaN, arrival ?? double.NaN, d.PeakDecelMs2 - _plan.PeakDecelMs2 ?? double.NaN];
    }

    private static GatePassage? Passage(Delivery d, double distanceM) => d.Gates.FirstOrDefault(g => Math.Abs(g.DistanceM - distanceM) < 1);

    private double[] MeanMeasured() => [.. Enumerable.Range(0, 4).Select(k => _measured.TakeLast(3).Average(f => f[k]))];

    private ApproachKnobs At(double[] steps) => new(
        _plan.Knobs.StartHeightM + steps[0] * TradeStep.HeightM,
        _plan.Knobs.StartDistanceM + steps[1] * TradeStep.DistanceM,
        _plan.Knobs.EntrySpeedMs + steps[2] * TradeStep.SpeedMs,
        _plan.Knobs.PowerInHeightM + steps[3] * TradeStep.HeightM);
}

/// <summary>Misses as the advice counts them.</summary>
internal static class Miss
{
    /// <summary>Where the approach stopped along the course, m, past the target positive; the overshoot when it went further than it stopped.</summary>
    public static double? Stop(Delivery d) => (d.StopShortM, d.OvershootM) switch
    {
        ({ } s, { } o) when o > 3 && o > -s => o,
        ({ } s, _) => -s,
        (null, { } o) => o,
        _ => null,
    };
}
