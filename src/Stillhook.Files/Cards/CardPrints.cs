using System.Globalization;
using System.Text;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Files.Pictures;

namespace Stillhook.Files.Cards;

/// <summary>Lays the cards of a brief out for page and paper, in one set of units.</summary>
public static class CardPrints
{
    private const int LongestName = 60;

    /// <summary>Every card of a brief: cockpit, load master, receiver, the crew's brief; first of all what changed, when an earlier brief is given.</summary>
    /// <param name="brief">The brief.</param>
    /// <param name="units">Units of all cards; altimeter readings stay in ft.</param>
    /// <param name="since">Earlier brief, in the same units; null for none.</param>
    /// <exception cref="ArgumentException">The earlier brief is in other units: everything would seem to have changed.</exception>
    public static IReadOnlyList<PrintedCard> Of(Brief brief, DisplayUnits units, EarlierBrief? since = null)
    {
        ArgumentNullException.ThrowIfNull(brief);
        ArgumentNullException.ThrowIfNull(units);
        if (since is not null && since.Units != units.Name)
            throw new ArgumentException($"The earlier brief is in '{since.Units}', this one in '{units.Name}'.", nameof(since));
        CardUnits u = new(units);
        HashSet<string> used = new(StringComparer.OrdinalIgnoreCase);
        IEnumerable<PrintedCard> all =
        [
            .. since is null ? Array.Empty<PrintedCard>() : new[] { RebriefPrint.Of(brief, since, BriefDifference.Between(since.Lines, BriefLines.Of(brief, units))) },
            .. brief.Cockpit.Select(c => CockpitPrint.Of(brief, c, u)),
            .. brief.LoadMasters.Select(s => LoadMasterPrint.Of(brief, s, u)),
            .. brief.Receivers.Select(s => ReceiverPrint.Of(brief, s, u)),
            CrewBriefPrint.Of(brief, u),
        ];
        return [.. all.Select(c => c with { Name = Unique(c.Name, used) })];
    }

    /// <summary>A card with its job, date and issue around it.</summary>
    internal static PrintedCard Card(Brief brief, string name, string title, string subtitle, IEnumerable<CardPart> parts) =>
        new(FileName(name), title, subtitle, CardCautions.Advice, brief.Issue.At, Footer(brief), [.. parts]);

    /// <summary>Moment of issue in the sites' own time.</summary>
    internal static string Moment(DateTimeOffset at) => at.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Footer(Brief brief)
    {
        string job = brief.Request.Job is { Length: > 0 } name ? name : "job without a name";
        return $"{job}{(brief.Request.Date is { } day ? ", " + day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "")}. Issued {Moment(brief.Issue.At)}{(brief.Issue.By is { Length: > 0 } by ? " by " + by : "")}.{(brief.Issue.For is { Length: > 0 } read ? $" FOR {read}; not as planned." : "")}";
    }

    /// <summary>Lower-case letters of the Latin alphabet, digits and hyphens: fit for every disk.</summary>
    private static string FileName(string name)
    {
        StringBuilder file = new();
        foreach (char c in name.Normalize(NormalizationForm.FormD))
            if (char.IsAsciiLetterOrDigit(c))
                file.Append(char.ToLowerInvariant(c));
            else if (CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark && file.Length > 0 && file[^1] != '-')
                file.Append('-');
        string text = file.ToString(0, Math.Min(LongestName, file.Length)).Trim('-');
        return text.Length > 0 ? text : "card";
    }

    private static string Unique(string name, HashSet<string> used)
    {
        string unique = name;
        for (int n = 2; !used.Add(unique); n++)
            unique = string.Create(CultureInfo.InvariantCulture, $"{name}-{n}");
        return unique;
    }
}
