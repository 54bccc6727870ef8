namespace Stillhook.Files.Pictures;

/// <summary>Round steps for axes and scale bars.</summary>
internal static class RoundStep
{
    /// <summary>Least of 1, 2, 5 × 10ⁿ at or above a value.</summary>
    public static double AtLeast(double value)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(value, 1e-9))));
        foreach (double multiple in (ReadOnlySpan<double>)[1, 2, 5])
            if (multiple * decade >= value * (1 - 1e-12))
                return multiple * decade;
        return 10 * decade;
    }
}
