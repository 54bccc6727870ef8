using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using V8 = System.Runtime.Intrinsics.Vector512<double>;

namespace Stillhook.Physics.Load;

/// <summary>The hand of eight pilots: slow and fast wander in three axes.</summary>
internal struct EightHands
{
    public EightWanders SlowAlong, SlowAcross, SlowUp, FastAlong, FastAcross, FastUp;
    private V8 slowKick, slowKickUp, fastKick, fastKickUp;

    /// <summary>A stationary start.</summary>
    public static EightHands Begin(ref EightRandoms random, BatchDraws draws, WanderFilter slow, WanderFilter fast, int first)
    {
        V8 slowM = Eights.Load(draws.HandSlowM, first), fastM = Eights.Load(draws.HandFastM, first), share = Vector512.Create(draws.VerticalShare);
        V8 slowUpM = share * slowM, fastUpM = share * fastM;
        return new()
        {
            SlowAlong = Begin(ref random, slow, slowM),
            SlowAcross = Begin(ref random, slow, slowM),
            SlowUp = Begin(ref random, slow, slowUpM),
            FastAlong = Begin(ref random, fast, fastM),
            FastAcross = Begin(ref random, fast, fastM),
            FastUp = Begin(ref random, fast, fastUpM),
            slowKick = Vector512.Create(slow.Kick) * slowM,
            slowKickUp = Vector512.Create(slow.Kick) * slowUpM,
            fastKick = Vector512.Create(fast.Kick) * fastM,
            fastKickUp = Vector512.Create(fast.Kick) * fastUpM,
        };
    }

    /// <summary>A step of the slow wander, level.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void StepSlow(ref EightRandoms random, WanderFilter slow)
    {
        random.Next(out V8 a, out V8 b);
        SlowAlong.Step(slow, slowKick * a);
        SlowAcross.Step(slow, slowKick * b);
    }

    /// <summary>A step of both wanders upward.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void StepUp(ref EightRandoms random, WanderFilter slow, WanderFilter fast)
    {
        random.Next(out V8 a, out V8 b);
        SlowUp.Step(slow, slowKickUp * a);
        FastUp.Step(fast, fastKickUp * b);
    }

    /// <summary>A step of the fast wander, level.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void StepFast(ref EightRandoms random, WanderFilter fast)
    {
        random.Next(out V8 a, out V8 b);
        FastAlong.Step(fast, fastKick * a);
        FastAcross.Step(fast, fastKick * b);
    }

    /// <summary>Near normal, mean 0, variance 1: the sum of eight even ones.</summary>
    public static V8 NearNormal(ref EightRandoms random)
    {
        V8 sum = V8.Zero;
        for (int i = 0; i < 4; i++)
        {
            random.Next(out V8 a, out V8 b);
            sum += a + b;
        }
        return Vector512.Create(1.2247448713915890) * sum; // √(12/8)
    }

    private static EightWanders Begin(ref EightRandoms random, WanderFilter filter, V8 sizeM)
    {
        V8 z0 = NearNormal(ref random), z1 = NearNormal(ref random), z2 = NearNormal(ref random);
        return EightWanders.Begin(filter, sizeM, z0, z1, z2);
    }
}

/// <summary>One axis of the wander, of eight flights: place, speed, acceleration and the force behind them.</summary>
internal struct EightWanders
{
    public V8 X, V, A;
    private V8 force;

    /// <summary>A stationary start out of three unit numbers.</summary>
    public static EightWanders Begin(WanderFilter filter, V8 sizeM, V8 z0, V8 z1, V8 z2)
    {
        double[,] l = filter.Start;
        EightWanders w = default;
        w.X = sizeM * (Vector512.Create(l[0, 0]) * z0);
        w.V = sizeM * (Vector512.Create(l[1, 0]) * z0 + Vector512.Create(l[1, 1]) * z1);
        w.force = sizeM * (Vector512.Create(l[2, 0]) * z0 + Vector512.Create(l[2, 1]) * z1 + Vector512.Create(l[2, 2]) * z2);
        w.A = w.force - Vector512.Create(filter.Damping) * w.V - Vector512.Create(filter.Stiffness) * w.X;
        return w;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Step(WanderFilter f, V8 kick)
    {
        force = Vector512.Create(f.Keep) * force + kick;
        V8 speed = V + Vector512.Create(f.HalfStep) * A, place = X + Vector512.Create(f.Step) * V + Vector512.Create(f.ThirdSquare) * A;
        A = Vector512.Create(f.Share) * force - Vector512.Create(f.DampingShare) * speed - Vector512.Create(f.StiffnessShare) * place;
        V = speed + Vector512.Create(f.HalfStep) * A;
        X = place + Vector512.Create(f.SixthSquare) * A;
    }
}

/// <summary>The air eight flights fly in: a mean wind and first-order gusts in both horizontal components.</summary>
internal struct EightAir
{
    public const double CorrelationS = 5;

    private V8 meanAlong, meanAcross, gustAlong, gustAcross, kick;

    /// <summary>Mean velocity of the air over ground, m/s.</summary>
    public readonly Eight3 Mean => new(meanAlong, meanAcross, V8.Zero);

    public readonly V8 Along => meanAlong + gustAlong;

    public readonly V8 Across => meanAcross + gustAcross;

    /// <summary>A stationary start.</summary>
    public static EightAir Begin(ref EightRandoms random, BatchDraws draws, double keep, int first)
    {
        V8 sizeMs = Eights.Load(draws.GustMs, first);
        return new()
        {
            meanAlong = Eights.Load(draws.WindAlongMs, first),
            meanAcross = Eights.Load(draws.WindAcrossMs, first),
            gustAlong = sizeMs * EightHands.NearNormal(ref random),
            gustAcross = sizeMs * EightHands.NearNormal(ref random),
            kick = Vector512.Create(WanderFilter.KickOf(keep)) * sizeMs,
        };
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Step(ref EightRandoms random, double keep)
    {
        random.Next(out V8 a, out V8 b);
        gustAlong = Vector512.Create(keep) * gustAlong + kick * a;
        gustAcross = Vector512.Create(keep) * gustAcross + kick * b;
    }
}
