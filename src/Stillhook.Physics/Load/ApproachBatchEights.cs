using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using V8 = System.Runtime.Intrinsics.Vector512<double>;

namespace Stillhook.Physics.Load;

/// <summary>Numbers of eight flights that are worked side by side: in and out.</summary>
internal static class Eights
{
    /// <summary>The numbers of the flights from one on; past the end the last one is repeated.</summary>
    public static V8 Load(ReadOnlySpan<double> values, int from)
    {
        Span<double> eight = stackalloc double[8];
        for (int i = 0; i < 8; i++)
            eight[i] = values[Math.Min(from + i, values.Length - 1)];
        return Vector512.Create<double>(eight);
    }

    /// <summary>Writes the numbers; those past the end are dropped.</summary>
    public static void Store(V8 lanes, Span<double> values, int from)
    {
        for (int i = 0; i < 8 && from + i < values.Length; i++)
            values[from + i] = lanes[i];
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static V8 Smaller(V8 a, V8 b) => Vector512.ConditionalSelect(Vector512.LessThan(a, b), a, b);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static V8 Larger(V8 a, V8 b) => Vector512.ConditionalSelect(Vector512.GreaterThan(a, b), a, b);
}

/// <summary>A vector of each of eight flights: along the approach course, across to the right, up.</summary>
internal readonly struct Eight3(V8 along, V8 across, V8 up)
{
    public readonly V8 Along = along, Across = across, Up = up;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Eight3 operator +(Eight3 a, Eight3 b) => new(a.Along + b.Along, a.Across + b.Across, a.Up + b.Up);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Eight3 operator -(Eight3 a, Eight3 b) => new(a.Along - b.Along, a.Across - b.Across, a.Up - b.Up);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Eight3 operator *(V8 s, Eight3 a) => new(s * a.Along, s * a.Across, s * a.Up);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static V8 Dot(Eight3 a, Eight3 b) => a.Along * b.Along + a.Across * b.Across + a.Up * b.Up;
}

/// <summary>Hook of eight flights at one moment: velocity through the air and what a mass weighs under it, G − a.</summary>
internal readonly struct EightHooks(Eight3 throughAir, Eight3 weight)
{
    public readonly Eight3 ThroughAir = throughAir, Weight = weight;
}

/// <summary>What eight flights carry from step to step.</summary>
internal struct EightState
{
    public EightRandoms Random;
    public EightHands Hand;
    public EightLoads Load;
    public EightHooks Even, Odd; // by the number of the step
    public EightAir Air;
}

/// <summary>Memory for it on a boundary of 64 bytes, so that no register's worth lies across two cache lines.</summary>
internal sealed class AlignedState
{
    private const int Boundary = 64;

    private readonly byte[] memory = GC.AllocateArray<byte>(Unsafe.SizeOf<EightState>() + Boundary, pinned: true);
    private readonly int offset;

    public AlignedState() => offset = (int)((Boundary - Marshal.UnsafeAddrOfPinnedArrayElement(memory, 0) % Boundary) % Boundary);

    public ref EightState State => ref MemoryMarshal.AsRef<EightState>(memory.AsSpan(offset));
}
