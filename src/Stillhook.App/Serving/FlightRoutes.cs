using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Recording;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the flights and their deliveries.</summary>
internal static class FlightRoutes
{
    /// <summary>How many deliveries can be laid over each other: as many as line styles that can be told apart in black and white.</summary>
    public const int MostOverlaid = 4;

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/flights", Flights);
        routes.MapPost("/flights", Upload);
        routes.MapPost("/flights/{id:long}/remove", Remove);
        routes.MapGet("/deliveries/{id:long}", Deliveries);
        routes.MapGet("/deliveries/{id:long}/panel", Panel);
        routes.MapGet("/deliveries/{id:long}/series", Series);
        routes.MapPost("/deliveries/{id:long}/figures", Figures);
    }

    private static RazorComponentResult Flights(HttpContext http, ServingOptions options) => FlightsPage(http, options, []);

    private static RazorComponentResult<FlightsPage> FlightsPage(HttpContext http, ServingOptions options, IReadOnlyList<Upload> uploads) =>
        new(new { Flights = options.Store.Flights.List(), Token = http.FormToken(), options.UploadLimitMb, Uploads = uploads, Units = http.Units() });

    private static IResult Upload(HttpContext http, ServingOptions options, FlightDebriefs debriefs, [FromForm] IFormFileCollection records, [FromForm] string? fragment)
    {
        List<Upload> uploads = [.. records.Select(file => TakeIn(file, options, debriefs))];
        return fragment == "1"
            ? new RazorComponentResult<UploadResults>(new { Uploads = (IReadOnlyList<Upload>)uploads })
            : FlightsPage(http, options, uploads);
    }

    private static Upload TakeIn(IFormFile file, ServingOptions options, FlightDebriefs debriefs)
    {
        string name = Path.GetFileName(file.FileName.Replace('\\', '/'));
        if (string.IsNullOrEmpty(name))
            name = "record";
        using Stream content = file.OpenReadStream();
        FlightRecord record = options.Steps.Read(content, name);
        if (record.Count == 0)
            return new(name, null, false, record.Findings);
        content.Position = 0;
        AddedFlight added = options.Store.Flights.Add(name, content, options.Clock.GetUtcNow());
        OpenFlight open = added.AlreadyThere ? debriefs.Open(added.Flight.Id)! : debriefs.Open(added.Flight, record);
        return new(name, open, added.AlreadyThere, open.Debrief.Findings);
    }

    private static IResult Remove(long id, ServingOptions options, [FromForm] string? sure)
    {
        if (sure == "yes")
            options.Store.Flights.Remove(id);
        return Results.Redirect("/flights");
    }

    private static IResult Deliveries(long id, HttpContext http, FlightDebriefs debriefs, int[] show) =>
        DeliveriesPage(id, http, debriefs, show, new Dictionary<string, string>());

    private static IResult DeliveriesPage(long id, HttpContext http, FlightDebriefs debriefs, int[] show, IReadOnlyDictionary<string, string> refused)
    {
        if (debriefs.Open(id) is not { } flight)
            return NoFlight(id);
        return new RazorComponentResult<DeliveriesPage>(new { Flight = flight, Chosen = Chosen(flight, show), Token = http.FormToken(), Units = http.Units(), Refused = refused })
        {
            StatusCode = refused.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
        };
    }

    private static IResult Panel(long id, HttpContext http, FlightDebriefs debriefs, int[] show) => debriefs.Open(id) is { } flight
        ? new RazorComponentResult<DeliveryPanel>(new { Flight = flight, Chosen = Chosen(flight, show), Units = http.Units() })
        : NoFlight(id);

    private static IResult Series(long id, HttpContext http, FlightDebriefs debriefs, int[] show)
    {
        if (debriefs.Open(id) is not { } flight)
            return NoFlight(id);
        List<DeliveryPath> paths = [.. Chosen(flight, show).Select(r => DeliveryPath.Of(flight.Debrief, r)).OfType<DeliveryPath>()];
        MemoryStream json = new();
        SeriesJson.Write(json, flight, paths, http.Units());
        return Results.Bytes(json.GetBuffer().AsMemory(0, (int)json.Length), "application/json");
    }

    private static IResult Figures(long id, HttpContext http, ServingOptions options, FlightDebriefs debriefs, [FromForm] IFormCollection form)
    {
        Dictionary<string, string> typed = [];
        foreach (CrewFigure figure in CrewFigures.All)
            if (form[figure.Key].ToString().Trim() is { Length: > 0 } text)
                typed[figure.Key] = text;
        if (typed.Any(t => CrewFigures.Mistake(t.Key, t.Value) is not null))
            return DeliveriesPage(id, http, debriefs, [], typed);
        options.Store.Flights.SaveTyped(id, typed);
        return Results.Redirect($"/deliveries/{id}");
    }

    private static IResult NoFlight(long id) => PageResults.Message("Not here", $"There is no flight {id} in the store.", "It may have been removed. Go back to the flights.", 404);

    /// <summary>The rotations asked for, in order of time; the last measured one when none was asked for.</summary>
    private static IReadOnlyList<Rotation> Chosen(OpenFlight flight, int[] show)
    {
        List<Rotation> chosen = [.. flight.Debrief.Rotations.Where(r => show.Contains(r.Number)).Take(MostOverlaid)];
        if (chosen.Count == 0 && flight.Debrief.Rotations.LastOrDefault(r => r.Delivery is not null) is { } last)
            chosen.Add(last);
        return chosen;
    }
}
