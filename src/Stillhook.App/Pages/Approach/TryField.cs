using System.Globalization;
using Stillhook.App.Commands;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using UnitsNet;

namespace Stillhook.App.Pages.Approach;

/// <summary>Something of an approach that can be tried otherwise than planned: its slider and the number beside it.</summary>
/// <param name="Key">Name in the form.</param>
/// <param name="Label">What it is.</param>
/// <param name="Unit">Unit of the number.</param>
/// <param name="Low">Least that is taken.</param>
/// <param name="High">Most that is taken.</param>
/// <param name="SliderLow">Left end of the slider.</param>
/// <param name="SliderHigh">Right end of the slider.</param>
/// <param name="Step">Step of the slider.</param>
/// <param name="Planned">What is planned, as shown; empty when nobody gave it.</param>
public sealed record TryField(string Key, string Label, string Unit, double Low, double High, double SliderLow, double SliderHigh, double Step, string Planned)
{
    /// <summary>Reads a number as typed; null when it is none or outside the range. A comma is no decimal point here.</summary>
    public double? Read(string text) =>
        double.TryParse(text.Trim().Replace('−', '-'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) && value >= Low && value <= High ? value : null;

    /// <summary>What to type instead.</summary>
    public string Mend => string.Create(CultureInfo.InvariantCulture, $"Type a number from {Low:0.#} to {High:0.#} {Unit}, with a point for decimals.");
}

/// <summary>What was tried of an approach.</summary>
/// <param name="Fields">What can be tried.</param>
/// <param name="Typed">The numbers as they stand in the form.</param>
/// <param name="Mistakes">What can't be used, by field, with what to type instead.</param>
/// <param name="Shift">What moved against the plan; empty when nothing did.</param>
/// <param name="Words">The same in words.</param>
public sealed record ApproachTry(IReadOnlyList<TryField> Fields, IReadOnlyDictionary<string, string> Typed, IReadOnlyDictionary<string, string> Mistakes, ApproachShift Shift, string Words)
{
    private const string From = "wind-from", Speed = "wind-speed", Line = "line", LoadKey = "load-mass", Oat = "temperature";

    /// <summary>Reads what was typed against what is planned. A number that stands as planned is not tried.</summary>
    /// <param name="plan">The approach as planned.</param>
    /// <param name="units">Units the numbers are shown in.</param>
    /// <param name="typedIn">Units they were typed in.</param>
    /// <param name="given">What was typed, by field; null where the form did not have it.</param>
    public static ApproachTry Read(ApproachPlan plan, DisplayUnits units, DisplayUnits typedIn, Func<string, string?> given)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(given);
        if (plan.Situation is not { } s)
            return new([], new Dictionary<string, string>(), new Dictionary<string, string>(), new(), "");
        IReadOnlyList<TryField> fields = Of(s, typedIn), shown = units.Name == typedIn.Name ? fields : Of(s, units);
        Dictionary<string, string> typed = [], mistakes = [];
        Dictionary<string, double> read = [];
        foreach (TryField f in fields)
        {
            string text = given(f.Key)?.Trim() ?? f.Planned;
            typed[f.Key] = text;
            if (text == f.Planned)
                continue;
            if (f.Read(text) is { } value)
                read[f.Key] = value;
            else if (text.Length > 0 || f.Planned.Length > 0)
                mistakes[f.Key] = f.Mend;
        }
        ApproachShift shift = Shifted(s, typedIn, typed, read, mistakes);
        if (units.Name != typedIn.Name)
            foreach (TryField f in shown)
                typed[f.Key] = read.TryGetValue(f.Key, out double value) ? Number(Converted(f.Key, value, typedIn, units), f.Key) : mistakes.ContainsKey(f.Key) ? typed[f.Key] : f.Planned;
        return new(shown, typed, mistakes, shift, string.Join(", ", shown.Where(f => read.ContainsKey(f.Key)).Select(f => $"{f.Label.ToLowerInvariant()} {typed[f.Key]} {f.Unit}{(f.Planned.Length > 0 ? $" (planned {f.Planned})" : "")}")));
    }

    private static ApproachShift Shifted(ApproachSituation s, DisplayUnits units, Dictionary<string, string> typed, Dictionary<string, double> read, Dictionary<string, string> mistakes)
    {
        Wind? wind = null;
        if ((read.ContainsKey(From) || read.ContainsKey(Speed)) && !mistakes.ContainsKey(From) && !mistakes.ContainsKey(Speed))
        {
            double? from = read.TryGetValue(From, out double deg) ? deg : s.Wind?.FromDeg, speed = read.TryGetValue(Speed, out double fast) ? fast / units.SpeedPerMetreSecond : s.Wind?.Speed.MetersPerSecond;
            if (from is { } f && speed is { } v)
                wind = new(f % 360, UnitsNet.Speed.FromMetersPerSecond(v));
            else
                mistakes[from is null ? From : Speed] = "A wind needs both: where it comes from and how fast it is.";
        }
        return new(null, wind, read.TryGetValue(Oat, out double celsius) ? Temperature.FromDegreesCelsius(celsius) : null, read.TryGetValue(Line, out double metres) ? Length.FromMeters(metres) : null,
            read.TryGetValue(LoadKey, out double mass) ? new(s.Listed?.Number, Mass.FromKilograms(mass / units.MassPerKilogram)) : null);
    }

    private static TryField[] Of(ApproachSituation s, DisplayUnits units)
    {
        double speed = units.SpeedPerMetreSecond, mass = units.MassPerKilogram, planned = (s.Listed?.Mass ?? s.Request.Load?.Mass)?.Kilograms ?? 0, line = s.Request.Line!.Length!.Value.Meters;
        bool coarse = mass == 1, kmh = units.Name == "m";
        (double lineLow, double lineHigh) = Range(typeof(Planning.LongLine), nameof(Planning.LongLine.Length));
        return
        [
            new(From, "Wind from", "° true", 0, 360, 0, 360, 5, s.Wind is { } w ? Number(w.FromDeg, From) : ""),
            new(Speed, "Wind speed", units.SpeedUnit, 0, kmh ? 110 : 60, 0, kmh ? 60 : 30, 1, s.Wind is { } v ? Number(v.Speed.MetersPerSecond * speed, Speed) : ""),
            new(Line, "Line", "m", lineLow, lineHigh, Math.Max(lineLow, Math.Min(10, line)), Math.Max(70, line), 1, Number(line, Line)),
            new(LoadKey, "Load", units.MassUnit, 1, 20_000 * mass, Math.Floor(planned * mass / 2 / 10) * 10, Math.Ceiling(planned * mass * 1.5 / 10) * 10, coarse ? 5 : 10, Number(planned * mass, LoadKey)),
            new(Oat, "Temperature", "°C", -50, 55, -30, 45, 1, Number(s.TemperatureC, Oat)),
        ];
    }

    private static (double Low, double High) Range(Type of, string member) =>
        of.GetProperty(member)!.GetCustomAttributes(typeof(Planning.BetweenAttribute), false) is [Planning.BetweenAttribute between] ? (between.Low, between.High) : throw new InvalidOperationException($"{of.Name}.{member} states no range.");

    private static double Converted(string key, double value, DisplayUnits from, DisplayUnits to) => key switch
    {
        Speed => value / from.SpeedPerMetreSecond * to.SpeedPerMetreSecond,
        LoadKey => value / from.MassPerKilogram * to.MassPerKilogram,
        _ => value,
    };

    private static string Number(double value, string key) => (Math.Round(value, key is Oat or Line ? 1 : 0) + 0.0).ToString("0.#", CultureInfo.InvariantCulture);
}
