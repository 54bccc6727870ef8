using System.Runtime.CompilerServices;
using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Load;

/// <summary>One flight of the approach from entry to the last step: line by line the arithmetic of <see cref="EightFlights"/>, so the same bits.</summary>
internal sealed class OneFlight(BatchTrack track, BatchDraws draws)
{
    private const double GustCorrelationS = 5;

    private readonly WanderFilter slowFilter = WanderFilter.Slow(track.StepS), fastFilter = WanderFilter.Fast(track.StepS);
    private readonly double keepGust = WanderFilter.KeepOf(GustCorrelationS, track.StepS);
    private readonly double[] modeDraws = new double[track.ModeCount];

    /// <summary>Flies the one of a number and writes what comes out.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Fly(int flight, BatchOutcome outcome)
    {
        for (int m = 0; m < modeDraws.Length; m++)
            modeDraws[m] = draws.Modes[m][flight];
        OneRandom random = OneRandom.Of(draws.Seed, flight);
        OneHand hand = OneHand.Begin(ref random, draws, slowFilter, fastFilter, flight);
        double gustSize = draws.GustMs[flight], gustKick = WanderFilter.KickOf(keepGust) * gustSize;
        double gustAlong = gustSize * OneHand.NearNormal(ref random), gustAcross = gustSize * OneHand.NearNormal(ref random);
        double windAlong = draws.WindAlongMs[flight], windAcross = draws.WindAcrossMs[flight];

        OneLoad load = new(draws.LengthM[flight], draws.DragPerMassPerM[flight], track.StepS);
        One3 wind = new(windAlong, windAcross, 0);
        (One3 velocity, One3 acceleration) = Planned(0);
        load.Hang(new One3(0, 0, -Gravity.Standard) - acceleration, velocity - wind);
        OneHook hook = Flown(0, hand, windAlong + gustAlong, windAcross + gustAcross);
        int gate = PassGates(0, 0, flight, hand, outcome);

        for (int i = 1; i < track.Points; i++)
        {
            hand.Step(ref random, slowFilter, fastFilter);
            random.Next(out double kickAlong, out double kickAcross);
            gustAlong = keepGust * gustAlong + gustKick * kickAlong;
            gustAcross = keepGust * gustAcross + gustKick * kickAcross;
            OneHook next = Flown(i, hand, windAlong + gustAlong, windAcross + gustAcross);
            load.Step(hook, next);
            hook = next;
            if (i >= track.LastSeconds)
                load.NoteSwing();
            if (gate < track.GateSteps.Length)
                gate = PassGates(gate, i, flight, hand, outcome);
        }
        load.NoteTension(hook);
        StoreLoad(load, hand, wind, flight, outcome);
    }

    /// <summary>Planned hook with the flight's departures.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (One3 Velocity, One3 Acceleration) Planned(int step)
    {
        ReadOnlySpan<double> row = track.Rows.AsSpan(step * track.RowLength, track.RowLength);
        double v = row[0], w = row[1], a = row[2], b = row[3];
        foreach (double draw in modeDraws)
        {
            row = row[BatchTrack.Width..];
            v += draw * row[0];
            w += draw * row[1];
            a += draw * row[2];
            b += draw * row[3];
        }
        return (new(v, 0, w), new(a, 0, b));
    }

    /// <summary>Puts the hand in and takes the air's motion off.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private OneHook Flown(int step, in OneHand hand, double airAlong, double airAcross)
    {
        (One3 velocity, One3 acceleration) = Planned(step);
        return new(
            new(velocity.Along + hand.SlowAlong.V + hand.FastAlong.V - airAlong, hand.SlowAcross.V + hand.FastAcross.V - airAcross,
                velocity.Up + hand.SlowUp.V + hand.FastUp.V),
            new(0 - (acceleration.Along + hand.SlowAlong.A + hand.FastAlong.A), 0 - (hand.SlowAcross.A + hand.FastAcross.A),
                -Gravity.Standard - (acceleration.Up + hand.SlowUp.A + hand.FastUp.A)));
    }

