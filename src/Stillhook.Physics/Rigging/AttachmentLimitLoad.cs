using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Rigging;

/// <summary>Load that the attaching means of an external load are certificated for, cargo without people.</summary>
/// <remarks>[14CFR-27.865](a): limit static load 2.5 times the largest external load, put on vertically and, for a load that can be dropped, in any direction up to at least 30° from the vertical.</remarks>
public static class AttachmentLimitLoad
{
    /// <summary>Limit load over the largest external load, [14CFR-27.865](a).</summary>
    public const double LimitFactor = 2.5;

    /// <summary>Breaking over limit load, [14CFR-27.303].</summary>
    public const double UltimateFactor = 1.5;

    /// <summary>Smallest breaking strength over external load that both rules leave: 3.75.</summary>
    public const double BreakingFactor = LimitFactor * UltimateFactor;

    /// <summary>Angle from the vertical at which the limit load must be carried too, rad: 30°.</summary>
    public const double ServiceAngleRad = Math.PI / 6;

    /// <summary>Limit load, N: 2.5·m·g. The same size at every angle.</summary>
    /// <param name="externalLoadKg">Largest external load with its attaching parts, kg, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not a number.</exception>
    public static double LimitN(double externalLoadKg)
    {
        if (!(externalLoadKg >= 0 && double.IsFinite(externalLoadKg)))
            throw new ArgumentOutOfRangeException(nameof(externalLoadKg), externalLoadKg, "External load is 0 kg or more.");
        return LimitFactor * externalLoadKg * Gravity.Standard;
    }

    /// <summary>Parts of the limit load down and to the side, N, when it pulls at an angle from the vertical.</summary>
    /// <param name="externalLoadKg">Largest external load with its attaching parts, kg, 0 or more.</param>
    /// <param name="fromVerticalRad">Pull from the vertical, 0 to π/2 rad.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these ranges.</exception>
    public static (double DownN, double SideN) PartsN(double externalLoadKg, double fromVerticalRad)
    {
        if (!(fromVerticalRad is >= 0 and <= Math.PI / 2))
            throw new ArgumentOutOfRangeException(nameof(fromVerticalRad), fromVerticalRad, "Angle from the vertical is from 0 to pi/2.");
        double limit = LimitN(externalLoadKg);
        return (limit * Math.Cos(fromVerticalRad), limit * Math.Sin(fromVerticalRad));
    }
}
