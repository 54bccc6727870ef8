using System.Globalization;
using System.Text.RegularExpressions;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>Says a path of the job file, or a finding that speaks in paths and keys, in the labels of the form: <c>sites[0].elevation</c> as 'Site 1 (Quarry), elevation'.</summary>
public static partial class PathWords
{
    private static readonly Dictionary<string, string> Groups = new(StringComparer.Ordinal)
    {
        ["day"] = "Start and fuel", ["line"] = "The long line", ["policy"] = "Operator's rules", ["approach"] = "How approaches are flown",
    };

    private static readonly Dictionary<string, string> Items = new(StringComparer.Ordinal)
    {
        ["sites"] = "Site", ["loads"] = "Load", ["rigging"] = "Rigging part", ["crew"] = "Crew", ["contacts"] = "Contact", ["forecast"] = "Forecast hour", ["obstacles"] = "Obstacle", ["wires"] = "Wire",
        ["people"] = "Person on the ground", ["landmarks"] = "Landmark", ["emergencySpots"] = "Emergency spot", ["due"] = "Item due", ["gates"] = "Gate", ["partRules"] = "Rule",
    };

    /// <summary>Keys and words of the file that no one writes as a word by itself: <c>massKg</c>, <c>pickUp</c>.</summary>
    private static readonly Dictionary<string, string> Single = Singles();

    /// <summary>Heading of an outermost group of the job file: 'The long line'.</summary>
    public static string Heading(string name) => Groups.GetValueOrDefault(name) ?? JobForm.Label(name);

    /// <summary>A path in the form's labels; the path itself where the form has no such field.</summary>
    /// <param name="document">The job, for the names of its items.</param>
    /// <param name="path">Such as <c>sites[0].elevation</c>; its last key may carry a unit.</param>
    public static string Of(JobDocument document, string path)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(path);
        return Say(document, path) ?? path;
    }

    /// <summary>A sentence with its paths and keys said in the form's labels.</summary>
    public static string InText(JobDocument document, string text)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(text);
        return Candidate().Replace(text, m => Single.GetValueOrDefault(m.Value) ?? (m.ValueSpan.IndexOfAny('.', '[') > 0 ? Say(document, m.Value) : null) ?? m.Value);
    }

    private static string? Say(JobDocument document, string path)
    {
        if (JobPath.Steps(path) is not { Count: > 0 } steps)
            return null;
        List<string> words = [];
        GroupShape? shape = GroupShape.Of(typeof(LiftRequest));
        string at = "";
        foreach (JobStep step in steps)
        {
            if (shape is null || Member(shape, step.Name) is not { } member)
                return null;
            at = JobPath.Join(at, member.Name);
            if (step.Index is { } index)
                at = JobPath.Item(at, index);
            string word = step.Index is { } place ? Item(document, at, member, place) : words.Count == 0 ? Heading(member.Name) : JobForm.Label(member.Name);
            words.Add(words.Count == 0 ? word : Lower(word));
            shape = member.Value.Innermost.Kind == ShapeKind.Group ? member.Value.Innermost.Group : null;
        }
        return string.Join(", ", words);
    }

    private static JobMember? Member(GroupShape shape, string name) => shape.Members.FirstOrDefault(m => m.Name == name) ?? (shape.TryFind(name, out JobMember keyed, out _) ? keyed : null);

    private static string Item(JobDocument document, string item, JobMember member, int index)
    {
        string number = (index + 1).ToString(CultureInfo.InvariantCulture), word = Items.GetValueOrDefault(member.Name) ?? JobForm.Label(member.Name);
        if (member.Value.Innermost.Kind != ShapeKind.Group)
            return $"{word} {number}";
        string name = Typed(document, member, item, "name") ?? Typed(document, member, item, "hour") ?? "";
        string place = member.Name == "loads" && Typed(document, member, item, "number") is { } own ? own : number;
        return name.Length > 0 ? $"{word} {place} ({JobValue.Shown(name)})" : $"{word} {place}";
    }

    private static string? Typed(JobDocument document, JobMember member, string item, string name) =>
        member.Value.Innermost.Group.Members.Any(m => m.Name == name) && document.Typed($"{item}.{name}") is { Length: > 0 } typed ? typed : null;

    /// <summary>The first letter small, unless the word is an abbreviation.</summary>
    private static string Lower(string word) => word.Length > 1 && char.IsUpper(word[1]) ? word : char.ToLowerInvariant(word[0]) + word[1..];

    private static Dictionary<string, string> Singles()
    {
        Dictionary<string, string> said = new(StringComparer.Ordinal);
        JobMember[] members = [.. GroupShape.Of(typeof(LiftRequest)).Nested().SelectMany(n => n.Group.Members)];
        foreach (JobMember member in members)
            foreach (string key in member.Keys.Where(HasHump))
                said[key] = Lower(JobForm.Label(member.Name));
        // A word of a choice is met more often than a key of the same name.
        foreach (string word in members.SelectMany(m => m.Value.Innermost.Words).Where(HasHump))
            said[word] = JobForm.Say(word);
        return said;
    }

    private static bool HasHump(string word) => word.Skip(1).Any(char.IsUpper);

    [GeneratedRegex(@"(?<![\w./'-])[a-z][A-Za-z0-9]*(\[[0-9]{1,4}\])?(\.[a-z][A-Za-z0-9]*(\[[0-9]{1,4}\])?)*(?![\w'/-])", RegexOptions.CultureInvariant)]
    private static partial Regex Candidate();
}