    /// <summary>Writes the hook's errors at the gates of a step; returns the next gate.</summary>
    private int PassGates(int gate, int step, int flight, in OneHand hand, BatchOutcome outcome)
    {
        for (; gate < track.GateOrder.Length && track.GateSteps[track.GateOrder[gate]] == step; gate++)
        {
            int g = track.GateOrder[gate], row = step * track.RowLength;
            double along = hand.SlowAlong.X + hand.FastAlong.X, up = hand.SlowUp.X + hand.FastUp.X;
            double alongMs = hand.SlowAlong.V + hand.FastAlong.V, upMs = hand.SlowUp.V + hand.FastUp.V;
            for (int m = 0; m < modeDraws.Length; m++)
            {
                int at = row + BatchTrack.Width * (m + 1);
                along += modeDraws[m] * track.ModeAlongM(m, step);
                up += modeDraws[m] * track.ModeUpM(m, step);
                alongMs += modeDraws[m] * track.Rows[at];
                upMs += modeDraws[m] * track.Rows[at + 1];
            }
            outcome.GateAlongErrorM[g][flight] = along;
            outcome.GateUpErrorM[g][flight] = up;
            outcome.GateAlongSpeedErrorMs[g][flight] = alongMs;
            outcome.GateUpSpeedErrorMs[g][flight] = upMs;
        }
        return gate;
    }

    private void StoreLoad(in OneLoad load, in OneHand hand, One3 wind, int flight, BatchOutcome outcome)
    {
        int last = track.Points - 1;
        double along = track.PlannedAlongM(last) + hand.SlowAlong.X + hand.FastAlong.X;
        double up = track.PlannedUpM(last) + hand.SlowUp.X + hand.FastUp.X;
        for (int m = 0; m < modeDraws.Length; m++)
        {
            along += modeDraws[m] * track.ModeAlongM(m, last);
            up += modeDraws[m] * track.ModeUpM(m, last);
        }
        outcome.LoadAlongM[flight] = along + load.R.Along;
        outcome.LoadAcrossM[flight] = hand.SlowAcross.X + hand.FastAcross.X + load.R.Across;
        outcome.LoadUpM[flight] = up + load.R.Up;
        outcome.SwingM[flight] = load.Swing(wind);
        outcome.LargestSwingM[flight] = Math.Sqrt(load.LargestSquare);
        outcome.LeastTensionRatio[flight] = load.LeastTensionRatio;
    }
}

/// <summary>Hook at one moment: velocity through the air and what a mass weighs under it, G − a.</summary>
internal readonly struct OneHook(One3 throughAir, One3 weight)
{
    public readonly One3 ThroughAir = throughAir, Weight = weight;
}

/// <summary>The hand: slow and fast wander in three axes.</summary>
internal struct OneHand
{
    public OneWander SlowAlong, SlowAcross, SlowUp, FastAlong, FastAcross, FastUp;
    private double slowKick, slowKickUp, fastKick, fastKickUp;

    /// <summary>A stationary start.</summary>
    public static OneHand Begin(ref OneRandom random, BatchDraws draws, WanderFilter slow, WanderFilter fast, int flight)
    {
        double slowM = draws.HandSlowM[flight], fastM = draws.HandFastM[flight], share = draws.VerticalShare;
        double slowUpM = share * slowM, fastUpM = share * fastM;
        return new()
        {
            SlowAlong = Begin(ref random, slow, slowM),
            SlowAcross = Begin(ref random, slow, slowM),
            SlowUp = Begin(ref random, slow, slowUpM),
            FastAlong = Begin(ref random, fast, fastM),
            FastAcross = Begin(ref random, fast, fastM),
            FastUp = Begin(ref random, fast, fastUpM),
            slowKick = slow.Kick * slowM,
            slowKickUp = slow.Kick * slowUpM,
            fastKick = fast.Kick * fastM,
            fastKickUp = fast.Kick * fastUpM,
        };
    }

