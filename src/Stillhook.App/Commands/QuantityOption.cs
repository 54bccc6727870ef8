using System.CommandLine;
using System.CommandLine.Parsing;

namespace Stillhook.App.Commands;

/// <summary>An option that takes a quantity with its unit.</summary>
internal static class QuantityOption
{
    /// <summary>Reads a quantity as typed; when it can't, says what was expected.</summary>
    public delegate bool TryRead<T>(string text, out T value, out string expected);

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
