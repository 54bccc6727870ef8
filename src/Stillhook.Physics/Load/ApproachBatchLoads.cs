using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Stillhook.Physics.Earth;
using V8 = System.Runtime.Intrinsics.Vector512<double>;

namespace Stillhook.Physics.Load;

/// <summary>The loads of eight flights: load from hook R and its rate V.</summary>
/// <remarks>
/// r″ = p − r·(p·r + |r′|²)/|r|² with p = G − a − k|u|u, u the load's velocity through the air: <see cref="SlungLoadMotion"/> without line mass.
/// 1/|r|² is taken as (2 − |r|²/L²)/L², right to (|r|²/L² − 1)²; what that leaves points along the line, where the length is held anyway.
/// </remarks>
internal struct EightLoads
{
    public Eight3 R, V;
    public V8 LargestSquare;
    public readonly V8 Step, HalfStep, EighthStep;
    private readonly V8 length, drag, inverseSquare, sixthStep, sixthSquare;
    private V8 least;

    public EightLoads(V8 lengthM, V8 dragPerMassPerM, double stepS)
    {
        (length, drag) = (lengthM, dragPerMassPerM);
        inverseSquare = Vector512.Create(1.0) / (lengthM * lengthM);
        (Step, HalfStep, EighthStep) = (Vector512.Create(stepS), Vector512.Create(stepS / 2), Vector512.Create(stepS / 8));
        (sixthStep, sixthSquare) = (Vector512.Create(stepS / 6), Vector512.Create(stepS * stepS / 6));
        (R, V, LargestSquare, least) = (default, default, V8.Zero, Vector512.Create(double.PositiveInfinity));
    }

    /// <summary>Smallest tension over weight so far.</summary>
    public readonly V8 LeastTensionRatio => least / (length * Vector512.Create(Gravity.Standard));

    /// <summary>Where it hangs when nothing changes, at rest against the hook.</summary>
    public void Hang(Eight3 weight, Eight3 throughAir) => (R, V) = (Steady(weight, throughAir), V8.Zero * throughAir);

    /// <summary>Ends a step: k1, k2 + k3 and k4 put together.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Finish(Eight3 k1, Eight3 middle, Eight3 k4) =>
        OnTheSphere(R + Step * V + sixthSquare * (k1 + middle), V + sixthStep * (k1 + k4 + (middle + middle)));

    /// <summary>Keeps the largest offset from the plumb line.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void NoteSwing() => LargestSquare = Eights.Larger(R.Along * R.Along + R.Across * R.Across, LargestSquare);

    /// <summary>Keeps the tension at the last step.</summary>
    public void NoteTension(in EightHooks hook)
    {
        _ = Acceleration(R, V, hook.Weight, hook.ThroughAir, out V8 pull);
        NoteTension(pull);
    }

    /// <summary>Keeps the smallest pull.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void NoteTension(V8 pull) => least = Eights.Smaller(pull, least);

    /// <summary>Envelope of the swing about the steady hang in a wind under a standing hook.</summary>
    public readonly V8 Swing(Eight3 wind)
    {
        Eight3 still = V8.Zero * wind, off = R - Steady(new(V8.Zero, V8.Zero, Vector512.Create(-Gravity.Standard)), still - wind);
        V8 square = off.Along * off.Along + off.Across * off.Across;
        V8 rate = (V.Along * V.Along + V.Across * V.Across) * (length / Vector512.Create(Gravity.Standard));
        return Vector512.Sqrt(square + rate);
    }

    private readonly Eight3 Steady(Eight3 weight, Eight3 throughAir)
    {
        Eight3 pull = weight - drag * Vector512.Sqrt(Eight3.Dot(throughAir, throughAir)) * throughAir;
        return length / Vector512.Sqrt(Eight3.Dot(pull, pull)) * pull;
    }

    /// <summary>r″; the pull on the line comes out as (S/m)·L. The root is waited for as late as can be.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly Eight3 Acceleration(Eight3 r, Eight3 v, Eight3 weight, Eight3 hookThroughAir, out V8 onLine)
    {
        Eight3 throughAir = hookThroughAir + v;
        V8 inverse = inverseSquare * (Vector512.Create(2.0) - Eight3.Dot(r, r) * inverseSquare);
        V8 still = Eight3.Dot(weight, r) + Eight3.Dot(v, v), dragged = drag * Eight3.Dot(throughAir, r);
        V8 speed = Vector512.Sqrt(Eight3.Dot(throughAir, throughAir));
        onLine = still - speed * dragged;
        return weight - still * inverse * r - speed * (drag * throughAir - dragged * inverse * r);
    }

    /// <summary>Takes out the drift off the sphere: 1/√s = 1 + d/2 + 3d²/8 with s = |r|²/L² = 1 − d, d under 1e-5.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void OnTheSphere(Eight3 r, Eight3 v)
    {
        V8 d = Vector512.Create(1.0) - Eight3.Dot(r, r) * inverseSquare;
        R = (Vector512.Create(1.0) + d * (Vector512.Create(0.5) + Vector512.Create(0.375) * d)) * r;
        V = v - Eight3.Dot(v, r) * inverseSquare * r;
    }
}
