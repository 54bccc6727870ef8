using Stillhook.Debriefing;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Planning;

public class DayWeatherTests
{
    private static WindGiven From(double deg) => new() { From = Angle.FromDegrees(deg), Speed = Speed.FromKnots(9) };

    private static DayWeather Day(WindGiven? observed, params WindGiven?[] hours) => new(Jobs.Site("spot", SiteUse.Delivery, 500, 10) with
    {
        Weather = new() { Qnh = Pressure.FromHectopascals(1013.25), Temperature = Jobs.C(10), Wind = observed },
        Forecast = [.. hours.Select((w, i) => new ForecastHour { Hour = new TimeOnly(9 + i, 0), Temperature = Jobs.C(12), Wind = w })],
    }, "sites[1]", observedMinute: 8 * 60, new());

    // What was last given stands: a forecast of temperature alone does not take the wind away.
    [Fact]
    public void At_ForecastWithoutWind_KeepsTheLastWindGiven()
    {
        DayWeather day = Day(From(300), null, From(240), null);
        Assert.Equal([300, 300, 240, 240], new[] { 8.5, 9.5, 10.5, 11.5 }.Select(h => day.At(60 * h).Wind!.Value.FromDeg));
        Assert.Equal(240, day.At(600).Wind!.Value.FromDeg); // from its own hour on
    }

    [Fact]
    public void At_NobodyGaveAWind_None() => Assert.Null(Day(null, null, null).At(600).Wind);
}