    /// <summary>One step of all six.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Step(ref OneRandom random, WanderFilter slow, WanderFilter fast)
    {
        random.Next(out double a, out double b);
        SlowAlong.Step(slow, slowKick * a);
        SlowAcross.Step(slow, slowKick * b);
        random.Next(out a, out b);
        SlowUp.Step(slow, slowKickUp * a);
        FastUp.Step(fast, fastKickUp * b);
        random.Next(out a, out b);
        FastAlong.Step(fast, fastKick * a);
        FastAcross.Step(fast, fastKick * b);
    }

    /// <summary>Near normal, mean 0, variance 1: the sum of eight even ones.</summary>
    public static double NearNormal(ref OneRandom random)
    {
        double sum = 0;
        for (int i = 0; i < 4; i++)
        {
            random.Next(out double a, out double b);
            sum += a + b;
        }
        return 1.2247448713915890 * sum; // √(12/8)
    }

    private static OneWander Begin(ref OneRandom random, WanderFilter filter, double sizeM)
    {
        double z0 = NearNormal(ref random), z1 = NearNormal(ref random), z2 = NearNormal(ref random);
        return OneWander.Begin(filter, sizeM, z0, z1, z2);
    }
}

/// <summary>The load from hook R and its rate V.</summary>
internal struct OneLoad
{
    public One3 R, V;
    public double LargestSquare;
    private readonly double length, drag, inverseSquare, step, halfStep, eighthStep, sixthStep, sixthSquare;
    private double least;

    public OneLoad(double lengthM, double dragPerMassPerM, double stepS)
    {
        (length, drag) = (lengthM, dragPerMassPerM);
        inverseSquare = 1 / (lengthM * lengthM);
        (step, halfStep, eighthStep) = (stepS, stepS / 2, stepS / 8);
        (sixthStep, sixthSquare) = (stepS / 6, stepS * stepS / 6);
        (R, V, LargestSquare, least) = (default, default, 0, double.PositiveInfinity);
    }

    /// <summary>Smallest tension over weight so far.</summary>
    public readonly double LeastTensionRatio => least / (length * Gravity.Standard);

    /// <summary>Where it hangs when nothing changes, at rest against the hook.</summary>
    public void Hang(One3 weight, One3 throughAir) => (R, V) = (Steady(weight, throughAir), 0 * throughAir);

    /// <summary>One step of classical Runge-Kutta; the hook's velocity is through the air here.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Step(in OneHook from, in OneHook to)
    {
        One3 weightMid = 0.5 * (from.Weight + to.Weight);
        One3 airMid = 0.5 * (from.ThroughAir + to.ThroughAir) + eighthStep * (to.Weight - from.Weight);
        One3 k1 = Acceleration(R, V, from.Weight, from.ThroughAir, out double pull);
        least = pull < least ? pull : least;
        One3 v2 = V + halfStep * k1;
        One3 k2 = Acceleration(R + halfStep * V, v2, weightMid, airMid, out _);
        One3 v3 = V + halfStep * k2;
        One3 k3 = Acceleration(R + halfStep * v2, v3, weightMid, airMid, out _);
        One3 v4 = V + step * k3;
        One3 k4 = Acceleration(R + step * v3, v4, to.Weight, to.ThroughAir, out _);
        One3 middle = k2 + k3;
        OnTheSphere(R + step * V + sixthSquare * (k1 + middle), V + sixthStep * (k1 + k4 + (middle + middle)));
    }

    /// <summary>Keeps the largest offset from the plumb line.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void NoteSwing() =>
        LargestSquare = R.Along * R.Along + R.Across * R.Across > LargestSquare ? R.Along * R.Along + R.Across * R.Across : LargestSquare;

    /// <summary>Keeps the tension at the last step.</summary>
    public void NoteTension(in OneHook hook)
    {
        _ = Acceleration(R, V, hook.Weight, hook.ThroughAir, out double pull);
        least = pull < least ? pull : least;
    }

    /// <summary>Envelope of the swing about the steady hang in a wind under a standing hook.</summary>
    public readonly double Swing(One3 wind)
    {
        One3 still = 0 * wind, off = R - Steady(new(0, 0, -Gravity.Standard), still - wind);
        double square = off.Along * off.Along + off.Across * off.Across;
        double rate = (V.Along * V.Along + V.Across * V.Across) * (length / Gravity.Standard);
        return Math.Sqrt(square + rate);
    }

