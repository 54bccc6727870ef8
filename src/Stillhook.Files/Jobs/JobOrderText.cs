using System.Text;
using System.Text.Json;

namespace Stillhook.Files.Jobs;

/// <summary>Puts an order of the loads into the text of a job file, or takes it out; all else, comments too, stays as it was typed.</summary>
public static class JobOrderText
{
    /// <summary>The text with the order set.</summary>
    /// <param name="text">A job file that can be read and has a day.</param>
    /// <param name="numbers">Numbers of the loads in order; none takes the order out.</param>
    /// <returns>The text; null where it has no group <c>day</c>.</returns>
    public static string? With(string text, IReadOnlyList<string> numbers)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(numbers);
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        if (Find(bytes) is not { } found)
            return null;
        string list = $"\"order\": [{string.Join(", ", numbers.Select(n => JsonSerializer.Serialize(n)))}]";
        (int from, int to) = found.Order ?? (found.Inside, found.Inside);
        string before = Encoding.UTF8.GetString(bytes.AsSpan(0, from)), after = Encoding.UTF8.GetString(bytes.AsSpan(to));
        if (numbers.Count > 0)
            return found.Order is not null ? before + list + after : $"{before}\n    {list}{(found.IsEmpty ? "" : ",")}{after}";
        if (found.Order is null)
            return text;
        // The comma behind it goes with it, or the one before it when it stood last; a trailing comma is allowed anyway.
        string rest = after.TrimStart();
        return rest.StartsWith(',') ? before.TrimEnd() + rest[1..] : before.TrimEnd().TrimEnd(',') + after;
    }

    private static (int Inside, bool IsEmpty, (int From, int To)? Order)? Find(byte[] bytes)
    {
        int mark = bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? Encoding.UTF8.Preamble.Length : 0;
        Utf8JsonReader reader = new(bytes.AsSpan(mark), new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
        (int Inside, bool IsEmpty, (int From, int To)? Order)? found = null;
        bool inDay = false;
        int from = 0;
        while (reader.Read())
        {
            if (reader is { TokenType: JsonTokenType.PropertyName, CurrentDepth: 1 })
                inDay = reader.ValueTextEquals("day");
            else if (inDay && found is null && reader is { TokenType: JsonTokenType.StartObject, CurrentDepth: 1 })
                found = (mark + (int)reader.BytesConsumed, true, null);
            else if (inDay && found is { } day && reader is { TokenType: JsonTokenType.PropertyName, CurrentDepth: 2 })
            {
                found = day with { IsEmpty = false };
                if (!reader.ValueTextEquals("order"))
                    continue;
                from = mark + (int)reader.TokenStartIndex;
                reader.Read();
                reader.Skip();
                found = day with { IsEmpty = false, Order = (from, mark + (int)reader.BytesConsumed) };
            }
        }
        return found;
    }
}
