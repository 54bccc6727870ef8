using System.Globalization;

namespace Stillhook.Planning.Papers;

/// <summary>What of the aircraft falls due, by date and by hours or cycles left after this job.</summary>
internal static class AircraftPapers
{
    private const string Source = "14CFR-91.403";

    public static IEnumerable<CheckItem> Of(LiftRequest request)
    {
        IReadOnlyList<DueItem> due = request.Aircraft?.Due ?? [];
        if (due.Count == 0)
            yield return new(CheckVerdict.ToConfirm, "papers-aircraft-due", "aircraft.due", request.Aircraft?.Name ?? "aircraft", "Maintenance and papers of the aircraft: not entered.", Source);
        for (int i = 0; i < due.Count; i++)
        {
            string path = string.Create(CultureInfo.InvariantCulture, $"aircraft.due[{i}]");
            if (due[i].Until is not null || due[i].Left is null)
                yield return Paper.Dated("papers-aircraft-due", due[i].Name, path + ".until", due[i].Name, due[i].Until, request.Date, Source);
            if (due[i].Left is { } left)
                yield return Counted(due[i], left, path);
        }
    }

    private static CheckItem Counted(DueItem item, double left, string path)
    {
        CheckItem Item(CheckVerdict verdict, string text) => new(verdict, "papers-aircraft-left", path + ".left", item.Name, text, Source);
        if (left <= 0)
            return Item(CheckVerdict.Fails, string.Create(CultureInfo.InvariantCulture, $"{item.Name}: nothing left ({left:0.##})."));
        if (item.ThisJob is not { } used)
            return Item(CheckVerdict.ToConfirm, string.Create(CultureInfo.InvariantCulture, $"{item.Name}: {left:0.##} left; what this job uses is not entered."));
        return used > left
            ? Item(CheckVerdict.Fails, string.Create(CultureInfo.InvariantCulture, $"{item.Name}: {left:0.##} left, this job uses {used:0.##}."))
            : Item(CheckVerdict.Passes, string.Create(CultureInfo.InvariantCulture, $"{item.Name}: {left:0.##} left, this job uses {used:0.##}."));
    }
}
