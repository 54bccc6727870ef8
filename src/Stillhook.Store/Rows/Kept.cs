using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Stillhook.Store;

/// <summary>What every database can keep exactly: texts without a zero character or half a character, numbers that are numbers.</summary>
internal static class Kept
{
    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>The text, or an exception that says what is wrong with it.</summary>
    public static string Text(string text, [CallerArgumentExpression(nameof(text))] string name = "")
    {
        ArgumentNullException.ThrowIfNull(text, name);
        if (text.Contains('\0', StringComparison.Ordinal))
            throw new ArgumentException("A text holds no zero character.", name);
        try
        {
            _ = Strict.GetByteCount(text);
        }
        catch (EncoderFallbackException e)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The character at {e.Index} is half of one."), name, e);
        }
        return text;
    }

    /// <summary>As <see cref="Text"/>, null stays null.</summary>
    public static string? OptionalText(string? text, [CallerArgumentExpression(nameof(text))] string name = "") => text is null ? null : Text(text, name);

    /// <summary>The number, or an exception.</summary>
    public static double Number(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "A number that is kept is finite; what is not known is left out.");

    /// <summary>As <see cref="Number"/>, null stays null.</summary>
    public static double? OptionalNumber(double? value, [CallerArgumentExpression(nameof(value))] string name = "") => value is { } v ? Number(v, name) : null;
}
