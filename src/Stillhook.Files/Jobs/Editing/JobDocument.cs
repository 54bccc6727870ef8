using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>
/// A job file's text while it is edited field by field. What is typed is kept as typed, also where it can't be read: reading the text then gives the finding, and nothing
/// is lost. Comments of a file written by hand are not kept by the first change.
/// </summary>
public sealed class JobDocument
{
    private static readonly JsonSerializerOptions Written = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly JsonDocumentOptions Reading = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = 64 };

    private readonly JsonObject root;

    private JobDocument(JsonObject root) => this.root = root;

    /// <summary>A text's document; null when it is no JSON group and so can't be edited by fields.</summary>
    /// <param name="text">The job file's text.</param>
    /// <param name="units">Units of the person who fills it in.</param>
    public static JobDocument? Read(string text, DisplayUnits? units = null)
    {
        try
        {
            return JsonNode.Parse(text, null, Reading) is JsonObject root ? new(root) { Units = units } : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>A job of which nothing is known but its name.</summary>
    public static JobDocument New(string name) => new(new JsonObject { ["job"] = name });

    /// <summary>The units that the person reads who fills it in; an elevation begins in them. Null takes the first unit of each kind.</summary>
    public DisplayUnits? Units { get; init; }

    /// <summary>Mark before the decimals, as it is typed and shown here.</summary>
    internal DecimalMark Mark => Units?.Mark ?? DecimalMark.Point;

    /// <summary>The text, ending in a line feed.</summary>
    public string Text => root.ToJsonString(Written) + "\n";

    /// <summary>What stands in a field, as a person types it; empty when nothing does.</summary>
    /// <exception cref="ArgumentException">The job file has no such field.</exception>
    public string Typed(string path)
    {
        (JsonObject? group, JobMember member, int? index) = Find(path, make: false);
        JsonNode? value = index is null ? Value(group, member) : (Value(group, member) as JsonArray)?.ElementAtOrDefault(index.Value);
        if (member.Value.Innermost.IsNumber)
            return value is JsonArray list ? string.Join(Mark == DecimalMark.Point ? ", " : "; ", list.Select(v => Mark.Shown(FieldText.Shown(v)))) : Mark.Shown(FieldText.Shown(value));
        string shown = FieldText.Shown(value);
        return member.Value.Kind == ShapeKind.Instant ? FieldMoment.Shown(shown) : shown;
    }

    /// <summary>Unit that a field is written in, by its symbol; empty where it has none.</summary>
    public string UnitOf(string path)
    {
        (JsonObject? group, JobMember member, _) = Find(path, make: false);
        return FormOf(group, member)?.Symbol ?? "";
    }

    /// <summary>Writes what was typed into a field; empty takes it out. A figure may carry its unit (1720 lb): the field is in that unit from then on.</summary>
    /// <exception cref="ArgumentException">The job file has no such field.</exception>
    public void Set(string path, string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        typed = typed.Trim();
        (JsonObject? found, JobMember member, _) = Find(path, make: typed.Length > 0);
        if (found is not { } group)
            return;
        // Under the comma the items of a list are divided by semicolons.
        if (member.Value.Innermost.IsNumber)
            typed = Mark.Read(typed);
        UnitForm? form = FormOf(group, member);
        if (form is not null && FieldText.SplitUnit(typed, member.Value.Units) is var (number, named))
            (typed, form) = (number, named);
        if (member.Value.Kind == ShapeKind.Instant)
            typed = FieldMoment.Written(typed, (string?)(root["date"] as JsonValue), (string?)(root["timeZone"] as JsonValue));
        if (member.Name is "latitude" or "longitude")
            typed = FieldText.WithoutLetter(typed, member.Name == "latitude");
        JsonNode? value = FieldText.Value(typed, member.Value);
        string key = member.Name + form?.Ending;
        int at = group.Select(e => e.Key).TakeWhile(k => !member.Keys.Contains(k)).Count();
        foreach (string old in member.Keys)
            group.Remove(old);
        if (value is not null)
            group.Insert(Math.Min(at, group.Count), key, value);
        else
            Prune(path);
    }

    /// <summary>How many items a list has.</summary>
    public int Count(string listPath) => List(listPath, make: false)?.Count ?? 0;

    /// <summary>Adds an item to a list of groups.</summary>
    /// <param name="listPath">The list.</param>
    /// <param name="copyLast">Begins with what the last item holds, its number counted up. How its mass is known is left out: another load was not weighed because this one was.</param>
    /// <returns>Path of the new item.</returns>
    public string Add(string listPath, bool copyLast = false)
    {
        JsonArray list = List(listPath, make: true)!;
        JsonObject item = copyLast && list.LastOrDefault() is JsonObject last ? (JsonObject)last.DeepClone() : [];
        if (copyLast && (string?)item["number"] is { } number)
            item["number"] = FieldText.Following(number);
        if (copyLast && listPath == "loads")
            item.Remove("howKnown");
        list.Add((JsonNode)item);
        return JobPath.Item(listPath, list.Count - 1);
    }

    /// <summary>Takes an item out of its list.</summary>
    public void Remove(string itemPath)
    {
        (JsonArray list, int index) = Item(itemPath);
        list.RemoveAt(index);
        if (list.Count == 0)
            Set(itemPath[..itemPath.LastIndexOf('[')], "");
    }

    /// <summary>Moves an item along its list; at an end it stays.</summary>
    public void Move(string itemPath, int by)
    {
        (JsonArray list, int index) = Item(itemPath);
        int to = Math.Clamp(index + by, 0, list.Count - 1);
        JsonNode? item = list[index];
        list.RemoveAt(index);
        list.Insert(to, item);
    }

    /// <summary>Puts a whole group in the place of another; null takes it out.</summary>
    /// <param name="path">The group, such as <c>aircraft</c>.</param>
    /// <param name="json">The group's text.</param>
    public void Put(string path, string? json)
    {
        (JsonObject? group, JobMember member, int? index) = Find(path, make: true);
        JsonNode? value = json is null ? null : JsonNode.Parse(json, null, Reading);
        if (index is { } i)
            ((JsonArray)Value(group, member)!)[i] = value;
        else if (value is null)
            group!.Remove(member.Name);
        else
            group![member.Name] = value;
    }

    /// <summary>Text of a group or list; null when it isn't there.</summary>
    public string? Part(string path)
    {
        (JsonObject? group, JobMember member, int? index) = Find(path, make: false);
        JsonNode? value = Value(group, member);
        return (index is { } i ? (value as JsonArray)?.ElementAtOrDefault(i) : value)?.ToJsonString(Written);
    }

    internal JsonArray? List(string listPath, bool make)
    {
        (JsonObject? group, JobMember member, _) = Find(listPath, make);
        if (Value(group, member) is JsonArray list || !make)
            return Value(group, member) as JsonArray;
        group![member.Name] = list = [];
        return list;
    }

    /// <summary>A member's value as written, under whichever unit.</summary>
    internal static JsonNode? Value(JsonObject? group, JobMember member) => group is null ? null : member.Keys.Select(k => group[k]).FirstOrDefault(v => v is not null);

    /// <summary>The group that a path lies in, its member and the place in the member's list.</summary>
    internal (JsonObject? Group, JobMember Member, int? Index) Find(string path, bool make)
    {
        IReadOnlyList<JobStep> steps = JobPath.Steps(path) ?? throw NoField(path);
        GroupShape shape = GroupShape.Of(typeof(LiftRequest));
        JsonObject? at = root;
        for (int i = 0; ; i++)
        {
            JobMember member = shape.Members.FirstOrDefault(m => m.Name == steps[i].Name) ?? throw NoField(path);
            if (steps[i].Index is not null && member.Value.Kind != ShapeKind.List)
                throw NoField(path);
            if (i == steps.Count - 1)
                return (at, member, steps[i].Index);
            ValueShape inner = steps[i].Index is null ? member.Value : member.Value.Item!;
            if (inner.Kind != ShapeKind.Group)
                throw NoField(path);
            shape = inner.Group;
            at = steps[i].Index is { } index ? (Value(at, member) as JsonArray)?.ElementAtOrDefault(index) as JsonObject : Inner(at, member, make);
            if (at is null && make)
                throw NoField(path);
        }
    }

    private static JsonObject? Inner(JsonObject? at, JobMember member, bool make)
    {
        if (at?[member.Name] is JsonObject there || !make)
            return at?[member.Name] as JsonObject;
        at![member.Name] = there = [];
        return there;
    }

    private (JsonArray List, int Index) Item(string itemPath)
    {
        (JsonObject? group, JobMember member, int? index) = Find(itemPath, make: false);
        return Value(group, member) is JsonArray list && index is { } i && i < list.Count ? (list, i) : throw NoField(itemPath);
    }

    /// <summary>An optional group whose last field was cleared goes too, else what it needs would be missed.</summary>
    private void Prune(string path)
    {
        for (int dot = path.LastIndexOf('.'); dot > 0; dot = path.LastIndexOf('.'))
        {
            path = path[..dot];
            if (path.EndsWith(']'))
                return;
            (JsonObject? group, JobMember member, _) = Find(path, make: false);
            if (Value(group, member) is not JsonObject { Count: 0 })
                return;
            group!.Remove(member.Name);
        }
    }

    private UnitForm? FormOf(JsonObject? group, JobMember member) => member.Value.Units.FirstOrDefault(u => group?[member.Name + u.Ending] is not null) ?? Usual(member);

    /// <summary>Unit a field begins in; null where it has none.</summary>
    internal UnitForm? Usual(JobMember member) => member.Value.Units.FirstOrDefault(u => u.Ending == (member.Name == "elevation" && Units?.HeightUnit == "ft" ? "Ft" : Customary(member.Name))) ?? member.Value.Units.FirstOrDefault();

    /// <summary>Unit that an instrument or the trade gives a figure in, where it is not the first one.</summary>
    private static string Customary(string member) => member switch { "altimeter" => "Ft", "sink" or "highestSink" or "climb" => "FtPerMin", "tipSpeed" => "Ms", "refuelStop" or "reserve" or "ferry" or "breakAfter" or "break" => "Min", "flyingPerDay" or "dutyDay" or "slingTimeLastYear" or "timeInThisTerrain" => "H", _ => "" };

    private static ArgumentException NoField(string path) => new($"The job file has no field '{JobValue.Shown(path)}', or it is there no more.", nameof(path));
}
