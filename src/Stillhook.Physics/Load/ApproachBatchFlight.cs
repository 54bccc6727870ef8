using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Stillhook.Physics.Earth;
using V8 = System.Runtime.Intrinsics.Vector512<double>;

namespace Stillhook.Physics.Load;

/// <summary>Eight flights of the approach side by side, from entry to the last step.</summary>
internal sealed class EightFlights(BatchTrack track, BatchDraws draws)
{
    private readonly WanderFilter slowFilter = WanderFilter.Slow(track.StepS), fastFilter = WanderFilter.Fast(track.StepS);
    private readonly double keepGust = WanderFilter.KeepOf(EightAir.CorrelationS, track.StepS);
    private readonly AlignedState memory = new();
    private readonly V8[] modeDraws = new V8[track.ModeCount];

    /// <summary>Flies those from one number on and writes what comes out.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Fly(int first, BatchOutcome outcome)
    {
        for (int m = 0; m < modeDraws.Length; m++)
            modeDraws[m] = Eights.Load(draws.Modes[m], first);
        ref EightState s = ref memory.State;
        Begin(ref s, first);
        int gate = PassGates(0, 0, first, s.Hand, outcome);
        StepHook(ref s);

        for (int i = 1; i < track.Points; i++)
        {
            if (gate < track.GateSteps.Length)
                gate = PassGates(gate, i, first, s.Hand, outcome);
            if (i == track.Points - 1)
                NoteHook(first, s.Hand, outcome);
            bool even = (i & 1) == 0;
            Step(ref s, ref even ? ref s.Odd : ref s.Even, even ? ref s.Even : ref s.Odd, Math.Min(i + 1, track.Points - 1));
            if (i >= track.LastSeconds)
                s.Load.NoteSwing();
        }
        s.Load.NoteTension(((track.Points - 1) & 1) == 0 ? s.Even : s.Odd);
        AddLoad(s.Load, s.Air.Mean, first, outcome);
    }

    private void Begin(ref EightState s, int first)
    {
        s.Random = EightRandoms.Of(draws.Seed, first);
        s.Hand = EightHands.Begin(ref s.Random, draws, slowFilter, fastFilter, first);
        s.Air = EightAir.Begin(ref s.Random, draws, keepGust, first);
        s.Load = new(Eights.Load(draws.LengthM, first), Eights.Load(draws.DragPerMassPerM, first), track.StepS);
        (Eight3 velocity, Eight3 acceleration) = Planned(0);
        s.Load.Hang(new Eight3(V8.Zero, V8.Zero, Vector512.Create(-Gravity.Standard)) - acceleration, velocity - s.Air.Mean);
        s.Even = Flown(0, s.Air, s.Hand);
    }

    /// <summary>The load to the step the hook is at already, by classical Runge-Kutta; meanwhile hand, air and hook one step further, into the place of the hook left behind.</summary>
    /// <remarks>
    /// Each stage waits for a square root of the one before. Hand and air wait for nothing, so they are put between the stages, where the processor has room.
    /// The last step draws once more than is used.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Step(ref EightState s, ref EightHooks from, in EightHooks to, int next)
    {
        Eight3 r = s.Load.R, v = s.Load.V;
        Eight3 k1 = s.Load.Acceleration(r, v, from.Weight, from.ThroughAir, out V8 pull);
        s.Load.NoteTension(pull);
        s.Hand.StepSlow(ref s.Random, slowFilter);
        Eight3 weightMid = Vector512.Create(0.5) * (from.Weight + to.Weight);
        Eight3 airMid = Vector512.Create(0.5) * (from.ThroughAir + to.ThroughAir) + s.Load.EighthStep * (to.Weight - from.Weight);
        Eight3 v2 = v + s.Load.HalfStep * k1;
        Eight3 k2 = s.Load.Acceleration(r + s.Load.HalfStep * v, v2, weightMid, airMid, out _);
        s.Hand.StepUp(ref s.Random, slowFilter, fastFilter);
        Eight3 v3 = v + s.Load.HalfStep * k2;
        Eight3 k3 = s.Load.Acceleration(r + s.Load.HalfStep * v2, v3, weightMid, airMid, out _);
        s.Hand.StepFast(ref s.Random, fastFilter);
        Eight3 k4 = s.Load.Acceleration(r + s.Load.Step * v3, v + s.Load.Step * k3, to.Weight, to.ThroughAir, out _);
        s.Air.Step(ref s.Random, keepGust);
        from = Flown(next, s.Air, s.Hand);
        s.Load.Finish(k1, k2 + k3, k4);
    }

    /// <summary>Hand, air and hook to the first step.</summary>
    private void StepHook(ref EightState s)
    {
        s.Hand.StepSlow(ref s.Random, slowFilter);
        s.Hand.StepUp(ref s.Random, slowFilter, fastFilter);
        s.Hand.StepFast(ref s.Random, fastFilter);
        s.Air.Step(ref s.Random, keepGust);
        s.Odd = Flown(1, s.Air, s.Hand);
    }

