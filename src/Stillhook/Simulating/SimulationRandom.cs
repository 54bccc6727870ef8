namespace Stillhook.Simulating;

/// <summary>Random numbers that are the same on every machine: xoshiro256** seeded by SplitMix64 [XOSHIRO].</summary>
public sealed class SimulationRandom
{
    private ulong s0, s1, s2, s3;
    private double spare = double.NaN;

    /// <summary>A stream. Streams of one seed and different purposes don't share numbers.</summary>
    /// <param name="seed">Which day.</param>
    /// <param name="purpose">What for, such as "pilot"; makes the stream independent of the others.</param>
    public SimulationRandom(ulong seed, string purpose)
    {
        unchecked
        {
            ulong x = seed;
            foreach (char c in purpose)
                x = (x ^ c) * 0x100000001B3UL + 0x9E3779B97F4A7C15UL;
            (s0, s1, s2, s3) = (SplitMix(ref x), SplitMix(ref x), SplitMix(ref x), SplitMix(ref x));
        }
    }

    /// <summary>Evenly spread in [0, 1), 53 bits.</summary>
    public double NextUnit() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Evenly spread in [low, high).</summary>
    public double Between(double low, double high) => low + (high - low) * NextUnit();

    /// <summary>True with a probability.</summary>
    public bool Chance(double probability) => NextUnit() < probability;

    /// <summary>A whole number from low to high, both included.</summary>
    public int Whole(int low, int high) => low + (int)(NextUnit() * (high - low + 1));

    /// <summary>+1 or −1.</summary>
    public int Sign() => NextUnit() < 0.5 ? -1 : 1;

    /// <summary>Normal with mean 0 and standard deviation 1 (Marsaglia's polar method).</summary>
    public double Normal()
    {
        if (!double.IsNaN(spare))
        {
            double kept = spare;
            spare = double.NaN;
            return kept;
        }
        double u, v, s;
        do
        {
            (u, v) = (2 * NextUnit() - 1, 2 * NextUnit() - 1);
            s = u * u + v * v;
        }
        while (s is >= 1 or 0);
        double k = Math.Sqrt(-2 * Math.Log(s) / s);
        spare = v * k;
        return u * k;
    }

    private ulong Next()
    {
        unchecked
        {
            ulong result = ulong.RotateLeft(s1 * 5, 7) * 9, t = s1 << 17;
            s2 ^= s0;
            s3 ^= s1;
            s1 ^= s2;
            s0 ^= s3;
            s2 ^= t;
            s3 = ulong.RotateLeft(s3, 45);
            return result;
        }
    }

    private static ulong SplitMix(ref ulong x)
    {
        unchecked
        {
            ulong z = x += 0x9E3779B97F4A7C15UL;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return z ^ (z >> 31);
        }
    }
}
