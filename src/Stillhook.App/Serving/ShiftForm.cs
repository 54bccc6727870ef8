using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;

namespace Stillhook.App.Serving;

/// <summary>What the crew reads off, as typed into the page: each field, and what is wrong with it.</summary>
public sealed class ShiftForm
{
    private readonly Dictionary<string, string> typed = [];
    private readonly Dictionary<string, string> mistakes = [];
    private DecimalMark mark = DecimalMark.Point;

    private ShiftForm()
    {
    }

    /// <summary>Fields in their order: name in the address, label, an example.</summary>
    public static IReadOnlyList<(string Name, string Label, string Example)> Fields { get; } =
    [
        ("qnh", "Altimeter setting (QNH)", "1011hPa or 29.85inHg"),
        ("oat", "Outside air temperature", "24C"),
        ("wind", "Wind, degrees true / speed", "240/18kt"),
        ("time", "Local time of the readings", "10:30"),
        ("fuel", "Fuel aboard", "180kg"),
        ("delivered", "Loads already delivered", "1, 2, 5"),
    ];

    /// <summary>What was read.</summary>
    public Shift Shift { get; private set; } = new();

    /// <summary>Something was typed.</summary>
    public bool IsAsked => typed.Count > 0;

    /// <summary>Nothing typed is wrong.</summary>
    public bool IsRight => mistakes.Count == 0;

    /// <summary>What was typed, as the end of an address.</summary>
    public string Query => QueryString.Create(typed.Select(t => KeyValuePair.Create(t.Key, (string?)t.Value))).ToString();

    /// <summary>What was typed into a field.</summary>
    public string Typed(string field) => typed.GetValueOrDefault(field, "");

    /// <summary>What is wrong with a field, and what to type instead; null when nothing is.</summary>
    public string? Mistake(string field) => mistakes.GetValueOrDefault(field);

    /// <summary>Reads the fields.</summary>
    public static ShiftForm Read(IQueryCollection query, LiftRequest request, DecimalMark? mark = null)
    {
        ShiftForm form = new() { mark = mark ?? DecimalMark.Point };
        foreach ((string name, _, _) in Fields)
            if (query[name].ToString().Trim() is { Length: > 0 } text)
                form.typed[name] = text;
        form.Shift = new()
        {
            QnhPa = form.Read<UnitsNet.Pressure>("qnh", QuantityText.TryPressure)?.Pascals,
            TemperatureC = form.Read<UnitsNet.Temperature>("oat", QuantityText.TryTemperature)?.DegreesCelsius,
            Wind = form.Read<Debriefing.Wind>("wind", QuantityText.TryWind),
            Minute = form.Read<TimeOnly>("time", QuantityText.TryClock)?.ToTimeSpan().TotalMinutes,
            FuelKg = form.Read<UnitsNet.Mass>("fuel", QuantityText.TryMass)?.Kilograms,
            Delivered = [.. form.Typed("delivered").Split([',', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)],
        };
        if (form.Shift.FuelKg < 0)
            form.mistakes["fuel"] = "Fuel is not below zero. Type it like 180kg.";
        if (form.IsRight && Rechecker.Refuse(request, form.Shift) is { } refused)
            form.mistakes["delivered"] = char.ToUpperInvariant(refused[0]) + refused[1..];
        return form;
    }

    private delegate bool Reader<T>(string text, out T value, out string expected);

    private T? Read<T>(string field, Reader<T> read)
        where T : struct
    {
        if (!typed.TryGetValue(field, out string? text))
            return null;
        if (read(mark.Read(text), out T value, out string expected))
            return value;
        mistakes[field] = $"This can’t be read. Expected {mark.Sentence(expected)}.";
        return null;
    }
}
