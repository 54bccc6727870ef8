using System.Runtime.CompilerServices;

namespace Stillhook.Physics.Rotor;

/// <summary>Refuses a value outside what a formula permits, with its name, the value and the range; not-a-number and infinity are never permitted.</summary>
internal static class Permitted
{
    public static double Above0(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value > 0 && double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Permitted: above 0.");

    public static double From0(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= 0 && double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Permitted: 0 or above.");

    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Permitted: a finite number.");

    public static double Within(double value, double low, double high, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= low && value <= high ? value
            : throw new ArgumentOutOfRangeException(name, value, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Permitted: {low} to {high}."));
}
