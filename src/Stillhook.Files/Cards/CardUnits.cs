using System.Globalization;
using System.Text.RegularExpressions;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Files.Cards;

/// <summary>Figures of a card in one set of units, each in the step of the instrument that shows it. The altimeter is always in ft, distances along the ground and lengths in m.</summary>
internal sealed partial class CardUnits(DisplayUnits units)
{
    private const double KmPerHour = 3.6, FootM = 0.3048;

    private bool Metric => units.Name == "m";

    /// <summary>Unit of speeds.</summary>
    public string SpeedUnit => units.SpeedUnit;

    /// <summary>Unit of sinks.</summary>
    public string SinkUnit => units.SinkUnit;

    /// <summary>Unit of masses.</summary>
    public string MassUnit => units.MassUnit;

    /// <summary>A speed at a mark: to 5 kt or 10 km/h; no unit.</summary>
    public string MarkSpeed(double ms) => Metric ? Text($"{Math.Round(ms * KmPerHour / 10) * 10:0}") : Text($"{Math.Round(ms / ApproachGates.KnotMs / 5) * 5:0}");

    /// <summary>A sink that is not to be passed, rounded down: 50 ft/min, 100 from 1 000 on, 10 under 100; or 0.1 m/s; no unit.</summary>
    public string SinkDown(double ms) => Metric ? Text($"{Math.Floor(ms * 10 + 1e-9) / 10:0.0}") : Text($"{ApproachGates.RoundSink(ms):0}");

    /// <summary>A speed to the whole unit, with it.</summary>
    public string Speed(double ms) => units.SpeedText(ms);

    /// <summary>A speed that is a limit, rounded down, with its unit.</summary>
    public string SpeedDown(double ms) => DisplayUnits.Text(Math.Floor(ms * units.SpeedPerMetreSecond + 1e-6), 0) + " " + units.SpeedUnit;

    /// <summary>A mass with its unit.</summary>
    public string Mass(double kg) => units.Mass(kg);

    /// <summary>A mass without its unit.</summary>
    public string MassNumber(double kg) => units.MassNumber(kg);

    /// <summary>A limit of mass, rounded down, without its unit.</summary>
    public string MassDown(double kg) => units.MassDown(kg);

    /// <summary>A height with its unit.</summary>
    public string Height(double metres) => units.Height(metres);

    /// <summary>An altimeter setting with its unit.</summary>
    public string Pressure(double pa) => units.Pressure(pa);

    /// <summary>What the altimeter misreads for a small step of its setting.</summary>
    public string SettingStep(double ftPerHPa) => units.PressureUnit == "hPa" ? Text($"1 hPa is {ftPerHPa:0} ft") : Text($"0.01 inHg is {ftPerHPa * 0.338639:0} ft");

    /// <summary>A wind: 250/5 kt.</summary>
    public string Wind(Wind? wind) => wind is { } w ? Text($"{w.FromDeg:000}/{Speed(w.Speed.MetersPerSecond)}") : "not given";

    /// <summary>An input: lengths in m whatever the set, so that no card mixes them.</summary>
    public string Amount(Amount amount) => amount.Quantity is Length { Unit: not UnitsNet.Units.LengthUnit.Foot } length
        ? AmountText.Of(amount with { Quantity = length }, Metric ? units : DisplayUnits.Feet) : AmountText.Of(amount, units);

    /// <summary>A sentence of the plan, which speaks of kg, kt, ft and ft/min, in these units.</summary>
    public string Sentence(string text)
    {
        string said = units.Sentence(text);
        return !Metric ? said : AviationInText().Replace(said, m =>
        {
            double value = double.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
            return m.Groups[2].Value switch
            {
                "kt" => Text($"{value * 1.852:0} km/h"),
                "ft/min" => Text($"{Math.Floor(value * FootM / 6 + 1e-9) / 10:0.0} m/s"),
                _ => Text($"{value * FootM:0} m"),
            };
        });
    }

    /// <summary>Text in invariant form.</summary>
    public static string Text(FormattableString text) => FormattableString.Invariant(text);

    [GeneratedRegex(@"(\d+(?:\.\d+)?) (kt|ft/min|ft)(?![\w/])", RegexOptions.CultureInvariant)]
    private static partial Regex AviationInText();
}
