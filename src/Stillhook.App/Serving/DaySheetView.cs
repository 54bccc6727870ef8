using System.Net;
using Stillhook.App.Commands;
using Stillhook.Reporting;

namespace Stillhook.App.Serving;

/// <summary>The day sheet inside a page.</summary>
internal static class DaySheetView
{
    public static string Html(DaySheet sheet)
    {
        using StringWriter text = new();
        new DaySheetText(text, sheet).Write();
        return $"<pre tabindex=\"0\" role=\"region\" aria-label=\"Day sheet\">{WebUtility.HtmlEncode(text.ToString())}</pre>";
    }
}
