using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using V8 = System.Runtime.Intrinsics.Vector512<double>;

namespace Stillhook.Physics.Load;

/// <summary>Seeds of the flights: SplitMix64 from the seed and the flight's number, so that a flight's numbers depend on nothing else.</summary>
internal static class FlightSeed
{
    /// <summary>One in the place of a double's exponent: any mantissa behind it makes a number from 1 to under 2.</summary>
    public const ulong One = 0x3FF0_0000_0000_0000;

    /// <summary>The two words a flight's generator starts from.</summary>
    public static (ulong S0, ulong S1) Of(ulong seed, int flight)
    {
        unchecked
        {
            ulong x = SplitMix(seed) + (ulong)flight * 0xD1342543DE82EF95UL;
            return (SplitMix(x), SplitMix(x + 0x9E3779B97F4A7C15UL));
        }
    }

    private static ulong SplitMix(ulong x)
    {
        unchecked
        {
            ulong z = x + 0x9E3779B97F4A7C15UL;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return z ^ (z >> 31);
        }
    }
}

/// <summary>Random numbers of eight flights side by side: each has its own xoroshiro128+ [XOSHIRO].</summary>
/// <remarks>Each draw gives two numbers, evenly spread in [−½, ½): 52 bits and 32 bits, mean 0, variance 1/12.</remarks>
internal struct EightRandoms
{
    private Vector512<ulong> s0, s1;

    public static EightRandoms Of(ulong seed, int from)
    {
        Span<ulong> first = stackalloc ulong[8], second = stackalloc ulong[8];
        for (int i = 0; i < 8; i++)
            (first[i], second[i]) = FlightSeed.Of(seed, from + i);
        return new() { s0 = Vector512.Create<ulong>(first), s1 = Vector512.Create<ulong>(second) };
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next(out V8 first, out V8 second)
    {
        Vector512<ulong> bits = s0 + s1, t = s1 ^ s0, one = Vector512.Create(FlightSeed.One);
        s0 = ((s0 << 24) | (s0 >>> 40)) ^ t ^ (t << 16);
        s1 = (t << 37) | (t >>> 27);
        Vector512<double> middle = Vector512.Create(1.5);
        first = (((bits >>> 12) | one).AsDouble() - middle);
        second = ((((bits << 32) >>> 12) | one).AsDouble() - middle);
    }
}
