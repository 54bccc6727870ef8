using System.Text;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs;

/// <summary>The table of keys for docs/job-file.md, written from the same types that the reader fills.</summary>
public static class JobKeyTable
{
    private static readonly Dictionary<Type, string> Paths = GroupShape.Of(typeof(LiftRequest)).Nested().ToDictionary(g => g.Group.Type, g => g.Path);

    /// <summary>Markdown: a heading and a table for each group. A key that must be there is bold.</summary>
    public static string Text()
    {
        StringBuilder text = new();
        foreach ((string path, GroupShape group) in GroupShape.Of(typeof(LiftRequest)).Nested())
        {
            text.Append(text.Length == 0 ? "" : "\n").Append("### ").Append(path.Length == 0 ? "The outermost group" : $"`{path}`").Append("\n\n");
            text.Append("| Key | Written as | Range | Meaning |\n|---|---|---|---|\n");
            foreach (JobMember member in group.Members)
                text.Append($"| {Keys(member)} | {Written(member.Value)} | {Range(member)} | {member.Description} |\n");
        }
        return text.ToString();
    }

    private static string Keys(JobMember member)
    {
        string keys = $"`{member.Keys[0]}`";
        string others = member.Value.Units.Count > 1 ? " (" + string.Join(", ", member.Value.Units.Skip(1).Select(u => $"`{u.Ending}`")) + ")" : "";
        return (member.IsRequired ? $"**{keys}**" : keys) + others;
    }

    private static string Written(ValueShape shape) => shape.Kind switch
    {
        ShapeKind.Group => $"group, see `{Paths[shape.Type]}`",
        ShapeKind.List => "list: " + Written(shape.Item!),
        ShapeKind.Word => string.Join(", ", shape.Words),
        ShapeKind.Flag => "true or false",
        ShapeKind.Whole => "whole number",
        ShapeKind.Number or ShapeKind.Quantity => "number",
        ShapeKind.Date => "\"2026-06-01\"",
        ShapeKind.Clock => "\"14:00\"",
        ShapeKind.Instant => "\"2026-06-01T06:40:00Z\"",
        _ => "text",
    };

    private static string Range(JobMember member) => member.Range is var (low, high)
        ? $"{NumberAdvice.Shown(low)} to {NumberAdvice.Shown(high)}{(member.Value.Units.Count == 0 ? "" : " " + member.Value.Units[0].Symbol)}"
        : "";
}
