namespace Stillhook.Physics.Earth;

/// <summary>Standard acceleration of free fall.</summary>
public static class Gravity
{
    /// <summary>g₀ = 9.80665 m/s² (3rd General Conference on Weights and Measures, 1901). Exact by definition; the real value differs by up to 0.3 % with latitude.</summary>
    public const double Standard = 9.80665;
}
