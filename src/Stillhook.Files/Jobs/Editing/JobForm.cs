using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>How a field is filled in.</summary>
public enum FieldKind
{
    /// <summary>Words.</summary>
    Text,

    /// <summary>One of a few words.</summary>
    Choice,

    /// <summary>A day.</summary>
    Date,

    /// <summary>A clock time.</summary>
    Clock,

    /// <summary>A moment: day, time and offset from UTC.</summary>
    Moment,

    /// <summary>A number, with or without a unit.</summary>
    Number,

    /// <summary>A few words or numbers with commas.</summary>
    Few,

    /// <summary>A table of numbers, pasted whole.</summary>
    Table,

    /// <summary>A group of fields.</summary>
    Group,

    /// <summary>A list of groups.</summary>
    Items,
}

/// <summary>One field of the form.</summary>
/// <param name="Path">Its path, such as <c>sites[0].elevation</c>.</param>
/// <param name="Label">What it is called.</param>
/// <param name="Hint">What is to be written.</param>
/// <param name="Kind">How it is filled in.</param>
/// <param name="IsNeeded">The group it lies in can't be used without it.</param>
/// <param name="Typed">What stands there, as typed.</param>
/// <param name="Unit">Unit it is written in; where it is not the usual one, with what that is in the usual one.</param>
/// <param name="Choices">The words to choose from, as the file has them and as people say them.</param>
/// <param name="Mistakes">What is wrong with it, in words, and what to type instead.</param>
/// <param name="Default">What a plan takes when the field is left empty, with its unit; empty where there is no stated default.</param>
public sealed record JobField(string Path, string Label, string Hint, FieldKind Kind, bool IsNeeded, string Typed, string Unit, IReadOnlyList<(string Value, string Shown)> Choices, IReadOnlyList<string> Mistakes, string Default = "");

/// <summary>The job file as a form: the same types that the reader fills, with their descriptions, and what was found wrong beside each field.</summary>
/// <param name="document">What is being edited.</param>
/// <param name="file">The same, read.</param>
public sealed partial class JobForm(JobDocument document, JobFile file)
{
    /// <summary>Reads a document's text.</summary>
    public static JobForm Of(JobDocument document)
    {
        ArgumentNullException.ThrowIfNull(document);
        return new(document, JobFile.Read(document.Text));
    }

    /// <summary>What is being edited.</summary>
    public JobDocument Document => document;

    /// <summary>Mark before the decimals of the person who fills it in.</summary>
    public DecimalMark Mark => document.Mark;

    /// <summary>The same, read.</summary>
    public JobFile File => file;

    /// <summary>Names of a group's members in the order of the file.</summary>
    /// <param name="path">The group; empty for the job itself. An item of a list by its place.</param>
    public static IReadOnlyList<string> Members(string path) => [.. ShapeOf(path).Members.Select(m => m.Name)];

    /// <summary>The fields of some members of a group.</summary>
    public IReadOnlyList<JobField> Fields(string group, IEnumerable<string> members) => [.. members.Select(m => Field(JobPath.Join(group, m)))];

    /// <summary>One field.</summary>
    /// <exception cref="ArgumentException">The job file has no such field.</exception>
    public JobField Field(string path)
    {
        (JsonObject? group, JobMember member, _) = document.Find(path, make: false);
        FieldKind kind = KindOf(member.Value);
        string range = member.Range is var (low, high) && document.UnitOf(path) is var unit
            ? $" {Mark.Shown(NumberAdvice.Shown(member.RangeIn(Form(member, unit))!.Value.Low))} to {Mark.Shown(NumberAdvice.Shown(member.RangeIn(Form(member, unit))!.Value.High))}{(unit.Length > 0 ? " " + unit : "")}." : "";
        return new(path, Label(member.Name), member.Description + range, kind, member.IsRequired && group is not null, document.Typed(path), UnitShown(document.Typed(path), member, document.UnitOf(path)),
            [.. Choices(member.Value)], [.. Mistakes(path, member, JobDocument.Value(group, member))], DefaultOf(path, member, document.UnitOf(path)));
    }

    private string DefaultOf(string path, JobMember member, string symbol) => Form(member, symbol) is { } unit && StatedDefaults.Of(path, unit) is { } value ? $"{Mark.Shown(NumberAdvice.Shown(Math.Round(value, 1)))} {unit.Symbol}" : "";

    /// <summary>A finding's sentence in the form's labels.</summary>
    public string Say(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return PathWords.InText(document, $"{finding.What} {finding.Done}");
    }

    /// <summary>Label of a member.</summary>
    public static string Label(string name) => Labels.GetValueOrDefault(name) ?? FieldText.Words(name);

