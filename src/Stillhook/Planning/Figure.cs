using UnitsNet;

namespace Stillhook.Planning;

/// <summary>A quantity with the precision that it deserves when shown.</summary>
/// <param name="Quantity">Value with its unit.</param>
/// <param name="Step">Smallest step worth showing, in the quantity's own unit; rounding is the writer's.</param>
public readonly record struct Amount(IQuantity Quantity, double Step)
{
    /// <summary>A mass, kg, to 1 kg.</summary>
    public static Amount Kilograms(double kg) => new(Mass.FromKilograms(kg), 1);

    /// <summary>A share of power or torque, %, to 1 %.</summary>
    public static Amount Percent(double percent) => new(Ratio.FromPercent(percent), 1);

    /// <summary>An altitude, m, to 1 m.</summary>
    public static Amount Meters(double m) => new(Length.FromMeters(m), 1);

    /// <summary>A temperature, °C, to 0.1 °C.</summary>
    public static Amount Celsius(double celsius) => new(Temperature.FromDegreesCelsius(celsius), 0.1);

    /// <summary>A time, min, to 0.1 min.</summary>
    public static Amount Minutes(double minutes) => new(Duration.FromMinutes(minutes), 0.1);

    /// <summary>A plain number, to the step given.</summary>
    public static Amount Number(double value, double step = 0.01) => new(Scalar.FromAmount(value), step);
}

/// <summary>Where an input of a figure came from.</summary>
public enum InputFrom
{
    /// <summary>The job file; where = its path, such as <c>aircraft.equippedMass</c>.</summary>
    JobFile,

    /// <summary>Another figure of the plan; where = its key.</summary>
    Figure,

    /// <summary>Nobody gave it: a stated default, to be set by the operator; where = the path where it would stand.</summary>
    Default,

    /// <summary>Typed with the command; where = the option.</summary>
    Typed,

    /// <summary>A rule or constant; where = its source key.</summary>
    Rule,

    /// <summary>What is kept of the day: records, tally, marks; where = which of them.</summary>
    Kept,
}

/// <summary>One input of a figure.</summary>
/// <param name="Name">What it is, in the crew's words.</param>
/// <param name="Value">Its value.</param>
/// <param name="From">Where it came from.</param>
/// <param name="Where">The path, key, option or source that says so.</param>
public sealed record FigureInput(string Name, Amount Value, InputFrom From, string Where);

/// <summary>A figure that a person may act on, with its whole working.</summary>
/// <param name="Key">Short name to ask for, such as <c>payload.7</c>.</param>
/// <param name="Name">What it is.</param>
/// <param name="Value">Its value.</param>
/// <param name="Formula">How it follows from the inputs, in words.</param>
/// <param name="Inputs">What went in.</param>
/// <param name="Source">Key of the source in docs/sources.md, or 'common practice, no source'.</param>
/// <param name="Note">What the reader must know beside it, or empty.</param>
public sealed record Figure(string Key, string Name, Amount Value, string Formula, IReadOnlyList<FigureInput> Inputs, string Source, string Note = "");
