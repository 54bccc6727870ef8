using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Aircraft;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the aircraft library and of the log of line and rigging parts.</summary>
internal static class AircraftRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder all = routes.MapGroup("").RequireAuthorization(Access.Aircraft);
        all.MapGet("/aircraft", (HttpContext http, ServingOptions options) => Page(http, options));
        all.MapPost("/aircraft", New);
        all.MapGet("/aircraft/{name}", (string name, HttpContext http, ServingOptions options) => Edit(name, http, options));
        all.MapPost("/aircraft/{name}/fields", Fields);
        all.MapPost("/aircraft/{name}/remove", (string name, ServingOptions options, [FromForm] string? sure) =>
        {
            if (sure == "yes")
                options.Store.Aircraft.Remove(name);
            return Results.Redirect("/aircraft");
        });
        all.MapPost("/aircraft/parts/new", NewPart);
        all.MapPost("/aircraft/parts", PartEntered);
    }

    private static RazorComponentResult<AircraftPage> Page(HttpContext http, ServingOptions options, string? mistake = null)
    {
        IReadOnlyList<PartCount> parts = options.Store.Parts.Counts(options.Clock.GetUtcNow().AddDays(1));
        return new(new
        {
            Aircraft = options.Store.Aircraft.List(), Token = http.FormToken(), Mistake = mistake,
            Units = http.Units(),
            Parts = (IReadOnlyList<(PartCount, IReadOnlyList<PartEntry>)>)[.. parts.Select(p => (p, options.Store.Parts.Log(p.Name)))],
        })
        { StatusCode = mistake is null ? 200 : 422 };
    }

    private static IResult New(HttpContext http, ServingOptions options, [FromForm] string? name)
    {
        if (string.IsNullOrWhiteSpace(name))
            return Page(http, options, "An aircraft needs a name: its type or registration.");
        name = name.Trim();
        if (options.Store.Aircraft.Find(name) is null)
            options.Store.Aircraft.Save(name, new JsonObject { ["name"] = name }.ToJsonString(), http.TypedBy(), options.Clock.GetUtcNow());
        return Results.Redirect("/aircraft/" + Uri.EscapeDataString(name));
    }

    private static IResult Edit(string name, HttpContext http, ServingOptions options, string? notice = null, string? pastedAt = null, string? pasted = null, IReadOnlyList<string>? mistakes = null)
    {
        if (options.Store.Aircraft.Find(name) is not { } kept)
            return PageResults.Message("Not here", $"There is no aircraft {name} in the library.", "Go back to aircraft and rigging.", 404);
        return new RazorComponentResult<AircraftEditPage>(new
        {
            Kept = kept, Form = JobForm.Of(Document(kept.Text, http.Units())), Token = http.FormToken(), Notice = notice,
            Pasted = (IReadOnlyDictionary<string, string>)(pastedAt is null ? [] : new Dictionary<string, string> { [pastedAt] = pasted! }),
            PasteMistakes = (IReadOnlyDictionary<string, IReadOnlyList<string>>)(pastedAt is null ? [] : new Dictionary<string, IReadOnlyList<string>> { [pastedAt] = mistakes! }),
        })
        { StatusCode = notice is null && mistakes is null ? 200 : 409 };
    }

    private static IResult Fields(string name, HttpContext http, ServingOptions options, [FromForm] IFormCollection form)
    {
        List<(string, string, string)> fields = [.. form.Keys.Where(k => k.StartsWith("f:aircraft.", StringComparison.Ordinal)).Select(k => (k[2..], form["w:" + k[2..]].ToString(), form[k].ToString()))];
        IReadOnlyList<FieldConflict> conflicts = [];
        IReadOnlyList<string> wrong = [];
        string[] op = form["op"].ToString().Split(' ', 2);
        string path = op.ElementAtOrDefault(1) ?? "";
        KeptAircraft? kept;
        try
        {
            kept = options.Store.Aircraft.Amend(name, text =>
            {
                JobDocument document = Document(text, http.Units());
                conflicts = JobEditing.Set(document, fields);
                if (conflicts.Count == 0 && form["fragment"] != "1")
                    wrong = Operate(document, op[0], path, form);
                return document.Part("aircraft") ?? "{}";
            }, http.TypedBy(), options.Clock.GetUtcNow());
        }
        catch (ArgumentException)
        {
            return Edit(name, http, options, JobRoutes.Moved);
        }
        if (kept is null)
            return Edit(name, http, options);
        if (form["fragment"] == "1")
            return FieldAnswers.Of(JobForm.Of(Document(kept.Text, http.Units())), fields.Select(f => f.Item1), conflicts);
        if (conflicts.Count > 0)
            return Edit(name, http, options, "Another window changed meanwhile: " + string.Join("; ", conflicts.Select(c => $"{c.Path}: you typed “{c.Typed}”, there it says “{c.Now}”")) + ". Type it again where yours is right.");
        return wrong.Count > 0 ? Edit(name, http, options, null, path, form["paste:" + path].ToString(), wrong) : Results.Redirect("/aircraft/" + Uri.EscapeDataString(name));
    }

    private static IReadOnlyList<string> Operate(JobDocument document, string what, string path, IFormCollection form)
    {
        bool feet = form["feet:" + path] != "m", pounds = form["pounds:" + path] == "lb";
        switch (what)
        {
            case "add":
                document.Add(path);
                break;
            case "remove":
                document.Remove(path);
                break;
            case "up" or "down":
                document.Move(path, what == "up" ? -1 : 1);
                break;
            case "clear":
                document.Put(path, null);
                break;
            case "chart":
                return path == "aircraft.hoverTorque" ? PastedTable.SetTorque(document, form["paste:" + path].ToString(), feet, pounds, document.Units?.Mark) : PastedTable.SetChart(document, path, form["paste:" + path].ToString(), feet, pounds, document.Units?.Mark);
        }
        return [];
    }

    private static IResult NewPart(HttpContext http, ServingOptions options, [FromForm] string? name, [FromForm] PartKind kind, [FromForm] string? lifts, [FromForm] string? hours)
    {
        if (string.IsNullOrWhiteSpace(name))
            return Page(http, options, "A part needs a name: the name or number on its tag.");
        if (Lifts(lifts) is not >= 0 || Hours(http, hours) is not >= 0)
            return Page(http, options, "Lifts are a whole number and hours a number with a decimal " + http.Units().Mark.Name + ", both not below 0.");
        if (options.Store.Parts.Log(name.Trim()).Count > 0)
            return Page(http, options, $"There is a part {name.Trim()} already.");
        options.Store.Parts.TakeIntoUse(name.Trim(), kind, http.TypedBy(), options.Clock.GetUtcNow(), Lifts(lifts)!.Value, Hours(http, hours)!.Value);
        return Results.Redirect("/aircraft#parts-list");
    }

    private static IResult PartEntered(HttpContext http, ServingOptions options, [FromForm] string part, [FromForm] PartEntryKind kind, [FromForm] string? due, [FromForm] string? lifts, [FromForm] string? hours, [FromForm] string? note)
    {
        DateOnly? next = DateOnly.TryParseExact(due, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;
        if (Lifts(lifts) is not { } n || Hours(http, hours) is not { } h)
            return Page(http, options, $"{part}: lifts are a whole number and hours a number with a decimal {http.Units().Mark.Name}.");
        if (kind is not (PartEntryKind.Inspection or PartEntryKind.Adjustment or PartEntryKind.Retired) || kind == PartEntryKind.Adjustment && n == 0 && h == 0)
            return Page(http, options, $"{part}: say what to enter; to put counts right, type the lifts or hours to add or take off.");
        bool adjusts = kind == PartEntryKind.Adjustment;
        options.Store.Parts.Add(part, new(kind, options.Clock.GetUtcNow(), http.TypedBy(), adjusts ? n : 0, adjusts ? h : 0, null, kind == PartEntryKind.Inspection ? next : null, string.IsNullOrWhiteSpace(note) ? null : note.Trim()));
        return Results.Redirect("/aircraft#parts-list");
    }

    private static long? Lifts(string? typed) => string.IsNullOrWhiteSpace(typed) ? 0 : long.TryParse(typed.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long n) ? n : null;

    private static double? Hours(HttpContext http, string? typed) => string.IsNullOrWhiteSpace(typed) ? 0 : double.TryParse(http.Units().Mark.Read(typed.Trim()), NumberStyles.Float, CultureInfo.InvariantCulture, out double h) && double.IsFinite(h) ? h : null;

    private static JobDocument Document(string text, DisplayUnits? units = null) => JobDocument.Read(new JsonObject { ["aircraft"] = JsonNode.Parse(text, null, new() { CommentHandling = System.Text.Json.JsonCommentHandling.Skip, AllowTrailingCommas = true }) }.ToJsonString(), units)!;
}
