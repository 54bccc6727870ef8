using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Reflection;
using Stillhook.Planning;

namespace Stillhook.App.Commands;

/// <summary>An option that takes a quantity with its unit.</summary>
internal static class QuantityOption
{
    /// <summary>Reads a quantity as typed; when it can't, says what was expected.</summary>
    public delegate bool TryRead<T>(string text, out T value, out string expected);

    /// <summary>Holds a typed quantity to the range that the job file has for it; in one line what is permitted when it lies outside, null when it is inside or not typed.</summary>
    /// <param name="name">The option.</param>
    /// <param name="value">The value typed, in the unit of the range.</param>
    /// <param name="unit">That unit.</param>
    /// <param name="of">Group of the job file.</param>
    /// <param name="member">Its member.</param>
    public static string? Outside(string name, double? value, string unit, Type of, string member) =>
        of.GetProperty(member)!.GetCustomAttribute<BetweenAttribute>() is { } range && (value < range.Low || value > range.High)
            ? string.Create(CultureInfo.InvariantCulture, $"stillhook: {name}: found {value:0.###} {unit}. Expected {range.Low:0.###} to {range.High:0.###} {unit}.") : null;

    public static Option<T?> Create<T>(string name, string description, TryRead<T> tryRead, string helpName = "QUANTITY")
        where T : struct => new(name)
        {
            Description = description,
            HelpName = helpName,
            // The library's own number parsing follows the user's culture and skips grouping marks: 78,5 would become 785.
            CustomParser = result =>
            {
                string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
                if (tryRead(text, out T value, out string expected))
                    return value;
                result.AddError($"{name} {text}: expected {expected}.");
                return null;
            },
        };
}
