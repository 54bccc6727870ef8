using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using UnitsNet;

namespace Stillhook.App.Pages;

/// <summary>One figure the crew can give for a debrief.</summary>
/// <param name="Key">Name in the form and in the store.</param>
/// <param name="Label">What the crew calls it.</param>
/// <param name="Example">How it is typed.</param>
/// <param name="Meaning">What is meant, in one line.</param>
public sealed record CrewFigure(string Key, string Label, string Example, string Meaning);

/// <summary>The crew's figures as typed text: checked, applied to a setup, shown again.</summary>
public static class CrewFigures
{
    /// <summary>All figures in the order of the form.</summary>
    public static IReadOnlyList<CrewFigure> All { get; } =
    [
        new("line", "Line", "30m or 100ft", "The line alone, belly hook to remote hook."),
        new("rigging", "Rigging", "4m", "Slings between remote hook and load."),
        new("load-height", "Load height", "1.5m", "Height of the load itself."),
        new("load", "Load", "780kg", "Mass of the load with its rigging."),
        new("drag-area", "Drag area", "1.8m2", "Drag coefficient times area of the load."),
        new("wind", "Wind", "240/12kt", "True direction it blows from, and speed."),
        new("antenna", "Antenna above hook", "2m", "Height of the recorder's antenna above the belly hook."),
        new("aircraft", "Aircraft", "1800kg", "Mass without the load."),
    ];

    /// <summary>Why a text can't be used, in words; null when it can (an empty text means 'not given').</summary>
    public static string? Mistake(string key, string text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        string expected = "";
        double value = 0;
        bool read = key switch
        {
            "line" or "rigging" or "load-height" or "antenna" => QuantityText.TryLength(text, out Length length, out expected) && Is(length.Meters),
            "load" or "aircraft" => QuantityText.TryMass(text, out Mass mass, out expected) && Is(mass.Kilograms),
            "drag-area" => QuantityText.TryArea(text, out Area area, out expected) && Is(area.SquareMeters),
            "wind" => QuantityText.TryWind(text, out Wind wind, out expected) && Is(wind.Speed.MetersPerSecond),
            _ => false,
        };
        if (!read)
            return $"'{text}' was not understood; type {expected}.";
        (double least, double most, string range) = Range(key);
        return value < least || value > most ? $"'{text}' is outside {range}." : null;

        bool Is(double v)
        {
            value = v;
            return true;
        }
    }

    /// <summary>The setup with the typed figures put in; a text that can't be used is left out (the form refuses it before it is kept).</summary>
    public static LiftSetup Apply(LiftSetup setup, IReadOnlyDictionary<string, string> typed)
    {
        foreach ((string key, string text) in typed)
            if (!string.IsNullOrWhiteSpace(text) && Mistake(key, text) is null)
                setup = Apply(setup, key, text);
        return setup;
    }

    /// <summary>What the setup holds for a figure, as text and with its origin.</summary>
    public static (string Text, Origin From) Held(LiftSetup setup, string key, DisplayUnits units) => key switch
    {
        "line" => Held(setup.Line, units),
        "rigging" => Held(setup.Rigging, units),
        "load-height" => Held(setup.LoadHeight, units),
        "antenna" => Held(setup.AntennaAboveHook, units),
        "load" => Held(setup.Load, units),
        "aircraft" => Held(setup.Aircraft, units),
        "drag-area" => (units.Number(setup.DragArea.Value.SquareMeters, 1) + " m²", setup.DragArea.From),
        "wind" when setup.Wind is { } wind => ($"{units.Number(wind.Value.FromDeg, 0)}° / {units.SpeedText(wind.Value.Speed.MetersPerSecond)}", wind.From),
        "wind" => ("none", Origin.Assumed),
        _ => throw new ArgumentOutOfRangeException(nameof(key), key, "No such figure."),
    };

    /// <summary>An origin in words.</summary>
    public static string Words(Origin from) => from switch
    {
        Origin.Assumed => "assumed",
        Origin.Typed => "typed",
        Origin.JobFile => "job file",
        _ => "record",
    };

    private static (string, Origin) Held(Given<Length> length, DisplayUnits units) => (units.Number(length.Value.Meters, 1) + " m", length.From);

    private static (string, Origin) Held(Given<Mass> mass, DisplayUnits units) => (units.Number(mass.Value.Kilograms, 0) + " kg", mass.From);

    private static LiftSetup Apply(LiftSetup setup, string key, string text)
    {
        switch (key)
        {
            case "load" or "aircraft":
                QuantityText.TryMass(text, out Mass mass, out _);
                Given<Mass> kilograms = new(mass, Origin.Typed);
                return key == "load" ? setup with { Load = kilograms } : setup with { Aircraft = kilograms };
            case "drag-area":
                QuantityText.TryArea(text, out Area area, out _);
                return setup with { DragArea = new(area, Origin.Typed) };
            case "wind":
                QuantityText.TryWind(text, out Wind wind, out _);
                return setup with { Wind = new Given<Wind>(wind, Origin.Typed) };
            default:
                QuantityText.TryLength(text, out Length length, out _);
                return WithLength(setup, key, new(length, Origin.Typed));
        }
    }

    private static LiftSetup WithLength(LiftSetup setup, string key, Given<Length> length) => key switch
    {
        "line" => setup with { Line = length },
        "rigging" => setup with { Rigging = length },
        "load-height" => setup with { LoadHeight = length },
        _ => setup with { AntennaAboveHook = length },
    };

    // Wide enough for any sling work, narrow enough to catch a slipped decimal point or a wrong unit.
    private static (double Least, double Most, string Range) Range(string key) => key switch
    {
        "line" => (3, 150, "3 to 150 m"),
        "rigging" => (0, 50, "0 to 50 m"),
        "load-height" => (0, 40, "0 to 40 m"),
        "antenna" => (0, 10, "0 to 10 m"),
        "load" => (5, 15000, "5 to 15000 kg"),
        "aircraft" => (300, 30000, "300 to 30000 kg"),
        "drag-area" => (0, 60, "0 to 60 m²"),
        _ => (0, 50, "0 to 50 m/s"),
    };
}
