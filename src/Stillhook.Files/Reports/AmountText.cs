using Stillhook.Files.Pictures;
using Stillhook.Planning;
using UnitsNet;
using UnitsNet.Units;

namespace Stillhook.Files.Reports;

/// <summary>Amounts as a person reads them: in his units, to the step they deserve, with the unit.</summary>
public static class AmountText
{
    /// <summary>The amount with its unit. Altitudes are kept in ft and distances along the ground in m, so a length in ft is taken for an altitude; a speed in ft/min is a sink.</summary>
    public static string Of(Amount amount, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        return amount.Quantity switch
        {
            Mass mass => units.Mass(mass.Kilograms, amount.Step),
            Length { Unit: LengthUnit.Foot } altitude => units.Height(altitude.Meters),
            Length length when units.Name == "lb" => Number(units, length.Feet, Math.Max(amount.Step, 1)) + " ft",
            Length length => Number(units, length.Meters, amount.Step) + " m",
            Temperature temperature => Number(units, temperature.DegreesCelsius, amount.Step) + " °C",
            Ratio ratio => Number(units, ratio.Percent, amount.Step) + " %",
            Pressure pressure => units.Pressure(pressure.Pascals),
            Speed { Unit: SpeedUnit.FootPerMinute } sink => units.Sink(sink.MetersPerSecond),
            Speed speed => units.SpeedText(speed.MetersPerSecond),
            MassFlow burn => units.Mass(burn.KilogramsPerHour, 1) + "/h",
            Duration { Unit: DurationUnit.Minute } time => Number(units, time.Minutes, amount.Step) + " min",
            Duration { Unit: DurationUnit.Hour } time => Number(units, time.Hours, amount.Step) + " h",
            Duration time => Number(units, time.Seconds, amount.Step) + " s",
            ElectricPotential voltage => Number(units, voltage.Kilovolts, amount.Step) + " kV",
            Angle angle => Number(units, angle.Degrees, amount.Step) + "°",
            Area area => Number(units, area.SquareMeters, amount.Step) + " m²",
            Power power => Number(units, (double)power.Watts / 1000, amount.Step) + " kW",
            Acceleration acceleration => Number(units, acceleration.StandardGravity, amount.Step) + " g",
            IQuantity other => Number(units, (double)other.Value, amount.Step),
        };
    }

    /// <summary>Value and unit for machines: kg, m, °C, %, Pa, m/s, kg/h, s, kV, deg, m², kW, m/s², or 1 for a plain number.</summary>
    public static (double Value, string Unit) Machine(Amount amount) => amount.Quantity switch
    {
        Mass mass => (mass.Kilograms, "kg"),
        Length length => (length.Meters, "m"),
        Temperature temperature => (temperature.DegreesCelsius, "°C"),
        Ratio ratio => (ratio.Percent, "%"),
        Pressure pressure => (pressure.Pascals, "Pa"),
        Speed speed => (speed.MetersPerSecond, "m/s"),
        MassFlow burn => (burn.KilogramsPerHour, "kg/h"),
        Duration time => (time.Seconds, "s"),
        ElectricPotential voltage => (voltage.Kilovolts, "kV"),
        Angle angle => (angle.Degrees, "deg"),
        Area area => (area.SquareMeters, "m²"),
        Power power => ((double)power.Watts / 1000, "kW"),
        Acceleration acceleration => (acceleration.MetersPerSecondSquared, "m/s²"),
        IQuantity other => ((double)other.Value, "1"),
    };

    private static string Number(DisplayUnits units, double value, double step)
    {
        int decimals = step >= 1 ? 0 : (int)Math.Ceiling(-Math.Log10(step) - 1e-9);
        return units.Number(Math.Round(value / step) * step, decimals);
    }
}
