using System.Globalization;
using System.Text.RegularExpressions;
using UnitsNet;

namespace Stillhook.Files.Pictures;

/// <summary>The units one person reads. Each kind of quantity has one unit on a page: distances along the ground and lengths are metres in both sets.</summary>
public sealed partial class DisplayUnits
{
    /// <summary>Heights in ft, speeds in kt, sink in ft/min: what altimeter, airspeed and vertical speed read in most aircraft.</summary>
    public static DisplayUnits Feet { get; } = new("ft", Length.FromMeters(1).Feet, 0, "kt", Speed.FromMetersPerSecond(1).Knots, 0, "ft/min", Speed.FromMetersPerSecond(1).FeetPerMinute, 10);

    /// <summary>Heights in m, speeds in km/h, sink in m/s.</summary>
    public static DisplayUnits Metres { get; } = new("m", 1, 0, "km/h", Speed.FromMetersPerSecond(1).KilometersPerHour, 0, "m/s", 1, 0.1) { Name = "m" };

    /// <summary>As <see cref="Feet"/>, masses in lb and altimeter settings in inHg.</summary>
    public static DisplayUnits Pounds { get; } = new("ft", Length.FromMeters(1).Feet, 0, "kt", Speed.FromMetersPerSecond(1).Knots, 0, "ft/min", Speed.FromMetersPerSecond(1).FeetPerMinute, 10)
    {
        Name = "lb", MassUnit = "lb", MassPerKilogram = UnitsNet.Mass.FromKilograms(1).Pounds, PressureUnit = "inHg", PressurePerPascal = UnitsNet.Pressure.FromPascals(1).InchesOfMercury, pressureDecimals = 2,
    };

    private readonly double sinkStep;
    private readonly int heightDecimals, speedDecimals;

    private DisplayUnits(string height, double heightPerMetre, int heightDecimals, string speed, double speedPerMetreSecond, int speedDecimals, string sink, double sinkPerMetreSecond, double sinkStep)
    {
        (HeightUnit, HeightPerMetre, this.heightDecimals) = (height, heightPerMetre, heightDecimals);
        (SpeedUnit, SpeedPerMetreSecond, this.speedDecimals) = (speed, speedPerMetreSecond, speedDecimals);
        (SinkUnit, SinkPerMetreSecond, this.sinkStep) = (sink, sinkPerMetreSecond, sinkStep);
    }

    /// <summary>Symbol of heights and altitudes.</summary>
    public string HeightUnit { get; }

    /// <summary>How many <see cref="HeightUnit"/> make a metre.</summary>
    public double HeightPerMetre { get; }

    /// <summary>Symbol of speeds.</summary>
    public string SpeedUnit { get; }

    /// <summary>How many <see cref="SpeedUnit"/> make a metre a second.</summary>
    public double SpeedPerMetreSecond { get; }

    /// <summary>Symbol of sink and climb.</summary>
    public string SinkUnit { get; }

    /// <summary>How many <see cref="SinkUnit"/> make a metre a second.</summary>
    public double SinkPerMetreSecond { get; }

    /// <summary>Symbol of masses.</summary>
    public string MassUnit { get; private init; } = "kg";

    /// <summary>How many <see cref="MassUnit"/> make a kilogram.</summary>
    public double MassPerKilogram { get; private init; } = 1;

    /// <summary>Symbol of altimeter settings.</summary>
    public string PressureUnit { get; private init; } = "hPa";

    /// <summary>How many <see cref="PressureUnit"/> make a pascal.</summary>
    public double PressurePerPascal { get; private init; } = 0.01;

    private int pressureDecimals { get; init; } = 1;

    /// <summary>A mass with its unit, to a step given in kg; a step of a kilogram is a pound in lb, a coarser one twice as many pounds.</summary>
    public string Mass(double kilograms, double step = 1) => MassNumber(kilograms, step) + " " + MassUnit;

    /// <summary>The same without the unit, for a column that has it in its heading.</summary>
    public string MassNumber(double kilograms, double step = 1)
    {
        double shown = kilograms * MassPerKilogram, coarse = step * Math.Round(MassPerKilogram);
        return step > 1 ? Number(Math.Round(shown / coarse) * coarse, 0) : Number(shown, step == 1 ? 0 : 1);
    }

    /// <summary>A limit in whole units, rounded down, without the unit.</summary>
    public string MassDown(double kilograms) => Number(Math.Floor(kilograms * MassPerKilogram + 1e-6), 0);

    /// <summary>A sentence of the plan, which speaks of kg, in these units.</summary>
    public string Sentence(string text) => Mark.Sentence(MassPerKilogram == 1
        ? text
        : KilogramsInText().Replace(text, found => Text(double.Parse(found.Groups[1].ValueSpan, CultureInfo.InvariantCulture) * MassPerKilogram, 0) + " " + MassUnit));

    [GeneratedRegex(@"(\d+(?:\.\d+)?) kg\b", RegexOptions.CultureInvariant)]
    private static partial Regex KilogramsInText();

    /// <summary>An altimeter setting with its unit.</summary>
    public string Pressure(double pascals) => Number(pascals * PressurePerPascal, pressureDecimals) + " " + PressureUnit;

    /// <summary>The set by its name in an address: <c>m</c> and <c>lb</c>, anything else is feet.</summary>
    public static DisplayUnits Named(string? name) => name switch { "m" => Metres, "lb" => Pounds, _ => Feet };

    /// <summary>Name in an address.</summary>
    public string Name { get; private init; } = "ft";

    /// <summary>Mark before the decimals.</summary>
    public DecimalMark Mark { get; private set; } = DecimalMark.Point;

    /// <summary>The same units with another mark before the decimals.</summary>
    public DisplayUnits With(DecimalMark mark)
    {
        DisplayUnits with = (DisplayUnits)MemberwiseClone();
        with.Mark = mark;
        return with;
    }

    /// <summary>The same units as files, pictures and cards have them: with the point.</summary>
    public DisplayUnits Plain => With(DecimalMark.Point);

    /// <summary>A number with a fixed count of decimals, as <see cref="Text"/>, with the person's mark.</summary>
    public string Number(double value, int decimals) => Mark.Shown(Text(value, decimals));

    /// <summary>A distance along the ground, as <see cref="Distance"/>, with the person's mark.</summary>
    public string Along(double metres) => Mark.Shown(Distance(metres));

    /// <summary>A height with its unit.</summary>
    public string Height(double metres) => Number(metres * HeightPerMetre, heightDecimals) + " " + HeightUnit;

    /// <summary>A speed with its unit.</summary>
    public string SpeedText(double metresPerSecond) => Number(metresPerSecond * SpeedPerMetreSecond, speedDecimals) + " " + SpeedUnit;

    /// <summary>A sink, down positive, with its unit, to the step that can be read from an instrument.</summary>
    public string Sink(double metresPerSecond) =>
        Number(Math.Round(metresPerSecond * SinkPerMetreSecond / sinkStep) * sinkStep, sinkStep < 1 ? 1 : 0) + " " + SinkUnit;

    /// <summary>A distance along the ground: to 0.1 m under 20 m, else to the metre.</summary>
    public static string Distance(double metres) => Text(metres, Math.Abs(metres) < 20 ? 1 : 0) + " m";

    /// <summary>A number with a fixed count of decimals and a true minus; never '-0'.</summary>
    public static string Text(double value, int decimals)
    {
        double rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero) + 0.0;
        return rounded.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
    }
}
