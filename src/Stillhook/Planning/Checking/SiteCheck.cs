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
            foreach (RequestFinding finding in Forecast(site, Path(i)))
                yield return finding;
        }
    }

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
