namespace Stillhook.Planning;

/// <summary>The range a figure of the job file may have, in the first unit its type is written in (kg, m, °C, kt, hPa, deg, %, kW, kg/h, s).</summary>
/// <remarks>The reader of the job file refuses what lies outside, and the published schema states it.</remarks>
[AttributeUsage(AttributeTargets.Property)]
public sealed class BetweenAttribute(double low, double high) : Attribute
{
    /// <summary>Smallest value permitted.</summary>
    public double Low { get; } = low;

    /// <summary>Largest value permitted.</summary>
    public double High { get; } = high;
}
