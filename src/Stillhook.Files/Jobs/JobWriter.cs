using System.Collections;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Files.Jobs;

/// <summary>Writes a job as the job file has it, from the same types that the reader fills: what was not given is left out, quantities in the first unit of their kind.</summary>
public static class JobWriter
{
    /// <summary>The file's text, ending in a line feed.</summary>
    public static string Text(LiftRequest request)
    {
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            Group(json, GroupShape.Of(typeof(LiftRequest)), request);
        return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
    }

    private static void Group(Utf8JsonWriter json, GroupShape shape, object group)
    {
        json.WriteStartObject();
        foreach (JobMember member in shape.Members)
        {
            if (member.Property.GetValue(group) is not { } value || value is ICollection { Count: 0 })
                continue;
            json.WritePropertyName(member.Keys[0]);
            Value(json, member.Value, value);
        }
        json.WriteEndObject();
    }

    private static void Value(Utf8JsonWriter json, ValueShape shape, object? value)
    {
        switch (value)
        {
            case null:
                json.WriteNullValue();
                break;
            case IQuantity quantity:
                json.WriteNumberValue(Shown(quantity, shape));
                break;
            case bool flag:
                json.WriteBooleanValue(flag);
                break;
            case int whole:
                json.WriteNumberValue(whole);
                break;
            case double number:
                json.WriteNumberValue(number);
                break;
            case string or Enum or DateOnly or TimeOnly or DateTimeOffset:
                json.WriteStringValue(Word(value));
                break;
            case IEnumerable list:
                json.WriteStartArray();
                foreach (object? item in list)
                    Value(json, shape.Item!, item);
                json.WriteEndArray();
                break;
            default:
                Group(json, shape.Group, value);
                break;
        }
    }

    // Twelve digits: more than any entry holds, and without the last bits of a conversion.
    private static double Shown(IQuantity quantity, ValueShape shape)
    {
        double value = (double)quantity.As(shape.Units[0].Unit);
        return double.Parse(value.ToString("G12", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    private static string Word(object value) => value switch
    {
        Enum word => ValueShape.Written(word.ToString()),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        TimeOnly clock => clock.ToString("HH:mm", CultureInfo.InvariantCulture),
        DateTimeOffset moment => moment.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", CultureInfo.InvariantCulture),
        _ => (string)value,
    };
}
