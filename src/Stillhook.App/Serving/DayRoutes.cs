using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Days;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the days: the day sheet, and what people write of a day.</summary>
internal static class DayRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/days", Days);
        routes.MapGet("/days/{day}", (string day, string? aircraft, string? kept, HttpContext http, ServingOptions options) => OnDay(day, date => Page(http, options, new(date, Named(aircraft)), null, kept)));
        routes.MapGet("/days/{day}/stamp", (string day, string? aircraft, ServingOptions options) => OnDay(day, date => Results.Text(new DayKept(options.Store, new(date, Named(aircraft))).Stamp)));
        routes.MapPost("/days/{day}", (string day, string? aircraft, HttpContext http, ServingOptions options, [FromForm] IFormCollection form) => OnDay(day, date => Keep(http, options, new(date, Named(aircraft)), form)));
        routes.MapPost("/days/{day}/withdraw", (string day, string? aircraft, HttpContext http, ServingOptions options, [FromForm] IFormCollection form) => OnDay(day, date => Withdraw(http, options, new(date, Named(aircraft)), form)));
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
            Token = http.FormToken(),
            Units = http.Units(),
            Typed = string.IsNullOrWhiteSpace(date) ? null : date.Trim(),
        });
    }

    private static RazorComponentResult<DayPage> Page(HttpContext http, ServingOptions options, WorkDay day, DayForm? form, string? kept = null, string? problem = null)
    {
        DayKept now = new(options.Store, day);
        DaySheet sheet = Job.Day(now.Work);
        return new(new
        {
            Sheet = sheet,
            SheetHtml = DaySheetView.Html(sheet),
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

    private static IResult Keep(HttpContext http, ServingOptions options, WorkDay day, IFormCollection form)
    {
        DayKept now = new(options.Store, day);
        DayFormReader reader = new(now.Work, form["kind-of-entry"].ToString(), DayForm.TextsOf(form));
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
        DayFormReader reader = new(new() { Day = day.Day }, "withdraw", DayForm.TextsOf(form));
        _ = reader.Entries();
        if (reader.Form.Mistakes.Count > 0)
            return Page(http, options, day, reader.Form);
        http.RememberName(reader.By);
        bool done = Guid.TryParse(form["entry"], out Guid entry) && options.Store.Days.Withdraw(entry, reader.By, options.Clock.GetUtcNow(), reader.Form.Text("why") is { Length: > 0 } why ? why : null);
        return done ? Results.Redirect(Address(day, "kept=1")) : Page(http, options, day, null, problem: "Somebody had withdrawn it already; nothing was changed. Below is the day as it is now.");
    }

    private static string Address(WorkDay day, string query) => FormattableString.Invariant($"/days/{day.Day:yyyy-MM-dd}?{query}{(day.Aircraft is { } aircraft ? "&aircraft=" + Uri.EscapeDataString(aircraft) : "")}");

    /// <summary>A day as it is kept now.</summary>
    private sealed class DayKept
    {
        public DayKept(WorkStore store, WorkDay day)
        {
            Work = store.Days.Read(day);
            KeptJob[] jobs = [.. store.Jobs.List().Where(j => j.Day == day.Day)];
            IReadOnlyList<KeptFlight> flights = day.Aircraft is null ? Work.Flights : store.Days.Read(day with { Aircraft = null }).Flights;
            Aircraft = [.. jobs.Select(j => j.Aircraft).Concat(flights.Select(f => f.Aircraft)).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase)];
            Stamp = StampOf(store.Days, day, string.Join(' ', jobs.Select(j => FormattableString.Invariant($"{j.Key} {j.Revision}"))));
        }

        public DayWork Work { get; }

        /// <summary>Aircraft of the day's jobs and flights, each once.</summary>
        public IReadOnlyList<string> Aircraft { get; }

        /// <summary>Another text whenever something of the day was written, withdrawn, corrected or taken in.</summary>
        public string Stamp { get; }

        private string StampOf(DayStore days, WorkDay day, string jobs)
        {
            StringBuilder all = new(jobs);
            void Add<T>() => all.AppendJoin(' ', days.Entries<T>(day).Select(e => e.Key + e.WithdrawnBy));
            Add<TallyEntry>();
            Add<TimeMark>();
            Add<EventMark>();
            Add<FuelEntry>();
            Add<DutySpell>();
            all.AppendJoin(' ', Work.Flights.Select(f => f.Name)).Append(CultureInfo.InvariantCulture, $" {Work.Lifts.Count} {Work.Corrections.Count}");
            return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all.ToString())))[..16];
        }
    }
}
