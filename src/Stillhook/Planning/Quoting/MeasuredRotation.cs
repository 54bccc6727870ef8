using UnitsNet;

namespace Stillhook.Planning.Quoting;

/// <summary>The time of a rotation as flown on the same legs with the same kinds of load.</summary>
/// <param name="Mean">Mean, weighted by the load list.</param>
/// <param name="Spread">Spread of one rotation (one standard deviation).</param>
/// <param name="Rotations">Rotations it was measured on.</param>
/// <param name="Days">Days they were flown on; of several legs and kinds the most.</param>
/// <param name="Legs">Legs and kinds, in words.</param>
public sealed record MeasuredRotation(Duration Mean, Duration Spread, int Rotations, int Days, IReadOnlyList<string> Legs);