    /// <summary>A word of the file as people say it.</summary>
    public static string Say(string word) => word switch { "pickUp" => "pick-up", "hookUp" => "hook-up crew", _ => word.Length == 1 ? word : FieldText.Words(word).ToLowerInvariant() };

    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["job"] = "Name of the job", ["date"] = "Day", ["use"] = "Used for", ["qnh"] = "QNH", ["howKnown"] = "How the mass is known", ["from"] = "From", ["for"] = "What for",
        ["reach"] = "Telephone or radio", ["hoverOutOfGroundEffect"] = "Hover chart out of ground effect", ["hoverInGroundEffect"] = "Hover chart in ground effect",
        ["hoverTorque"] = "Hover torque page", ["recon"] = "Altimeter reading at the spot", ["weather"] = "Weather as observed", ["forecast"] = "Forecast by the hour",
        ["people"] = "People on the ground", ["due"] = "Maintenance and papers due", ["after"] = "Only after loads", ["cycle"] = "Time of a rotation", ["cycleSpread"] = "Spread of that time",
        ["latestEnd"] = "Back at the latest", ["start"] = "Start", ["measuredOn"] = "Measured on rotations", ["fitsHookAbove"] = "Fits the hook above, checked by hand",
    };

    /// <summary>A field that was typed in another unit says what that is in the usual one, so that a figure typed over it is not taken for the usual unit.</summary>
    private string UnitShown(string typed, JobMember member, string symbol)
    {
        UnitForm? usual = document.Usual(member), now = Form(member, symbol);
        if (usual is null || now is null || now == usual || !double.TryParse(Mark.Read(typed), NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
            return symbol;
        double same = UnitsNet.UnitConverter.Convert(value, now.Unit, usual.Unit);
        return $"{symbol} = {Mark.Shown(same.ToString(Math.Abs(same) < 100 ? "0.#" : "0", CultureInfo.InvariantCulture))} {usual.Symbol}";
    }

    private static UnitForm? Form(JobMember member, string symbol) => member.Value.Units.FirstOrDefault(u => u.Symbol == symbol);

    private static GroupShape ShapeOf(string path)
    {
        GroupShape shape = GroupShape.Of(typeof(LiftRequest));
        if (path.Length == 0)
            return shape;
        foreach (JobStep step in JobPath.Steps(path) ?? throw new ArgumentException($"'{path}' is no path.", nameof(path)))
            shape = shape.Members.First(m => m.Name == step.Name).Value.Innermost.Group;
        return shape;
    }

    private static FieldKind KindOf(ValueShape shape) => shape.Kind switch
    {
        ShapeKind.Group => FieldKind.Group,
        ShapeKind.List when shape.Item!.Kind == ShapeKind.Group => FieldKind.Items,
        ShapeKind.List when shape.Item!.Kind == ShapeKind.List => FieldKind.Table,
        ShapeKind.List => FieldKind.Few,
        ShapeKind.Flag or ShapeKind.Word => FieldKind.Choice,
        ShapeKind.Date => FieldKind.Date,
        ShapeKind.Clock => FieldKind.Clock,
        ShapeKind.Instant => FieldKind.Moment,
        ShapeKind.Number or ShapeKind.Whole or ShapeKind.Quantity => FieldKind.Number,
        _ => FieldKind.Text,
    };

    private static IEnumerable<(string Value, string Shown)> Choices(ValueShape shape) => shape.Kind switch
    {
        ShapeKind.Flag => [("yes", "yes"), ("no", "no")],
        ShapeKind.Word => shape.Words.Select(w => (w, Say(w))),
        _ => [],
    };

    private IEnumerable<string> Mistakes(string path, JobMember member, JsonNode? value)
    {
        bool number = KindOf(member.Value) == FieldKind.Number;
        foreach (Finding finding in file.FindingsByPath[path])
            yield return finding.Code switch
            {
                "job-missing-key" => "Needed: " + member.Description,
                "job-not-number" when number => NotNumber(member, FieldText.Shown(value)),
                _ when member.Value.IsNumber => Mark.Figures(PathWords.InText(document, Plain(finding.What, path) + " " + finding.Done)),
                _ => PathWords.InText(document, Plain(finding.What, path) + " " + finding.Done),
            };
    }

    private string NotNumber(JobMember member, string typed)
    {
        if (member.Name is "latitude" or "longitude")
            return $"'{Mark.Shown(JobValue.Shown(typed))}' is no {member.Name}. Type it in degrees with a decimal {Mark.Name}, such as {Mark.Figures(member.Name == "latitude" ? "47.0512 or 47.0512 N; south is negative or has an S" : "8.5034 or 8.5034 E; west is negative or has a W")}.";
        if (ThousandsMarks().IsMatch(typed))
            return $"'{Mark.Shown(JobValue.Shown(typed))}' is no number. Type it without marks between the thousands, such as {typed.Replace(",", "", StringComparison.Ordinal)}; a decimal {Mark.Name} stands before decimals.";
        string example = typed.Contains(',', StringComparison.Ordinal) && FieldText.Number(typed.Replace(',', '.')) is not null ? typed.Replace(',', '.') : "12.5";
        string units = member.Value.Units.Count > 0 ? $" A unit may stand behind it: {string.Join(", ", member.Value.Units.Select(u => u.Symbol))}." : "";
        return $"'{Mark.Shown(JobValue.Shown(typed))}' is no number. Type it with a decimal {Mark.Name}, such as {Mark.Shown(example)}.{units}";
    }

    [GeneratedRegex("^[0-9]{1,3}(,[0-9]{3})+$", RegexOptions.CultureInvariant)]
    private static partial Regex ThousandsMarks();

    /// <summary>The sentence without the path at its head: it stands beside the field.</summary>
    private static string Plain(string what, string path)
    {
        int colon = what.IndexOf(": ", StringComparison.Ordinal);
        if (colon < 0 || !what.StartsWith(path[..Math.Min(path.Length, colon)], StringComparison.Ordinal))
            return what;
        string rest = what[(colon + 2)..];
        return char.ToUpperInvariant(rest[0]) + rest[1..];
    }
}
