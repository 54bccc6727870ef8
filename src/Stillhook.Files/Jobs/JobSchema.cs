using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs;

/// <summary>The published JSON Schema of the job file (draft 2020-12), written from the same types that the reader fills.</summary>
/// <remarks>It says what a key may hold. What only makes sense together (names, axes, precedence) is checked by the program alone.</remarks>
public static class JobSchema
{
    private const string NotBlank = "\\S";

    /// <summary>Two slashes, written so that no validator takes them for a path.</summary>
    private const string CommentKey = "^\\x2F\\x2F";

    /// <summary>The schema as text, ending in a line feed.</summary>
    public static string Text()
    {
        using MemoryStream bytes = new();
        // Read by people too: ° and ' stay as they are.
        JsonWriterOptions options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
        using (Utf8JsonWriter json = new(bytes, options))
            Document(json);
        return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
    }

    private static void Document(Utf8JsonWriter json)
    {
        GroupShape root = GroupShape.Of(typeof(LiftRequest));
        json.WriteStartObject();
        json.WriteString("$schema", "https://json-schema.org/draft/2020-12/schema");
        json.WriteString("$id", "urn:stillhook:job-file:1");
        json.WriteString("title", "Stillhook job file");
        json.WriteString("description", "Every key carries its unit. // comments and trailing commas are allowed in the file itself.");
        Group(json, root);
        json.WriteStartObject("$defs");
        foreach ((_, GroupShape group) in root.Nested().Skip(1))
        {
            json.WriteStartObject(Name(group));
            Group(json, group);
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static string Name(GroupShape group) => JsonNamingPolicy.CamelCase.ConvertName(group.Type.Name);

    private static void Group(Utf8JsonWriter json, GroupShape group)
    {
        json.WriteString("type", "object");
        json.WriteStartObject("properties");
        if (group.Type == typeof(LiftRequest))
        {
            json.WriteStartObject("$schema");
            json.WriteEndObject();
        }
        foreach (JobMember member in group.Members)
            for (int i = 0; i < member.Keys.Count; i++)
                Property(json, member, i);
        json.WriteEndObject();
        json.WriteStartObject("patternProperties");
        json.WriteStartObject(CommentKey);
        json.WriteEndObject();
        json.WriteEndObject();
        json.WriteBoolean("additionalProperties", false);
        Required(json, group);
    }

    /// <summary>Members with one key are simply required; of several keys exactly one, or at most one where the member may be left out.</summary>
    private static void Required(Utf8JsonWriter json, GroupShape group)
    {
        JobMember[] plain = [.. group.Members.Where(m => m.IsRequired && m.Keys.Count == 1)];
        JobMember[] choices = [.. group.Members.Where(m => m.Keys.Count > 1)];
        if (plain.Length > 0)
        {
            json.WriteStartArray("required");
            foreach (JobMember member in plain)
                json.WriteStringValue(member.Keys[0]);
            json.WriteEndArray();
        }
        if (choices.Length == 0)
            return;
        json.WriteStartArray("allOf");
        foreach (JobMember member in choices)
            Choice(json, member);
        json.WriteEndArray();
    }

    private static void Choice(Utf8JsonWriter json, JobMember member)
    {
        string[] each = [.. member.Keys.Select(k => $"{{ \"required\": [\"{k}\"] }}")];
        string none = member.IsRequired ? "" : $", {{ \"not\": {{ \"anyOf\": [{string.Join(", ", each)}] }} }}";
        json.WriteRawValue($"{{ \"oneOf\": [{string.Join(", ", each)}{none}] }}");
    }

    private static void Property(Utf8JsonWriter json, JobMember member, int key)
    {
        UnitForm? unit = member.Value.Units.Count == 0 ? null : member.Value.Units[key];
        json.WritePropertyName(member.Keys[key]);
        json.WriteRawValue(OneLine(line =>
        {
            line.WriteString("description", unit is null ? member.Description : $"{member.Description} In {unit.Symbol}.");
            Value(line, member.Value, member, unit, mayBeNull: !member.IsRequired);
        }));
    }

    private static string OneLine(Action<Utf8JsonWriter> write)
    {
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static void Value(Utf8JsonWriter json, ValueShape shape, JobMember member, UnitForm? unit, bool mayBeNull)
    {
        switch (shape.Kind)
        {
            case ShapeKind.Group: Reference(json, shape.Group, mayBeNull); break;
            case ShapeKind.Word: Words(json, shape, mayBeNull); break;
            case ShapeKind.List:
                Type(json, "array", mayBeNull);
                json.WriteNumber("maxItems", JobReader.LongestList);
                json.WriteStartObject("items");
                Value(json, shape.Item!, member, unit, shape.Item!.MayBeNull);
                json.WriteEndObject();
                break;
            case ShapeKind.Flag: Type(json, "boolean", mayBeNull); break;
            case ShapeKind.Whole or ShapeKind.Number or ShapeKind.Quantity:
                Type(json, shape.Kind == ShapeKind.Whole ? "integer" : "number", mayBeNull);
                Range(json, member.RangeIn(unit));
                break;
            default:
                Type(json, "string", mayBeNull);
                Pattern(json, shape.Kind, member.IsRequired);
                break;
        }
    }

    private static void Type(Utf8JsonWriter json, string type, bool mayBeNull)
    {
        if (!mayBeNull)
        {
            json.WriteString("type", type);
            return;
        }
        json.WriteStartArray("type");
        json.WriteStringValue(type);
        json.WriteStringValue("null");
        json.WriteEndArray();
    }

    private static void Range(Utf8JsonWriter json, (double Low, double High)? range)
    {
        if (range is not var (low, high))
            return;
        json.WriteNumber("minimum", low);
        json.WriteNumber("maximum", high);
    }

    private static void Pattern(Utf8JsonWriter json, ShapeKind kind, bool isRequired)
    {
        string? pattern = kind switch
        {
            ShapeKind.Date => MomentText.DayPattern,
            ShapeKind.Clock => MomentText.ClockPattern,
            ShapeKind.Instant => MomentText.InstantPattern,
            _ => isRequired ? NotBlank : null,
        };
        if (pattern is not null)
            json.WriteString("pattern", pattern);
    }

    private static void Words(Utf8JsonWriter json, ValueShape shape, bool mayBeNull)
    {
        json.WriteStartArray("enum");
        foreach (string word in shape.Words)
            json.WriteStringValue(word);
        if (mayBeNull)
            json.WriteNullValue();
        json.WriteEndArray();
    }

    private static void Reference(Utf8JsonWriter json, GroupShape group, bool mayBeNull)
    {
        string place = "#/$defs/" + Name(group);
        if (!mayBeNull)
        {
            json.WriteString("$ref", place);
            return;
        }
        json.WriteStartArray("anyOf");
        json.WriteStartObject();
        json.WriteString("$ref", place);
        json.WriteEndObject();
        json.WriteStartObject();
        json.WriteString("type", "null");
        json.WriteEndObject();
        json.WriteEndArray();
    }
}
