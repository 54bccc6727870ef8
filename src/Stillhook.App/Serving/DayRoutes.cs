using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Days;
using Stillhook.Files.Reports;
using Stillhook.Pdf;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the days: the day sheet, and what people write of a day.</summary>
internal static class DayRoutes
{
    private const string Tally = "tally";

    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Days);
        RouteGroupBuilder write = routes.MapGroup("").RequireAuthorization(Access.DayEntries);
        read.MapGet("/days", Days);
        read.MapGet("/days/{day}", (string day, string? aircraft, string? kept, HttpContext http, ServingOptions options) => OnDay(day, date => Page(http, options, new(date, Named(aircraft)), null, kept)));
        read.MapGet("/days/{day}/stamp", (string day, string? aircraft, ServingOptions options) => OnDay(day, date => Results.Text(new DayKept(options.Store, new(date, Named(aircraft))).Stamp)));
        read.MapGet("/days/{day}/{file}", (string day, string file, string? aircraft, HttpContext http, ServingOptions options) => OnDay(day, date => Sheet(http, options, new(date, Named(aircraft)), file)));
        write.MapPost("/days/{day}", (string day, string? aircraft, HttpContext http, ServingOptions options, [FromForm] IFormCollection form) => OnDay(day, date => Keep(http, options, new(date, Named(aircraft)), form)));
        write.MapPost("/days/{day}/withdraw", (string day, string? aircraft, HttpContext http, ServingOptions options, [FromForm] IFormCollection form) => OnDay(day, date => Withdraw(http, options, new(date, Named(aircraft)), form)));
    }

    private static string? Named(string? aircraft) => string.IsNullOrWhiteSpace(aircraft) ? null : aircraft;

    private static bool TryDay(string text, out DateOnly date) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out date);

    private static IResult OnDay(string text, Func<DateOnly, IResult> what) => TryDay(text, out DateOnly date)
        ? what(date)
        : PageResults.Message("No such day", $"'{text}' is no day.", "Write it as 2026-06-01 at the end of the address.", 404);

    private static IResult Days(HttpContext http, ServingOptions options, string? date)
    {
        if (date?.Trim() is { Length: > 0 } typed && TryDay(typed, out _))
            return Results.Redirect("/days/" + typed);
        ILookup<DateOnly, string> jobs = options.Store.Jobs.List().Where(j => j.Day is not null).ToLookup(j => j.Day!.Value, j => j.Name);
        return new RazorComponentResult<DaysPage>(new
        {
            Days = (IReadOnlyList<(DateOnly, string)>)[.. options.Store.Days.List().Select(d => (d, jobs.Contains(d) ? string.Join("; ", jobs[d].Distinct()) : "no job"))],
            Typed = string.IsNullOrWhiteSpace(date) ? null : date.Trim(),
        });
    }

    private static RazorComponentResult<DayPage> Page(HttpContext http, ServingOptions options, WorkDay day, DayForm? form, string? kept = null, string? problem = null)
    {
        DayKept now = new(options.Store, day);
        DaySheet sheet = Job.Day(ForReader(http, options, now.Work, out _));
        return new(new
        {
            Sheet = sheet,
            SheetHtml = DaySheetHtml.Inner(sheet),
            Lines = DayEntries.Of(options.Store.Days, day, now.Work, http.Units()),
            Aircraft = now.Aircraft,
            Chosen = day.Aircraft,
            Form = form ?? DayForm.Empty(""),
            now.Stamp,
            Token = http.FormToken(),
            Units = http.Units(),
            By = http.NameTyped(),
            Notice = problem ?? (kept is null ? null : "Kept."),
        })
        { StatusCode = problem is not null ? StatusCodes.Status409Conflict : form is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    /// <summary>The sheet as a file: PDF opens, the others are kept where the browser keeps what it loads.</summary>
    private static IResult Sheet(HttpContext http, ServingOptions options, WorkDay day, string file)
    {
        DaySheet sheet = Job.Day(ForReader(http, options, options.Store.Days.Read(day), out bool whole));
        string name = FormattableString.Invariant($"day-{day.Day:yyyy-MM-dd}");
        MemoryStream bytes = new();
        switch (file)
        {
            case "sheet.pdf":
                return Results.Bytes(new PdfMaker().Make(DayPrint.Of(sheet)), "application/pdf");
            case "sheet.html":
                DaySheetHtml.Write(bytes, sheet);
                return Results.Bytes(bytes.ToArray(), "text/html; charset=utf-8", name + ".html");
            case "sheet.json" when !whole:
                return NotYours("read every number of flights that belong to somebody else");
            case "sheet.json":
                DaySheetDocuments.Write(bytes, sheet);
                return Results.Bytes(bytes.ToArray(), "application/json", name + ".json");
            default:
                return PageResults.Message("Not here", $"A day has no '{file}'.", "Go back to the day.", 404);
        }
    }

    private static IResult Keep(HttpContext http, ServingOptions options, WorkDay day, IFormCollection form)
    {
        DayKept now = new(options.Store, day);
        string kind = form["kind-of-entry"].ToString();
        if (kind != Tally && !http.May(Access.Planning))
            return NotYours("write anything of a day but the tally");
        DayFormReader reader = new(now.Work, kind, Texts(http, form), http.Units().Mark);
        var entries = reader.Entries();
        if (entries.Count == 0)
            return Page(http, options, day, reader.Form);
        http.RememberName(reader.By);
        // What is written of a day of one aircraft is its own; where there are several and none was chosen, it is the day's.
        WorkDay of = day with { Aircraft = day.Aircraft ?? (now.Aircraft is [var only] ? only : null) };
        DateTimeOffset at = options.Clock.GetUtcNow();
        foreach (var add in entries)
            add(options.Store.Days, of, reader.By, at);
        return Results.Redirect(Address(day, "kept=1"));
    }

    private static IResult Withdraw(HttpContext http, ServingOptions options, WorkDay day, IFormCollection form)
    {
        DayFormReader reader = new(new() { Day = day.Day }, "withdraw", Texts(http, form));
        _ = reader.Entries();
        if (reader.Form.Mistakes.Count > 0)
            return Page(http, options, day, reader.Form);
        if (!http.May(Access.Planning) && !IsOwnTally(http, options, day, form["entry"]))
            return NotYours("withdraw anything but lines of the tally that it wrote");
        http.RememberName(reader.By);
        bool done = Guid.TryParse(form["entry"], out Guid entry) && options.Store.Days.Withdraw(entry, reader.By, options.Clock.GetUtcNow(), reader.Form.Text("why") is { Length: > 0 } why ? why : null);
        return done ? Results.Redirect(Address(day, "kept=1")) : Page(http, options, day, null, problem: "Somebody had withdrawn it already; nothing was changed. Below is the day as it is now.");
    }

    /// <summary>What was typed, with the account that is signed in as who typed it.</summary>
    private static IReadOnlyDictionary<string, string> Texts(HttpContext http, IFormCollection form) =>
        http.AccountName() is { } account ? new Dictionary<string, string>(DayForm.TextsOf(form)) { ["by"] = account } : DayForm.TextsOf(form);

    /// <summary>The day without the approaches given up of flights that belong to somebody else: they are between him and those who read all.</summary>
    private static DayWork ForReader(HttpContext http, ServingOptions options, DayWork work, out bool whole)
    {
        Func<long, bool>? readable = http.Readable(options.Store);
        whole = readable is null || work.Flights.All(f => readable(f.Id));
        return whole ? work : work with { Lifts = [.. work.Lifts.Select(l => l.FlightId == 0 || readable!(l.FlightId) ? l : l with { GoArounds = 0 })] };
    }

    /// <summary>Whether the person before a page may withdraw a line: any for whoever plans, one's own of the tally for others who write.</summary>
    public static bool MayWithdraw(HttpContext http, DayLine line) =>
        http.May(Access.Planning) || (http.May(Access.DayEntries) && line.IsTally && line.By == http.AccountName());

    private static bool IsOwnTally(HttpContext http, ServingOptions options, WorkDay day, string? entry) =>
        Guid.TryParse(entry, out Guid key) && options.Store.Days.Entries<TallyEntry>(day).Any(e => e.Key == key && e.By == http.AccountName());

    private static IResult NotYours(string what) => PageResults.Message("Not for this account", $"This account may not {what}.", "Nothing was changed. Whoever looks after the accounts can give it the role.", StatusCodes.Status403Forbidden);

    private static string Address(WorkDay day, string query) => FormattableString.Invariant($"/days/{day.Day:yyyy-MM-dd}?{query}{(day.Aircraft is { } aircraft ? "&aircraft=" + Uri.EscapeDataString(aircraft) : "")}");
}
