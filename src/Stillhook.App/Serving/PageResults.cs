using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Stillhook.App.Pages;

namespace Stillhook.App.Serving;

/// <summary>Answers that are not a page of their own.</summary>
internal static class PageResults
{
    public static IResult Message(string title, string what, string mend, int status) =>
        new RazorComponentResult<MessagePage>(new { Heading = title, What = what, Mend = mend }) { StatusCode = status };

    public static IResult TooLarge(long bytes, int limitMb, string? name)
    {
        string file = string.IsNullOrWhiteSpace(name) ? "FILE" : name;
        string megabytes = (bytes / 1e6).ToString("F0", CultureInfo.InvariantCulture);
        return new RazorComponentResult<MessagePage>(new
        {
            Heading = "Too large for the page",
            What = $"{(file == "FILE" ? "The record" : file)} has {megabytes} MB; the page takes up to {limitMb} MB.",
            Mend = "Nothing was kept. Use the terminal for it:",
            Command = $"stillhook debrief {file}",
        })
        { StatusCode = StatusCodes.Status413PayloadTooLarge };
    }
}
