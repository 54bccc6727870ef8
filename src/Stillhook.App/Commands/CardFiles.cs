using System.Text;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Files.Cards;
using Stillhook.Files.Pictures;
using Stillhook.Pdf;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary>A file of a brief.</summary>
/// <param name="Name">Name with its ending.</param>
/// <param name="MediaType">Such as application/pdf.</param>
/// <param name="Content">Its bytes.</param>
internal sealed record CardFile(string Name, string MediaType, byte[] Content);

/// <summary>The cards of a brief as files: PDF and HTML of each, and the brief itself to tell changes from.</summary>
internal static class CardFiles
{
    /// <summary>Name of the document beside the cards.</summary>
    public const string DocumentName = "brief.json";

    /// <summary>The files; the same brief gives the same bytes.</summary>
    public static IReadOnlyList<CardFile> Of(Brief brief, IReadOnlyList<PrintedCard> cards, DisplayUnits units, EarlierBrief? earlier)
    {
        PdfCardMaker pdf = new();
        using MemoryStream document = new();
        BriefDocuments.Write(document, brief, units, earlier);
        return
        [
            .. cards.SelectMany(card => new[]
            {
                new CardFile(card.Name + ".pdf", "application/pdf", pdf.Make(card)),
                new CardFile(card.Name + ".html", "text/html", new UTF8Encoding(false).GetBytes(CardHtml.Page(card))),
            }),
            new(DocumentName, "application/json", document.ToArray()),
        ];
    }

    /// <summary>Keeps the files as issued.</summary>
    public static void Keep(WorkStore store, Guid job, IReadOnlyList<CardFile> files, DateTimeOffset at)
    {
        foreach (CardFile file in files)
            store.Jobs.IssueCard(job, file.Name, file.MediaType, file.Content, at);
    }

    /// <summary>The last brief kept of a job, when it is in these units; null when there is none.</summary>
    public static EarlierBrief? LastKept(WorkStore store, Guid job, string units) =>
        store.Jobs.Cards(job).LastOrDefault(c => c.Name == DocumentName) is { } last && store.Jobs.CardContent(last.Key) is { } bytes
        && BriefDocuments.Read(Encoding.UTF8.GetString(bytes), out _) is { } earlier && earlier.Units == units ? earlier : null;
}
