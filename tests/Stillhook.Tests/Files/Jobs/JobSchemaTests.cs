using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Jobs;

/// <summary>The published schema, tried with an independent validator: file and schema can't part.</summary>
public partial class JobSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(JobSchema.Text());

    private static bool IsAccepted(JsonNode node)
    {
        using JsonDocument document = JsonDocument.Parse(node.ToJsonString());
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    [Fact]
    public void Text_PublishedSchema_IsTheCurrentOne() =>
        Assert.Equal(JobSchema.Text(), File.ReadAllText(Repository.File("docs/job-file.schema.json")));

    [Fact]
    public void Text_TableOfTheDocument_IsTheCurrentOne() => Assert.EndsWith(JobKeyTable.Text(), JobExample.Document, StringComparison.Ordinal);

    [Fact]
    public void Text_Keys_AreUniqueAndDescribed()
    {
        foreach ((string path, GroupShape group) in GroupShape.Of(typeof(LiftRequest)).Nested())
        {
            // The shape itself refuses the same key twice; each quantity and number has a range and each member a description.
            Assert.All(group.Members, m => Assert.True(m.Description.Length > 0, $"{path}.{m.Name}"));
            Assert.All(group.Members.Where(m => m.Value.Innermost.Kind is ShapeKind.Quantity or ShapeKind.Number or ShapeKind.Whole), m => Assert.True(m.Range is var (low, high) && low < high, $"{path}.{m.Name}"));
        }
    }

    [Fact]
    public void Evaluate_Example_IsAccepted()
    {
        Assert.True(IsAccepted(JobExample.Node()));
        JsonObject noted = JobExample.Node();
        noted["$schema"] = "job-file.schema.json";
        noted["// note"] = "a comment";
        noted["line"]!["//"] = 1;
        Assert.True(IsAccepted(noted));
        Assert.Empty(JobExample.Read(noted.ToJsonString()).Findings);
    }

    // Of what one file alone shows (keys, kinds, ranges, words) reader and schema say the same.
    private static readonly HashSet<string> BeyondTheSchema = ["job-duplicate-key", "job-time-zone", "job-mixed-units"];

    [Fact]
    public void Evaluate_EveryValueOfTheExampleSpoilt_IsRefusedWhenTheReaderRefuses()
    {
        (string Name, Func<JsonNode?> Change)[] changes =
        [
            ("null", () => null),
            ("huge", () => 1e9),
            ("below", () => -1e9),
            ("text", () => "about 7"),
            ("list", () => new JsonArray("x")),
            ("group", () => new JsonObject { ["x"] = 1 }),
            ("flag", () => true),
        ];
        int[] places = DifferentPlaces();
        int refused = 0, accepted = 0;
        foreach (int place in places)
            foreach ((string name, Func<JsonNode?> change) in changes)
                Compare(place, name, (parent, key) => Put(parent, key, change()), ref refused, ref accepted);
        foreach (int place in places)
        {
            Compare(place, "renamed", (parent, key) => Rename(parent, key, key + "Xx"), ref refused, ref accepted);
            Compare(place, "removed", Remove, ref refused, ref accepted);
        }
        Assert.True(refused > 1000 && accepted > 100, $"{refused} refused, {accepted} accepted");
    }

    [Fact]
    public void Evaluate_RangeEnds_AreThoseOfTheReader()
    {
        foreach ((string path, GroupShape group) in GroupShape.Of(typeof(LiftRequest)).Nested().Where(g => g.Path is "aircraft" or "line" or "policy" or "quote" or "day" or "load"))
            foreach (JobMember member in group.Members.Where(m => m.Range is not null && m.Value.Kind is ShapeKind.Quantity or ShapeKind.Number or ShapeKind.Whole))
                for (int i = 0; i < member.Keys.Count; i++)
                {
                    (double low, double high) = member.RangeIn(member.Value.Units.Count == 0 ? null : member.Value.Units[i])!.Value;
                    double beyond = member.Value.Kind == ShapeKind.Whole ? 1 : (high - low) * 1e-6;
                    foreach ((double value, bool good) in new[] { (low, true), (high, true), (low - beyond, false), (high + beyond, false) })
                    {
                        JsonObject file = new() { [path] = new JsonObject { [member.Keys[i]] = value } };
                        Assert.True(IsAccepted(file) == good, file.ToJsonString());
                        Assert.True(JobExample.Read(file.ToJsonString()).IsUsable == good, file.ToJsonString());
                    }
                }
    }

    private static void Compare(int place, string name, Action<JsonNode, string> spoil, ref int refused, ref int accepted)
    {
        JsonObject node = JobExample.Node();
        (JsonNode parent, string key) = Places(node).ElementAt(place);
        string group = parent.GetPath().Split('.', '[') is [_, var first, ..] ? first : key;
        spoil(parent, key);
        // Only the outermost key concerned is kept: the rest was tried with its own places.
        foreach (string other in node.Select(e => e.Key).Where(k => !k.StartsWith(group, StringComparison.Ordinal)).ToList())
            node.Remove(other);
        JobFile job = JobExample.Read(node.ToJsonString());
        bool byReader = job.Findings.Any(f => f.Code.StartsWith("job-", StringComparison.Ordinal) && !BeyondTheSchema.Contains(f.Code));
        bool bySchema = !IsAccepted(node);
        Assert.True(byReader == bySchema, $"{parent.GetPath()}.{key} {name}: reader {(byReader ? "refuses" : "accepts")}, schema {(bySchema ? "refuses" : "accepts")}. {string.Join(" ", job.Findings.Select(f => f.Code + ": " + f.What))}");
        if (bySchema)
            refused++;
        else
            accepted++;
    }

    private static IEnumerable<(JsonNode Parent, string Key)> Places(JsonNode? node) => node switch
    {
        JsonObject group => group.ToList().SelectMany(e => Places(e.Value).Prepend((group, e.Key))),
        JsonArray list => Enumerable.Range(0, list.Count).SelectMany(i => Places(list[i]).Prepend((list, i.ToString(System.Globalization.CultureInfo.InvariantCulture)))),
        _ => [],
    };

    // Of the items of a list only the first of each kind; spoiling the second cell of a chart tells nothing new.
    private static int[] DifferentPlaces()
    {
        HashSet<string> seen = [];
        return [.. Places(JobExample.Node()).Select((p, i) => (Path: Numbers().Replace($"{p.Parent.GetPath()}.{p.Key}", "#"), i)).Where(p => seen.Add(p.Path)).Select(p => p.i)];
    }

    private static int Index(string key) => int.Parse(key, System.Globalization.CultureInfo.InvariantCulture);

    private static void Put(JsonNode parent, string key, JsonNode? value)
    {
        if (parent is JsonArray list)
            list[Index(key)] = value;
        else
            parent[key] = value;
    }

    private static void Rename(JsonNode parent, string key, string name)
    {
        if (parent is not JsonObject group)
            return;
        JsonNode? value = group[key];
        group.Remove(key);
        group[name] = value;
    }

    private static void Remove(JsonNode parent, string key)
    {
        if (parent is JsonArray list)
            list.RemoveAt(Index(key));
        else
            parent.AsObject().Remove(key);
    }

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Numbers();
}
