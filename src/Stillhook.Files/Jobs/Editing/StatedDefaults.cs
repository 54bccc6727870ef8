using System.Reflection;
using Stillhook.Approaching;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet.Units;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>The careful defaults that a plan takes where the operator set nothing, by the path of the field where each would stand.</summary>
internal static class StatedDefaults
{
    private static readonly Dictionary<string, (double Value, Enum Unit)> Known = Read();

    /// <summary>The default in a unit; null where the field has none.</summary>
    public static double? Of(string path, UnitForm unit) => Known.TryGetValue(path, out (double Value, Enum Unit) known) && known.Unit.GetType() == unit.Unit.GetType() ? UnitsNet.UnitConverter.Convert(known.Value, known.Unit, unit.Unit) : null;

    private static Dictionary<string, (double, Enum)> Read()
    {
        Dictionary<string, (double, Enum)> known = new(StringComparer.Ordinal);
        LiftRequest nothing = new();
        foreach (object rules in new object[] { new PolicyInForce(nothing), new ApproachRules(nothing) })
            foreach (PropertyInfo rule in rules.GetType().GetProperties().Where(p => p.PropertyType == typeof(Chosen<double>)))
                if ((Chosen<double>)rule.GetValue(rules)! is { From: InputFrom.Default } chosen && UnitOf(rule.Name, chosen.Value) is var (value, unit))
                    known.TryAdd(chosen.Where, (value, unit));
        return known;
    }

    /// <summary>Unit by the ending of the rule's name.</summary>
    private static (double Value, Enum Unit)? UnitOf(string name, double value) => name switch
    {
        _ when name.EndsWith("Percent", StringComparison.Ordinal) => (value, RatioUnit.Percent),
        _ when name.EndsWith("KgPerMinute", StringComparison.Ordinal) => (value, MassFlowUnit.KilogramPerMinute),
        _ when name.EndsWith("Kg", StringComparison.Ordinal) => (value, MassUnit.Kilogram),
        _ when name.EndsWith("Minutes", StringComparison.Ordinal) => (value, DurationUnit.Minute),
        _ when name.EndsWith("Deg", StringComparison.Ordinal) => (value, AngleUnit.Degree),
        // A slow-down is entered in percent of standard gravity.
        _ when name.EndsWith("Ms2", StringComparison.Ordinal) => (value / Gravity.Standard * 100, RatioUnit.Percent),
        _ when name.EndsWith("Ms", StringComparison.Ordinal) => (value, SpeedUnit.MeterPerSecond),
        _ when name.EndsWith('M') => (value, LengthUnit.Meter),
        _ when name.EndsWith('S') => (value, DurationUnit.Second),
        _ => null,
    };
}
