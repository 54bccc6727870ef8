using System.Globalization;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs;

/// <summary>Walks the file along the types of the request and fills them; whatever doesn't fit becomes a finding and the walk goes on.</summary>
internal sealed class JobReader(JobFindings findings)
{
    /// <summary>Longest list that is read. A day has no 2000 loads.</summary>
    public const int LongestList = 2000;

    private readonly UnitsMixed units = new();
    private readonly SpoiltPaths spoilt = new();

    /// <summary>Paths of values that are missing or could not be read: stand-ins, about which nothing more need be said.</summary>
    public SpoiltPaths Spoilt => spoilt;

    /// <summary>The request. Where something was reported as an error it holds a stand-in and must not be used.</summary>
    public LiftRequest Read(JobValue root)
    {
        object request = Group(GroupShape.Of(typeof(LiftRequest)), root, "");
        units.Report(findings);
        return (LiftRequest)request;
    }

    /// <summary>One value on its way: under which key, in which unit, where.</summary>
    private readonly record struct Place(GroupShape Group, JobMember Member, UnitForm? Unit, string Key, string Path);

    private object Group(GroupShape shape, JobValue value, string path)
    {
        object group = shape.Blank();
        if (value.Kind != JobValueKind.Group)
        {
            Spoil("job-not-object", value, path, path.Length == 0 ? "the job" : path, "Write it as { \"key\": value, ... }.");
            return group;
        }
        Dictionary<JobMember, JobEntry> given = [];
        foreach (JobEntry entry in value.Entries)
        {
            if (!shape.TryFind(entry.Key, out JobMember member, out UnitForm? unit))
                Unknown(shape, entry, path);
            else if (given.TryAdd(member, entry))
                Member(group, new(shape, member, unit, entry.Key, Join(path, member.Name)), entry);
            else
                TwoUnits(given[member], entry, Join(path, member.Name));
        }
        foreach (JobMember member in shape.Members.Where(m => m.IsRequired && !given.ContainsKey(m)))
            Missing(member, value, path);
        return group;
    }

    private void Member(object group, Place place, JobEntry entry)
    {
        if (entry.Value.Kind == JobValueKind.Null)
        {
            if (place.Member.IsRequired)
                Spoil("job-null", entry.Value, place.Path, Join(Parent(place.Path), place.Key), "This one is needed: write its value.");
            return;
        }
        if (place.Unit is not null)
            units.Note(place.Unit, entry.Key, entry.Line);
        if (Value(place.Member.Value, place, entry.Value) is { } read)
            place.Member.Property.SetValue(group, read);
    }

    /// <summary>The value, or null when it was spoilt.</summary>
    private object? Value(ValueShape shape, Place place, JobValue value)
    {
        if (value.Kind == JobValueKind.Spoilt)
        {
            spoilt.Add(place.Path);
            return null;
        }
        return shape.Kind switch
        {
            ShapeKind.Group => Group(shape.Group, value, place.Path),
            ShapeKind.List => List(shape, place, value),
            ShapeKind.Flag => value.Kind == JobValueKind.Flag ? value.Text == "true" : Spoil("job-not-flag", value, place, "Write true or false, without quotes."),
            ShapeKind.Number => Number(place, value),
            ShapeKind.Quantity => Number(place, value) is { } number ? place.Unit!.Quantity(number) : null,
            ShapeKind.Whole => Whole(place, value),
            _ => value.Kind == JobValueKind.Text ? Text(shape, place, value) : Spoil("job-not-text", value, place, "Write it in quotes."),
        };
    }

    private Array List(ValueShape shape, Place place, JobValue value)
    {
        ValueShape item = shape.Item!;
        if (value.Kind != JobValueKind.List || value.Items.Count > LongestList)
        {
            if (value.Kind != JobValueKind.List)
                Spoil("job-not-list", value, place, "Write it as a list: [ ... ].");
            else
                Spoil("job-list-too-long", place.Path, value.Line, string.Create(CultureInfo.InvariantCulture, $"{place.Path}: found a list of {value.Items.Count} items."),
                    string.Create(CultureInfo.InvariantCulture, $"At most {LongestList} are read; split the job."));
            return Array.CreateInstance(item.ElementType, 0);
        }
        Array list = Array.CreateInstance(item.ElementType, value.Items.Count);
        for (int i = 0; i < list.Length; i++)
            list.SetValue(Item(item, place with { Path = string.Create(CultureInfo.InvariantCulture, $"{place.Path}[{i}]") }, value.Items[i]), i);
        return list;
    }

    private object? Item(ValueShape shape, Place place, JobValue value)
    {
        if (value.Kind != JobValueKind.Null)
            return Value(shape, place, value) ?? (shape.MayBeNull ? null : shape.Blank());
        if (shape.MayBeNull)
            return null;
        Spoil("job-null", value, place, "Write its value, or take it out of the list.");
        return shape.Blank();
    }

