using UnitsNet;
using UnitsNet.Units;

namespace Stillhook.Files.Jobs;

/// <summary>One unit a quantity may be written in: the ending of its key.</summary>
/// <param name="Ending">Ending of the key, such as <c>Kg</c>.</param>
/// <param name="Unit">The unit.</param>
/// <param name="Symbol">How it is written behind a figure.</param>
/// <param name="Rival">Name shared by units that a file should not mix, or empty.</param>
internal sealed record UnitForm(string Ending, Enum Unit, string Symbol, string Rival = "")
{
    private static readonly Dictionary<Type, UnitForm[]> Forms = new()
    {
        [typeof(Mass)] = [new("Kg", MassUnit.Kilogram, "kg", "mass"), new("Lb", MassUnit.Pound, "lb", "mass")],
        [typeof(Length)] = [new("M", LengthUnit.Meter, "m"), new("Ft", LengthUnit.Foot, "ft"), new("Km", LengthUnit.Kilometer, "km"), new("Nm", LengthUnit.NauticalMile, "NM")],
        [typeof(Speed)] = [new("Kt", SpeedUnit.Knot, "kt"), new("Ms", SpeedUnit.MeterPerSecond, "m/s"), new("Kmh", SpeedUnit.KilometerPerHour, "km/h"), new("FtPerMin", SpeedUnit.FootPerMinute, "ft/min")],
        [typeof(Pressure)] = [new("HPa", PressureUnit.Hectopascal, "hPa", "pressure"), new("InHg", PressureUnit.InchOfMercury, "inHg", "pressure")],
        [typeof(Temperature)] = [new("C", TemperatureUnit.DegreeCelsius, "°C", "temperature"), new("F", TemperatureUnit.DegreeFahrenheit, "°F", "temperature")],
        [typeof(TemperatureDelta)] = [new("C", TemperatureDeltaUnit.DegreeCelsius, "°C", "temperature"), new("F", TemperatureDeltaUnit.DegreeFahrenheit, "°F", "temperature")],
        [typeof(Area)] = [new("M2", AreaUnit.SquareMeter, "m²"), new("Ft2", AreaUnit.SquareFoot, "ft²")],
        [typeof(Angle)] = [new("Deg", AngleUnit.Degree, "°")],
        [typeof(Power)] = [new("Kw", PowerUnit.Kilowatt, "kW"), new("Hp", PowerUnit.MechanicalHorsepower, "hp")],
        [typeof(Duration)] = [new("S", DurationUnit.Second, "s"), new("Min", DurationUnit.Minute, "min"), new("H", DurationUnit.Hour, "h")],
        [typeof(MassFlow)] = [new("KgPerH", MassFlowUnit.KilogramPerHour, "kg/h", "mass"), new("LbPerH", MassFlowUnit.PoundPerHour, "lb/h", "mass")],
        [typeof(Ratio)] = [new("Percent", RatioUnit.Percent, "%")],
        [typeof(ElectricPotential)] = [new("Kv", ElectricPotentialUnit.Kilovolt, "kV")],
    };

    /// <summary>Every ending there is.</summary>
    public static IReadOnlySet<string> Endings { get; } = Forms.Values.SelectMany(f => f).Select(f => f.Ending).ToHashSet(StringComparer.Ordinal);

    /// <summary>The units a type of quantity may be written in, the first being that of its range; null for any other type.</summary>
    public static IReadOnlyList<UnitForm>? Of(Type type) => Forms.GetValueOrDefault(type);

    /// <summary>The quantity of this figure.</summary>
    public object Quantity(double value) => UnitsNet.Quantity.From(value, Unit);

    /// <summary>A range in the first unit of its type, in this one: rounded outwards to four digits, so that no whole figure is lost.</summary>
    public (double Low, double High) Convert((double Low, double High) range, UnitForm first) =>
        first == this ? range : (Outward(UnitConverter.Convert(range.Low, first.Unit, Unit), Math.Floor), Outward(UnitConverter.Convert(range.High, first.Unit, Unit), Math.Ceiling));

    private static double Outward(double value, Func<double, double> round)
    {
        const double slip = 1e-9;
        if (Math.Abs(value) < slip)
            return 0;
        int decimals = 3 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        double scale = Math.Pow(10, Math.Abs(decimals));
        // The slip keeps a whole figure, such as 32 °F, from being pushed to the next digit by the last bit of the conversion.
        double towards = round(1.5) > 1 ? -slip : slip;
        return decimals >= 0 ? round(value * scale + towards) / scale : round(value / scale + towards) * scale;
    }
}
