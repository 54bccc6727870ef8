using System.ComponentModel;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Stillhook.Files.Reports;

/// <summary>Documents of records as JSON, and their schema from the same types.</summary>
internal static class PlanJson
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        TypeInfoResolver = new DefaultJsonTypeInfoResolver(),
        WriteIndented = true,
        RespectNullableAnnotations = true,
        NumberHandling = JsonNumberHandling.Strict,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static void Write<T>(Stream stream, T document) => JsonSerializer.Serialize(stream, document, Options);

    public static string Schema<T>()
    {
        JsonObject schema = (JsonObject)Options.GetJsonSchemaAsNode(typeof(T), new()
        {
            TreatNullObliviousAsNonNullable = true,
            TransformSchemaNode = (context, node) =>
            {
                object? given = context.PropertyInfo?.AttributeProvider?.GetCustomAttributes(typeof(DescriptionAttribute), inherit: false).FirstOrDefault();
                if (given is DescriptionAttribute { Description: { } text } && node is JsonObject known)
                    known.Insert(0, "description", text);
                return node;
            },
        });
        schema.Insert(0, "$schema", "https://json-schema.org/draft/2020-12/schema");
        return schema.ToJsonString(Options);
    }

    public static string Camel<T>(T word)
        where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(word.ToString());
}
