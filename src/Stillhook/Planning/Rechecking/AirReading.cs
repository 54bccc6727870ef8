using Stillhook.Debriefing;
using UnitsNet;

namespace Stillhook.Planning.Rechecking;

/// <summary>Setting, temperature and wind as somebody read them during the day. Null was not read.</summary>
/// <param name="AtS">When, s since 1970 UTC.</param>
/// <param name="QnhPa">Altimeter setting, Pa.</param>
/// <param name="TemperatureC">Outside air temperature at the pick-up, °C.</param>
/// <param name="WindFromDeg">True direction that the wind blows from, degrees; read together with its speed.</param>
/// <param name="WindMs">Its speed, m/s.</param>
public sealed record AirReading(double AtS, double? QnhPa, double? TemperatureC, double? WindFromDeg, double? WindMs)
{
    /// <summary>The wind read; null when none was.</summary>
    public Wind? ReadWind() => WindFromDeg is { } from && WindMs is { } speed ? new(from, Speed.FromMetersPerSecond(speed)) : null;
}

/// <summary>An offered check was taken, or put aside: what was read before it offers none again.</summary>
/// <param name="AtS">When, s since 1970 UTC.</param>
/// <param name="PutAside">True when it was put aside.</param>
public sealed record RecheckMark(double AtS, bool PutAside);