    private readonly One3 Steady(One3 weight, One3 throughAir)
    {
        One3 pull = weight - drag * Math.Sqrt(One3.Dot(throughAir, throughAir)) * throughAir;
        return length / Math.Sqrt(One3.Dot(pull, pull)) * pull;
    }

    /// <summary>r″; the pull on the line comes out as (S/m)·L. The root is waited for as late as can be.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly One3 Acceleration(One3 r, One3 v, One3 weight, One3 hookThroughAir, out double onLine)
    {
        One3 throughAir = hookThroughAir + v;
        double inverse = inverseSquare * (2 - One3.Dot(r, r) * inverseSquare);
        double still = One3.Dot(weight, r) + One3.Dot(v, v), dragged = drag * One3.Dot(throughAir, r);
        double speed = Math.Sqrt(One3.Dot(throughAir, throughAir));
        onLine = still - speed * dragged;
        return weight - still * inverse * r - speed * (drag * throughAir - dragged * inverse * r);
    }

    /// <summary>Takes out the drift off the sphere: 1/√s = 1 + d/2 + 3d²/8 with s = |r|²/L² = 1 − d, d under 1e-5.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void OnTheSphere(One3 r, One3 v)
    {
        double d = 1 - One3.Dot(r, r) * inverseSquare;
        R = (1 + d * (0.5 + 0.375 * d)) * r;
        V = v - One3.Dot(v, r) * inverseSquare * r;
    }
}

/// <summary>One axis of the wander: place, speed, acceleration and the force behind them.</summary>
internal struct OneWander
{
    public double X, V, A;
    private double force;

    /// <summary>A stationary start out of three unit numbers.</summary>
    public static OneWander Begin(WanderFilter filter, double sizeM, double z0, double z1, double z2)
    {
        double[,] l = filter.Start;
        OneWander w = default;
        w.X = sizeM * (l[0, 0] * z0);
        w.V = sizeM * (l[1, 0] * z0 + l[1, 1] * z1);
        w.force = sizeM * (l[2, 0] * z0 + l[2, 1] * z1 + l[2, 2] * z2);
        w.A = w.force - filter.Damping * w.V - filter.Stiffness * w.X;
        return w;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Step(WanderFilter f, double kick)
    {
        force = f.Keep * force + kick;
        double speed = V + f.HalfStep * A, place = X + f.Step * V + f.ThirdSquare * A;
        A = f.Share * force - f.DampingShare * speed - f.StiffnessShare * place;
        V = speed + f.HalfStep * A;
        X = place + f.SixthSquare * A;
    }
}

/// <summary>A vector: along the approach course, across to the right, up.</summary>
internal readonly struct One3(double along, double across, double up)
{
    public readonly double Along = along, Across = across, Up = up;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static One3 operator +(One3 a, One3 b) => new(a.Along + b.Along, a.Across + b.Across, a.Up + b.Up);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static One3 operator -(One3 a, One3 b) => new(a.Along - b.Along, a.Across - b.Across, a.Up - b.Up);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static One3 operator *(double s, One3 a) => new(s * a.Along, s * a.Across, s * a.Up);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Dot(One3 a, One3 b) => a.Along * b.Along + a.Across * b.Across + a.Up * b.Up;
}

/// <summary>Random numbers of one flight, as <see cref="EightRandoms"/>.</summary>
internal struct OneRandom
{
    private ulong s0, s1;

    public static OneRandom Of(ulong seed, int flight)
    {
        OneRandom r = default;
        (r.s0, r.s1) = FlightSeed.Of(seed, flight);
        return r;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next(out double first, out double second)
    {
        ulong bits = unchecked(s0 + s1), t = s1 ^ s0;
        s0 = ((s0 << 24) | (s0 >> 40)) ^ t ^ (t << 16);
        s1 = (t << 37) | (t >> 27);
        first = BitConverter.UInt64BitsToDouble((bits >> 12) | FlightSeed.One) - 1.5;
        second = BitConverter.UInt64BitsToDouble(((bits << 32) >> 12) | FlightSeed.One) - 1.5;
    }
}
