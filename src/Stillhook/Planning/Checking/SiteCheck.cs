using System.Globalization;

namespace Stillhook.Planning.Checking;

/// <summary>Sites: names used once, forecast hours that rise.</summary>
internal static class SiteCheck
{
    public static IEnumerable<RequestFinding> Findings(LiftRequest request)
    {
        Dictionary<string, int> names = new(StringComparer.OrdinalIgnoreCase);
        for (int i = 0; i < request.Sites.Count; i++)
        {
            Site site = request.Sites[i];
            if (site.Name.Length > 0 && !names.TryAdd(FigureKey.Part(site.Name), i))
                yield return RequestCheck.Error("site-name-twice", Path(i) + ".name", $"The name '{site.Name}' reads like that of site {names[FigureKey.Part(site.Name)] + 1} in the list.", "Give each site its own name; loads refer to sites by name.");
            foreach (RequestFinding finding in Forecast(site, Path(i)).Concat(Gusts(site, Path(i))))
                yield return finding;
        }
        if (Gust(request.Wind, "wind") is { } single)
            yield return single;
    }

    private static IEnumerable<RequestFinding> Gusts(Site site, string path) =>
        site.Forecast.Select((f, h) => Gust(f.Wind, ChartAxes.At(path + ".forecast", h) + ".wind")).Prepend(Gust(site.Weather?.Wind, path + ".weather.wind")).OfType<RequestFinding>();

    /// <summary>A gust is the most the wind reaches: one below the mean wind is a slip of the hand.</summary>
    private static RequestFinding? Gust(WindGiven? wind, string path) => wind is { Gust: { } gust } && gust < wind.Speed
        ? RequestCheck.Error("gust-below-wind", path + ".gust", string.Create(CultureInfo.InvariantCulture, $"The gust of {gust.Knots:0.#} kt is below the mean wind of {wind.Speed.Knots:0.#} kt."), "Write the strongest gust, or leave it out where none is told.")
        : null;

    public static string Path(int site) => ChartAxes.At("sites", site);

    private static IEnumerable<RequestFinding> Forecast(Site site, string path)
    {
        for (int h = 1; h < site.Forecast.Count; h++)
        {
            TimeOnly hour = site.Forecast[h].Hour, before = site.Forecast[h - 1].Hour;
            string at = ChartAxes.At(path + ".forecast", h) + ".hour", shown = hour.ToString("HH:mm", CultureInfo.InvariantCulture);
            if (hour == before)
                yield return RequestCheck.Error("forecast-hour-twice", at, $"The hour {shown} is there twice.", "Leave one of the two.");
            else if (hour < before)
                yield return RequestCheck.Error("forecast-not-rising", at, $"{shown} follows {before.ToString("HH:mm", CultureInfo.InvariantCulture)}.", "Write the hours in order; a forecast is for the day of the job.");
        }
    }
}
