using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages;
using Stillhook.App.Pages.Deliveries;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of one flight's deliveries: page, fragments, numbers, files, corrections.</summary>
internal static class DeliveryRoutes
{
    /// <summary>How many deliveries can be laid over each other: as many as line styles that can be told apart in black and white.</summary>
    public const int MostOverlaid = 4;

    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder own = routes.MapGroup("").RequireAuthorization(Access.Flights).OwnFlightsOnly();
        own.MapGet("/deliveries/{id:long}", Page);
        own.MapGet("/deliveries/{id:long}/panel", Panel);
        own.MapGet("/deliveries/{id:long}/pair", Pair);
        own.MapGet("/deliveries/{id:long}/series", Series);
        own.MapGet("/deliveries/{id:long}/files/{file}", File);
        own.MapPost("/deliveries/{id:long}/figures", Figures);
        own.MapPost("/deliveries/{id:long}/lifts/{number:int}", Correct);
        // Reloading a page that refused a correction opens the form anew.
        own.MapGet("/deliveries/{id:long}/lifts/{number:int}", (long id, int number) => Results.Redirect(FormattableString.Invariant($"/deliveries/{id}?correct={number}#correct")));
    }

    private static IResult Page(long id, HttpContext http, ServingOptions options, FlightDebriefs debriefs, int[] show, int[] pair, int? correct)
    {
        http.RememberFlight(id);
        return Render(id, http, options, debriefs, new(show, pair, correct is { } number ? CorrectionDraft.Empty(number) : null));
    }

    private static IResult Render(long id, HttpContext http, ServingOptions options, FlightDebriefs debriefs, Asked asked)
    {
        if (debriefs.Open(id) is not { } flight)
            return NoFlight(id);
        IReadOnlyList<Rotation> chosen = Chosen(flight, asked.Show);
        return new RazorComponentResult<DeliveriesPage>(new
        {
            Flight = flight,
            Chosen = chosen,
            Lifts = Lifts(options, id),
            Pair = asked.Pair,
            Draft = asked.Draft,
            Token = http.FormToken(),
            By = http.TypedBy(),
            Units = http.Units(),
            Refused = asked.Refused ?? new Dictionary<string, string>(),
        })
        {
            StatusCode = asked.Refused is { Count: > 0 } || asked.Draft is { IsRefused: true } ? asked.Draft is { Meanwhile.Count: > 0 } ? StatusCodes.Status409Conflict : StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
        };
    }

    private static IResult Panel(long id, HttpContext http, FlightDebriefs debriefs, int[] show) => debriefs.Open(id) is { } flight
        ? new RazorComponentResult<DeliveryPanel>(new { Flight = flight, Chosen = Chosen(flight, show), Units = http.Units() })
        : NoFlight(id);

    private static IResult Pair(long id, HttpContext http, ServingOptions options, FlightDebriefs debriefs, int[] pair) => debriefs.Open(id) is { } flight
        ? new RazorComponentResult<PairResult>(new { Flight = flight, Lifts = Lifts(options, id), Pair = pair, Units = http.Units() })
        : NoFlight(id);

    private static IResult Series(long id, HttpContext http, FlightDebriefs debriefs, int[] show)
    {
        if (debriefs.Open(id) is not { } flight)
            return NoFlight(id);
        MemoryStream json = new();
        SeriesJson.Write(json, flight, Paths(flight, show), http.Units());
        return Results.Bytes(json.GetBuffer().AsMemory(0, (int)json.Length), "application/json");
    }

    private static IResult File(long id, string file, HttpContext http, FlightDebriefs debriefs, int[] show)
    {
        if (debriefs.Open(id) is not { } flight)
            return NoFlight(id);
        List<DeliveryPath> paths = Paths(flight, show);
        if (DeliveryFiles.Make(file, flight, paths, http.Units().Plain) is not { } content)
            return PageResults.Message("Not here", $"There is no picture '{file}' of these deliveries.", "What it shows may not be in the record. Go back and choose a link under a picture.", 404);
        string type = file.EndsWith(".svg", StringComparison.Ordinal) ? "image/svg+xml" : "text/csv; charset=utf-8";
        return Results.File(Encoding.UTF8.GetBytes(content), type, DeliveryFiles.NameOf(file, flight, paths));
    }

    private static IResult Figures(long id, HttpContext http, ServingOptions options, FlightDebriefs debriefs, [FromForm] IFormCollection form)
    {
        Dictionary<string, string> typed = [];
        foreach (CrewFigure figure in CrewFigures.All)
            if (form[figure.Key].ToString().Trim() is { Length: > 0 } text)
                typed[figure.Key] = http.Units().Mark.Read(text);
        if (typed.Any(t => CrewFigures.Mistake(t.Key, t.Value) is not null))
            return Render(id, http, options, debriefs, new([], [], null, typed));
        options.Store.Flights.SaveTyped(id, typed);
        debriefs.MeasureAnew(id);
        return Results.Redirect($"/deliveries/{id}");
    }

    private static IResult Correct(long id, int number, HttpContext http, ServingOptions options, FlightDebriefs debriefs, LiftCorrections corrections, [FromForm] IFormCollection form)
    {
        if (debriefs.Open(id) is not { } flight)
            return NoFlight(id);
        int[] show = [.. form["show"].Select(s => int.TryParse(s, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int n) ? n : 0).Where(n => n > 0)];
        Dictionary<string, string> typed = form.Where(f => f.Value.Count > 0).ToDictionary(f => f.Key, f => f.Value[0]!.Trim());
        if (http.Who(typed.GetValueOrDefault("who")) is { } who)
            typed["who"] = who;
        CorrectionDraft? draft = corrections.Take(flight, number, typed, http.Units());
        if (draft is null)
            return PageResults.Message("Not here", $"Lift {number} of this flight is not kept.", "Go back and reload the page.", 404);
        if (draft.IsRefused)
            return Render(id, http, options, debriefs, new(show, [], draft));
        http.RememberName(typed["who"]);
        return Results.Redirect($"/deliveries/{id}{Query(show)}#rotation-{number}");
    }

    /// <summary>The chosen rotations as part of an address.</summary>
    public static string Query(IEnumerable<int> show) => string.Join('&', show.Select(n => FormattableString.Invariant($"show={n}"))) is { Length: > 0 } query ? "?" + query : "";

    private static IReadOnlyDictionary<int, CorrectedLift> Lifts(ServingOptions options, long id) =>
        options.Store.Lifts.OfFlight(id).Where(l => !l.AsKept.AddedByHand).ToDictionary(l => l.AsKept.Number);

    private static List<DeliveryPath> Paths(OpenFlight flight, int[] show) => [.. Chosen(flight, show).Select(r => DeliveryPath.Of(flight.Debrief, r)).OfType<DeliveryPath>()];

    public static IResult NoFlight(long id) => PageResults.Message("Not here", $"There is no flight {id} in the store.", "It may have been removed. Go back to the flights.", 404);

    /// <summary>The rotations asked for, in order of time; the last measured one when none was asked for.</summary>
    private static IReadOnlyList<Rotation> Chosen(OpenFlight flight, int[] show)
    {
        List<Rotation> chosen = [.. flight.Debrief.Rotations.Where(r => show.Contains(r.Number)).Take(MostOverlaid)];
        if (chosen.Count == 0 && flight.Debrief.Rotations.LastOrDefault(r => r.Delivery is not null) is { } last)
            chosen.Add(last);
        return chosen;
    }

    private sealed record Asked(int[] Show, int[] Pair, CorrectionDraft? Draft, IReadOnlyDictionary<string, string>? Refused = null);
}
