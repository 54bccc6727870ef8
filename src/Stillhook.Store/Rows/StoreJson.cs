using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stillhook.Debriefing;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>What stands as JSON in the tables: enumerations by their names, numbers so that they come back exactly.</summary>
[JsonSourceGenerationOptions(UseStringEnumConverter = true, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(Delivery))]
[JsonSerializable(typeof(IReadOnlyList<Stretch>))]
[JsonSerializable(typeof(TallyEntry))]
[JsonSerializable(typeof(TimeMark))]
[JsonSerializable(typeof(EventMark))]
[JsonSerializable(typeof(FuelEntry))]
[JsonSerializable(typeof(DutySpell))]
[JsonSerializable(typeof(AirReading))]
[JsonSerializable(typeof(RecheckMark))]
internal sealed partial class StoreJson : JsonSerializerContext
{
    /// <summary>A value as its document.</summary>
    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Of<T>());

    /// <summary>A document as its value.</summary>
    public static T Read<T>(string json) => JsonSerializer.Deserialize(json, Of<T>()) ?? throw new StoreException(StoreFault.Damaged, $"A document of kind {typeof(T).Name} in the store is empty. Restore the last backup.");

    private static JsonTypeInfo<T> Of<T>() => (JsonTypeInfo<T>)Default.GetTypeInfo(typeof(T))!;
}
