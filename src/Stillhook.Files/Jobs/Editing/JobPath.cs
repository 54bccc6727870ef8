using System.Globalization;
using System.Text.RegularExpressions;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>One step of a path: a member of a group, or an item of its list.</summary>
/// <param name="Name">Member's name without a unit.</param>
/// <param name="Index">Place in the member's list; null for the member itself.</param>
internal readonly record struct JobStep(string Name, int? Index);

/// <summary>Paths such as <c>sites[0].weather.qnh</c>: member names without units.</summary>
internal static partial class JobPath
{
    /// <summary>The steps; null when it isn't a path.</summary>
    public static IReadOnlyList<JobStep>? Steps(string path)
    {
        List<JobStep> steps = [];
        foreach (string part in path.Split('.'))
        {
            if (Part().Match(part) is not { Success: true } match)
                return null;
            steps.Add(new(match.Groups["name"].Value, match.Groups["index"] is { Success: true } index ? int.Parse(index.ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) : null));
        }
        return steps;
    }

    /// <summary>A member of a group.</summary>
    public static string Join(string group, string name) => group.Length == 0 ? name : $"{group}.{name}";

    /// <summary>An item of a list.</summary>
    public static string Item(string list, int index) => string.Create(CultureInfo.InvariantCulture, $"{list}[{index}]");

    [GeneratedRegex("^(?<name>[A-Za-z][A-Za-z0-9]*)(\\[(?<index>[0-9]{1,4})\\])?$", RegexOptions.CultureInvariant)]
    private static partial Regex Part();
}
