using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>The fixes of a record after sorting and repair, in a local frame. One entry a fix; a missing value is NaN.</summary>
/// <param name="Frame">Local frame.</param>
/// <param name="TimeS">Strictly ascending, s since 1970 UTC.</param>
/// <param name="East">Antenna, m.</param>
/// <param name="North">Antenna, m.</param>
/// <param name="Height">Antenna above the frame's origin level, m.</param>
/// <param name="VelocityEast">m/s; empty when the record has no usable speed and course.</param>
/// <param name="VelocityNorth">m/s; empty likewise.</param>
/// <param name="Climb">m/s; empty when the record has none.</param>
/// <param name="StretchStarts">Where a stretch without a break starts, ascending, starting with 0.</param>
/// <param name="MedianStepS">Median time between fixes, s; NaN with fewer than two.</param>
/// <param name="GapCount">Gaps longer than five median steps and 5 s.</param>
/// <param name="GapTimeS">Time inside those gaps, s.</param>
/// <param name="PositionStepM">Step in which position was recorded, m; 0 when none shows.</param>
/// <param name="AltitudeStepM">Step in which altitude was recorded, m; 0 when none shows.</param>
/// <param name="HeightFromPressure">Heights are pressure altitudes.</param>
internal sealed record FixTable(
    LocalFrame Frame, double[] TimeS, double[] East, double[] North, double[] Height,
    double[] VelocityEast, double[] VelocityNorth, double[] Climb, int[] StretchStarts,
    double MedianStepS, int GapCount, double GapTimeS, double PositionStepM, double AltitudeStepM, bool HeightFromPressure)
{
    public int Count => TimeS.Length;

    public bool HasVelocity => VelocityEast.Length > 0;
}
