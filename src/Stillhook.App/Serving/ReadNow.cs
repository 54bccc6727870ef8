using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.App.Serving;

/// <summary>Altimeter setting, temperature, wind and fuel aboard as typed now, each with what is wrong with it.</summary>
/// <param name="Typed">Texts by field: qnh, oat, wind, fuel, time.</param>
/// <param name="Mistakes">What is wrong, by field, in words.</param>
public sealed record ReadNow(IReadOnlyDictionary<string, string> Typed, IReadOnlyDictionary<string, string> Mistakes)
{
    // Lowest and highest sea-level pressures observed are 870 and 1084 hPa: outside of 850 to 1090 hPa it is a slip of the hand.
    private const double LeastPa = 85000, MostPa = 109000;

    private Pressure? Qnh { get; init; }

    private Temperature? Oat { get; init; }

    private Wind? Wind { get; init; }

    private Mass? Fuel { get; init; }

    private TimeOnly? Time { get; init; }

    /// <summary>Nothing was read again.</summary>
    public bool IsEmpty => Typed.Where(t => t.Key != "time").All(t => t.Value.Length == 0);

    /// <summary>The readings of an address.</summary>
    public static ReadNow From(string? qnh, string? oat, string? wind, string? fuel, string? time, DecimalMark? mark = null)
    {
        mark ??= DecimalMark.Point;
        Dictionary<string, string> typed = new() { ["qnh"] = qnh?.Trim() ?? "", ["oat"] = oat?.Trim() ?? "", ["wind"] = wind?.Trim() ?? "", ["fuel"] = fuel?.Trim() ?? "", ["time"] = time?.Trim() ?? "" }, mistakes = [];
        ReadNow read = new(typed, mistakes);
        if (Given("qnh") is { } q)
            read = QuantityText.TryPressure(mark.Read(q), out Pressure pressure, out string expected) && pressure.Pascals is >= LeastPa and <= MostPa ? read with { Qnh = pressure } : Wrong("qnh", q, expected);
        if (Given("oat") is { } o)
            read = QuantityText.TryTemperature(mark.Read(o), out Temperature temperature, out string expected) && temperature.DegreesCelsius is >= -60 and <= 60 ? read with { Oat = temperature } : Wrong("oat", o, expected);
        if (Given("wind") is { } w)
            read = QuantityText.TryWind(mark.Read(w), out Wind blowing, out string expected) && blowing.Speed.Knots <= 100 ? read with { Wind = blowing } : Wrong("wind", w, expected);
        if (Given("fuel") is { } f)
            read = QuantityText.TryMass(mark.Read(f), out Mass aboard, out string expected) && aboard.Kilograms is >= 0 and < 20_000 ? read with { Fuel = aboard } : Wrong("fuel", f, expected);
        if (Given("time") is { } t)
            read = QuantityText.TryClock(t, out TimeOnly clock, out string expected) ? read with { Time = clock } : Wrong("time", t, expected);
        return read;

        string? Given(string field) => typed[field] is { Length: > 0 } text ? text : null;

        ReadNow Wrong(string field, string text, string expected)
        {
            mistakes[field] = $"'{text}' can't be used; type {mark.Sentence(expected)}.";
            return read;
        }
    }

    /// <summary>What was read, as of now.</summary>
    public Shift Readings => new() { QnhPa = Qnh?.Pascals, TemperatureC = Oat?.DegreesCelsius, Wind = Wind, FuelKg = Fuel?.Kilograms };

    /// <summary>What was read, for what is still to be flown. On the job's own day it is of this minute; of a day gone by it belongs to its last delivery.</summary>
    /// <param name="kept">The job and what is kept of its day.</param>
    /// <param name="clock">Now.</param>
    /// <param name="live">Loads delivered in a flight that still goes on.</param>
    public Shift Shift(KeptNext kept, TimeProvider clock, IEnumerable<string>? live = null)
    {
        HashSet<string> listed = [.. kept.File.Request.Loads.Select(l => l.Number)];
        string[] delivered = [.. kept.Day.Lifts.Where(l => !l.StruckOut).Select(l => l.LoadNumber).OfType<string>().Concat(live ?? []).Where(listed.Contains).Distinct()];
        return Readings with
        {
            Minute = (Time ?? Minute(kept, clock))?.ToTimeSpan().TotalMinutes,
            // With every load delivered the marks are those of the heaviest.
            Delivered = delivered.Length == listed.Count ? [] : delivered,
        };
    }

    /// <summary>The same readings give the same text.</summary>
    public string Text(Shift shift) => string.Create(CultureInfo.InvariantCulture, $"{shift.QnhPa} {shift.TemperatureC} {shift.Wind?.FromDeg}/{shift.Wind?.Speed.MetersPerSecond} {shift.Minute} {shift.FuelKg} {string.Join(',', shift.Delivered)}");

    private static TimeOnly? Minute(KeptNext kept, TimeProvider clock)
    {
        DateTimeOffset now = kept.Day.Clock(clock.GetUtcNow().ToUnixTimeSeconds());
        if (DateOnly.FromDateTime(now.DateTime) == kept.Day.Day)
            return new TimeOnly(now.Hour, now.Minute);
        return kept.Day.Lifts.Max(l => l.DeliveryTimeS) is { } last ? TimeOnly.FromDateTime(kept.Day.Clock(last).DateTime) : null;
    }
}
