using System.Collections;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stillhook.Files.Jobs;
using Stillhook.Planning;

namespace Stillhook.Tests.Files.Jobs;

/// <summary>The invented job of docs/job-file.md, and ways to read, spoil and compare it.</summary>
internal static partial class JobExample
{
    public static string Document { get; } = File.ReadAllText(Repository.File("docs/job-file.md"));

    public static string Text { get; } = Example().Match(Document).Groups[1].Value;

    public static byte[] Bytes { get; } = Encoding.UTF8.GetBytes(Text);

    public static JobFile Read(string json) => JobFile.Read(json);

    public static JsonObject Node() => JsonNode.Parse(Text, documentOptions: new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true })!.AsObject();

    /// <summary>The example with one change.</summary>
    public static JobFile With(Action<JsonObject> change)
    {
        JsonObject node = Node();
        change(node);
        return Read(node.ToJsonString());
    }

    /// <summary>Everything a request holds, as text, so that two can be compared.</summary>
    public static string Dump(object? value) => value switch
    {
        null => "-",
        string text => text,
        IEnumerable list => "[" + string.Join(",", list.Cast<object?>().Select(Dump)) + "]",
        { } when value.GetType().Namespace == typeof(LiftRequest).Namespace && !value.GetType().IsEnum =>
            "{" + string.Join(",", value.GetType().GetProperties().Select(p => p.Name + "=" + Dump(p.GetValue(value)))) + "}",
        IFormattable formattable => formattable.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString()!,
    };

    [GeneratedRegex("```jsonc\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