    private double? Number(Place place, JobValue value)
    {
        if (value.Kind != JobValueKind.Number)
        {
            string mend = value.Kind == JobValueKind.Text ? NumberAdvice.For(place.Key, place.Member, place.Unit, place.Group, value.Text)
                : "Write a number without quotes, with a decimal point.";
            Spoil("job-not-number", value, place, mend);
            return null;
        }
        if (!double.TryParse(value.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) || !double.IsFinite(number))
        {
            Spoil("job-out-of-range", value, place, "Write a figure that can be.");
            return null;
        }
        return IsInRange(place, value, number) ? number : null;
    }

    private bool IsInRange(Place place, JobValue value, double number)
    {
        if (place.Member.RangeIn(place.Unit) is not var (low, high) || number >= low && number <= high)
            return true;
        string range = $"{NumberAdvice.Shown(low)} to {NumberAdvice.Shown(high)}{(place.Unit is null ? "" : " " + place.Unit.Symbol)}";
        string swapped = place.Member.Name is "latitude" or "longitude" ? "; check that latitude and longitude are not swapped" : "";
        Spoil(number < 0 && low >= 0 ? "job-negative" : "job-out-of-range", value, place, $"Expected {range}{swapped}.");
        return false;
    }

    private object? Whole(Place place, JobValue value)
    {
        if (Number(place, value) is not { } number)
            return null;
        if (number == Math.Floor(number) && Math.Abs(number) <= int.MaxValue)
            return (int)number;
        return Spoil("job-not-whole", value, place, "Write a whole number.");
    }

    private object? Text(ValueShape shape, Place place, JobValue value)
    {
        if (shape.Kind == ShapeKind.Text)
            return !string.IsNullOrWhiteSpace(value.Text) || !place.Member.IsRequired ? value.Text : Spoil("job-blank", value, place, "Write something here: it is needed.");
        if (shape.Kind != ShapeKind.Word)
            return MomentText.Read(shape.Kind, value.Text) ?? Spoil(MomentText.Code(shape.Kind), value, place, MomentText.Expected(shape.Kind));
        int word = shape.Words.ToList().IndexOf(value.Text);
        if (word >= 0)
            return Enum.GetValues(shape.Type).GetValue(word);
        string near = NearestWord.To(value.Text, [.. shape.Words]) is { } nearest ? $" Did you mean \"{nearest}\"?" : "";
        return Spoil("job-unknown-word", value, place, $"Write one of {string.Join(", ", shape.Words)}.{near}");
    }

    private void Unknown(GroupShape shape, JobEntry entry, string path)
    {
        // Editors look for the schema's place here.
        if (path.Length == 0 && entry.Key == "$schema")
            return;
        const string code = "job-unknown-key";
        bool room = findings.HasRoom(code);
        findings.Warning(code, entry.Line, room ? $"{(path.Length == 0 ? "the job" : path)}: the key '{JobValue.Shown(entry.Key)}' is not known and was left out." : "", room ? KeyAdvice.For(shape, entry.Key) : "");
    }

    private void TwoUnits(JobEntry first, JobEntry second, string path) => Spoil("job-two-units", path, second.Line, string.Create(CultureInfo.InvariantCulture,
        $"{path}: given as {first.Key} on line {first.Line} and as {second.Key} on line {second.Line}."), "Leave one of the two; nobody can tell which is meant.");

    private void Missing(JobMember member, JobValue group, string path) => Spoil("job-missing-key", Join(path, member.Name), group.Line,
        $"{(path.Length == 0 ? "the job" : path)}: {member.KeysInWords} is missing in the group that starts on this line.", $"Write it: {member.Description}");

    private object? Spoil(string code, JobValue value, Place place, string mend) => Spoil(code, value, place.Path, KeyPath(place), mend);

    private object? Spoil(string code, JobValue value, string path, string shown, string mend)
    {
        if (value.Kind != JobValueKind.Spoilt)
            Spoil(code, path, value.Line, $"{shown}: found {value.Describe()}.", mend);
        return null;
    }

    private void Spoil(string code, string path, long line, string what, string mend)
    {
        spoilt.Add(path);
        findings.Error(code, line, what, mend, path);
    }

    private static string Join(string path, string name) => path.Length == 0 ? name : $"{path}.{name}";

    private static string Parent(string path) => path.LastIndexOf('.') is > 0 and int at ? path[..at] : "";

    // The path with the key as it stands in the file, unit and all.
    private static string KeyPath(Place place)
    {
        int name = place.Path.LastIndexOf('.') + 1 + place.Member.Name.Length;
        return Join(Parent(place.Path), place.Key) + place.Path[name..];
    }
}