    /// <summary>Planned hook with the flight's departures.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (Eight3 Velocity, Eight3 Acceleration) Planned(int step)
    {
        ReadOnlySpan<double> row = track.Rows.AsSpan(step * track.RowLength, track.RowLength);
        V8 v = Vector512.Create(row[0]), w = Vector512.Create(row[1]), a = Vector512.Create(row[2]), b = Vector512.Create(row[3]);
        foreach (V8 draw in modeDraws)
        {
            row = row[BatchTrack.Width..];
            v += draw * Vector512.Create(row[0]);
            w += draw * Vector512.Create(row[1]);
            a += draw * Vector512.Create(row[2]);
            b += draw * Vector512.Create(row[3]);
        }
        return (new(v, V8.Zero, w), new(a, V8.Zero, b));
    }

    /// <summary>Puts the hand in and takes the air's motion off.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private EightHooks Flown(int step, in EightAir air, in EightHands hand)
    {
        (Eight3 velocity, Eight3 acceleration) = Planned(step);
        return new(
            new(velocity.Along + hand.SlowAlong.V + hand.FastAlong.V - air.Along, hand.SlowAcross.V + hand.FastAcross.V - air.Across,
                velocity.Up + hand.SlowUp.V + hand.FastUp.V),
            new(V8.Zero - (acceleration.Along + hand.SlowAlong.A + hand.FastAlong.A), V8.Zero - (hand.SlowAcross.A + hand.FastAcross.A),
                Vector512.Create(-Gravity.Standard) - (acceleration.Up + hand.SlowUp.A + hand.FastUp.A)));
    }

    /// <summary>Writes the hook's errors at the gates of a step; returns the next gate.</summary>
    private int PassGates(int gate, int step, int first, in EightHands hand, BatchOutcome outcome)
    {
        for (; gate < track.GateOrder.Length && track.GateSteps[track.GateOrder[gate]] == step; gate++)
        {
            int g = track.GateOrder[gate], row = step * track.RowLength;
            V8 along = hand.SlowAlong.X + hand.FastAlong.X, up = hand.SlowUp.X + hand.FastUp.X;
            V8 alongMs = hand.SlowAlong.V + hand.FastAlong.V, upMs = hand.SlowUp.V + hand.FastUp.V;
            for (int m = 0; m < modeDraws.Length; m++)
            {
                int at = row + BatchTrack.Width * (m + 1);
                along += modeDraws[m] * Vector512.Create(track.ModeAlongM(m, step));
                up += modeDraws[m] * Vector512.Create(track.ModeUpM(m, step));
                alongMs += modeDraws[m] * Vector512.Create(track.Rows[at]);
                upMs += modeDraws[m] * Vector512.Create(track.Rows[at + 1]);
            }
            Eights.Store(along, outcome.GateAlongErrorM[g], first);
            Eights.Store(up, outcome.GateUpErrorM[g], first);
            Eights.Store(alongMs, outcome.GateAlongSpeedErrorMs[g], first);
            Eights.Store(upMs, outcome.GateUpSpeedErrorMs[g], first);
        }
        return gate;
    }

    /// <summary>Where the hook is at the last step, put where the load's place will be.</summary>
    private void NoteHook(int first, in EightHands hand, BatchOutcome outcome)
    {
        int last = track.Points - 1;
        V8 along = Vector512.Create(track.PlannedAlongM(last)) + hand.SlowAlong.X + hand.FastAlong.X;
        V8 up = Vector512.Create(track.PlannedUpM(last)) + hand.SlowUp.X + hand.FastUp.X;
        for (int m = 0; m < modeDraws.Length; m++)
        {
            along += modeDraws[m] * Vector512.Create(track.ModeAlongM(m, last));
            up += modeDraws[m] * Vector512.Create(track.ModeUpM(m, last));
        }
        Eights.Store(along, outcome.LoadAlongM, first);
        Eights.Store(hand.SlowAcross.X + hand.FastAcross.X, outcome.LoadAcrossM, first);
        Eights.Store(up, outcome.LoadUpM, first);
    }

    /// <summary>Puts the load from the hook on top, and writes its swing.</summary>
    private static void AddLoad(in EightLoads load, Eight3 wind, int first, BatchOutcome outcome)
    {
        Eights.Store(Eights.Load(outcome.LoadAlongM, first) + load.R.Along, outcome.LoadAlongM, first);
        Eights.Store(Eights.Load(outcome.LoadAcrossM, first) + load.R.Across, outcome.LoadAcrossM, first);
        Eights.Store(Eights.Load(outcome.LoadUpM, first) + load.R.Up, outcome.LoadUpM, first);
        Eights.Store(load.Swing(wind), outcome.SwingM, first);
        Eights.Store(Vector512.Sqrt(load.LargestSquare), outcome.LargestSwingM, first);
        Eights.Store(load.LeastTensionRatio, outcome.LeastTensionRatio, first);
    }
}
