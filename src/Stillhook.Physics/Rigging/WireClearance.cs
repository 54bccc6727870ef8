namespace Stillhook.Physics.Rigging;

/// <summary>Distance that aircraft, line and load keep from a live wire.</summary>
public static class WireClearance
{
    /// <summary>Clearance up to 50 kV, m: 15 ft.</summary>
    public const double LowVoltageM = 15 * Foot;

    private const double Foot = 0.3048, Inch = 0.0254, LowVoltageV = 50_000;

    /// <summary>Smallest distance, m: 15 ft to 50 kV, then half an inch more for each kV above.</summary>
    /// <remarks>[ASME-B30.12] (2006 edition). The grid owner's and the operator's own figures stand when larger. Voltage between phases.</remarks>
    /// <param name="voltageV">Voltage, V, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not a number.</exception>
    public static double SmallestM(double voltageV)
    {
        if (!(voltageV >= 0 && double.IsFinite(voltageV)))
            throw new ArgumentOutOfRangeException(nameof(voltageV), voltageV, "Voltage is 0 V or more.");
        return LowVoltageM + 0.5 * Inch * Math.Max(0, voltageV - LowVoltageV) / 1000;
    }
}
