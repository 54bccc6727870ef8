using System.Globalization;
using System.Net.ServerSentEvents;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Live;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Files.Records;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using UnitsNet;

namespace Stillhook.App.Serving;

/// <summary>Addresses of a flight that is listened to: the page on this machine, the cockpit page, and the ground page that can be opened to the network.</summary>
internal static class LiveRoutes
{
    public const string Ground = "/live/ground", Code = "/live/code", ScreenCookie = "stillhook-ground";

    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder own = routes.MapGroup("").RequireAuthorization(Access.Flights), ground = routes.MapGroup("").RequireAuthorization(Access.Ground);
        // A flight that somebody else flies is not there.
        own.AddEndpointFilter(async (context, next) =>
            context.HttpContext.RequestServices.GetRequiredService<ServingOptions>().Live is not null && context.HttpContext.Live() is null ? NotListening() : await next(context));
        own.MapGet("/live", Page);
        own.MapGet("/live/part", (HttpContext http, ServingOptions options) => Part(http, options, forNetwork: false));
        own.MapGet("/live/events", (HttpContext http, ServingOptions options, OpenStreams streams) => Events(http, options, streams));
        own.MapPost("/live/mark", Mark);
        own.MapPost("/live/ground-here", GroundHere);
        own.MapPost("/live/load", Load);
        own.MapPost("/live/read", Read);
        own.MapPost("/live/recheck", Recheck);
        own.MapPost("/live/break", WasBreak);
        own.MapPost("/live/file", FileIt);
        own.MapGet("/live/cockpit", (ServingOptions options) => options.Live is null ? NotListening() : new RazorComponentResult<CockpitPage>());
        own.MapGet("/live/cockpit/events", Cockpit);
        ground.MapGet(Ground, (HttpContext http, ServingOptions options) =>
            options.Live is { } live ? new RazorComponentResult<GroundPage>(new { Live = live, Shown = LiveShown.Of(live), Units = http.Units() }) : NotListening());
        ground.MapGet(Ground + "/part", (HttpContext http, ServingOptions options) => Part(http, options, forNetwork: true));
        routes.MapGet(Code, () => new RazorComponentResult<CodePage>()).AllowAnonymous();
        routes.MapPost(Code, Enter).DisableAntiforgery().AllowAnonymous().WithMetadata(new BodyLimit(1000));
        ground.MapGet(Ground + "/events", (HttpContext http, ServingOptions options, OpenStreams streams) => Events(http, options, streams));
    }

    private static IResult NotListening() => PageResults.Message("Not listening", "No flight is being listened to.", "Start the program with: stillhook listen SOURCE --job JOB. The sources it knows: stillhook listen --help.", 404);

    private static RazorComponentResult<LivePage> Page(HttpContext http, ServingOptions options, string? kept, string? problem, string? delivery, string? number, string? mass, string? qnh, string? oat, string? wind, string? fuel)
    {
        if (options.Live?.Flight.Setup.Job is { } job)
            http.RememberJob(job.Kept.Key);
        return new(new { options.Live, Shown = options.Live is { } live ? LiveShown.Of(live) : null, Units = http.Units(), Token = http.FormToken(), Kept = kept, Problem = problem, Delivery = delivery, Number = number, Mass = mass, Read = ReadNow.From(qnh, oat, wind, fuel, null, http.Units().Mark) });
    }

    private static IResult Part(HttpContext http, ServingOptions options, bool forNetwork) => options.Live is not { } live ? NotListening()
        : forNetwork ? new RazorComponentResult<GroundPart>(new { Live = live, Shown = LiveShown.Of(live), Units = http.Units() })
        : new RazorComponentResult<LivePart>(new { Live = live, Shown = LiveShown.Of(live), Units = http.Units(), Token = http.FormToken() });

    /// <summary>What happens, as it happens; a browser that comes back tells the last id that it has.</summary>
    private static IResult Events(HttpContext http, ServingOptions options, OpenStreams streams)
    {
        if (options.Live is not { } live)
            return NotListening();
        long? after = LiveEvents.IdFrom(http.Request.Headers["Last-Event-ID"]);
        return TypedResults.ServerSentEvents(Items(streams.Follow(http, live.Flight.Events, after, http.RequestAborted)));
    }

    private static async IAsyncEnumerable<SseItem<string>> Items(IAsyncEnumerable<LiveEvent> events)
    {
        await foreach (LiveEvent e in events)
            yield return new(e.What, "happened") { EventId = e.Id > 0 ? e.Id.ToString(CultureInfo.InvariantCulture) : null };
    }

    /// <summary>What the cockpit page shows: nothing at all while it is dark. Earlier events are never told again.</summary>
    private static IResult Cockpit(HttpContext http, ServingOptions options, OpenStreams streams) => options.Live is { } live
        ? TypedResults.ServerSentEvents(Views(live, options, http, streams.Follow(http, live.Flight.Events, null, http.RequestAborted)))
        : NotListening();

    private static async IAsyncEnumerable<SseItem<string>> Views(LiveDesk live, ServingOptions options, HttpContext http, IAsyncEnumerable<LiveEvent> events)
    {
        await foreach (LiveEvent _ in events)
            yield return new(JsonSerializer.Serialize(CockpitView.Of(live, options, http), CockpitJson.Default.CockpitView), "view");
    }

    private static IResult Mark(HttpContext http, ServingOptions options, [FromForm] IFormCollection _) => options.Live is not { } live ? NotListening()
        : Back("Marked " + live.Clock.Clock(live.Mark(http.TypedBy())) + ". Name it on the Day page.");

    private static IResult GroundHere(ServingOptions options, [FromForm] IFormCollection _)
    {
        if (options.Live is not { } live)
            return NotListening();
        LiveState state = live.Flight.State();
        if (!(state.NowS - state.NewestS <= live.Flight.Setup.Settings.StaleS))
            return Problem("No position of now has arrived, so nobody can tell where the ground is.");
        live.Flight.MarkGround();
        return Back("The height of the ground here is known now.");
    }

    private static IResult Load(HttpContext http, ServingOptions options, [FromForm] string? delivery, [FromForm] string? number, [FromForm] string? mass)
    {
        if (options.Live is not { } live)
            return NotListening();
        string which = delivery?.Trim() ?? "";
        string? load = string.IsNullOrWhiteSpace(number) ? null : number.Trim();
        double? kg = null;
        if (!string.IsNullOrWhiteSpace(mass))
        {
            DisplayUnits units = http.Units();
            string typed = mass.Trim().Any(char.IsLetter) ? mass.Trim() : mass.Trim() + units.MassUnit;
            if (!QuantityText.TryMass(units.Mark.Read(typed), out Mass read, out string expected) || !(read.Kilograms is > 0 and < 20_000))
                return Refused($"Mass '{mass.Trim()}' can't be used; type {expected}.");
            kg = read.Kilograms;
        }
        if (load is null && kg is null)
            return Refused("Nothing was typed: write the number of the load, its mass, or both.");
        if (load is not null && live.Flight.Setup.Job?.File.Request.Loads is { Count: > 0 } listed && listed.All(l => l.Number != load))
            return Refused($"There is no load '{load}' on the list.");
        return int.TryParse(which, NumberStyles.None, CultureInfo.InvariantCulture, out int counted) && live.Write(counted, load, kg, http.TypedBy())
            ? Back($"Delivery {which} written.")
            : Refused($"There is no delivery '{which}'.");

        // What was typed stands in its fields again.
        IResult Refused(string what) => TypedResults.LocalRedirect("/live" + QueryString.Create(new Dictionary<string, string?> { ["problem"] = what, ["delivery"] = which, ["number"] = number, ["mass"] = mass }));
    }

    /// <summary>Setting, temperature, wind and fuel as read now are written down; with <c>then=check</c> the Next page says what they move.</summary>
    private static IResult Read(HttpContext http, ServingOptions options, [FromForm] string? qnh, [FromForm] string? oat, [FromForm] string? wind, [FromForm] string? fuel, [FromForm] string? then)
    {
        if (options.Live is not { } live)
            return NotListening();
        ReadNow read = ReadNow.From(qnh, oat, wind, fuel, null, http.Units().Mark);
        string typed = QueryString.Create(read.Typed.Where(t => t.Value.Length > 0).Select(t => KeyValuePair.Create(t.Key, (string?)t.Value))).ToString();
        if (read.Mistakes.Count > 0)
            return TypedResults.LocalRedirect("/live" + typed + "#read");
        if (read.IsEmpty)
            return Problem("Nothing was typed: write what you read now, any one alone will do.");
        live.Read(read.Readings, http.TypedBy());
        return then == "check" && live.Flight.Setup.Job is { } job ? TypedResults.LocalRedirect($"{job.Address}/next{typed}#now") : Back("Written down.");
    }

    /// <summary>The offered check is taken, and the plan's check comes with all of it filled in; or it is put aside.</summary>
    private static IResult Recheck(HttpContext http, ServingOptions options, [FromForm] string? aside)
    {
        if (options.Live is not { } live)
            return NotListening();
        string? address = live.Recheck(aside == "yes", http.TypedBy());
        return aside == "yes" || address is null ? Back("Put aside. It is offered again when something moves once more.") : TypedResults.LocalRedirect(address);
    }

    private static IResult WasBreak(HttpContext http, ServingOptions options, [FromForm] string? from) => options.Live is not { } live ? NotListening()
        : double.TryParse(from, NumberStyles.Float, CultureInfo.InvariantCulture, out double fromS) && live.WasBreak(fromS, http.TypedBy())
            ? Back("Written as a break.") : Problem("There is no such time on the ground that nobody has named yet.");

    /// <summary>The whole flight from the journal is taken in as a record, by the same way as a file.</summary>
    private static IResult FileIt(HttpContext http, ServingOptions options, FlightIntake intake, [FromForm] IFormCollection _)
    {
        if (options.Live is not { } live)
            return NotListening();
        if (live.WholeRecord() is not { Count: > 0 } record)
            return Problem("Nothing was recorded yet.");
        using MemoryStream bytes = new();
        RecordWriter.Write(record, RecordFormat.Csv, bytes);
        bytes.Position = 0;
        string name = live.Clock.At(record.TimeS[0]).ToString("'live-'yyyy-MM-dd-HHmm'.csv'", CultureInfo.InvariantCulture);
        OpenJob? job = live.Flight.Setup.Job;
        LiveShown shown = LiveShown.Of(live);
        // The numbers of the loads are those that the Live page has: the same order, less what was flown before, and the rest still to come.
        IReadOnlyList<PlannedLoad>? inOrder = live.Flight.Setup.Plan is { } plan ? [.. MeasuredFlight.InOrder(plan).Where(l => !shown.Before.Contains(l.Number))] : null;
        Pages.Upload taken = intake.TakeIn(name, bytes, job is null ? null : new(job.Kept.Key, job.Kept.Text, inOrder, GoesOn: true), http.TypedBy(), http.TakesInFor(), http.MayReadFlight);
        return taken.Flight is { } open ? Results.Redirect(string.Create(CultureInfo.InvariantCulture, $"/deliveries/{open.Flight.Id}")) : Problem("The record holds nothing that can be debriefed.");
    }

    /// <summary>A screen that brings the code of the moment is let in to the ground page until the program ends.</summary>
    private static async Task<IResult> Enter(HttpContext http, ServingOptions options)
    {
        IFormCollection form = await http.Request.ReadFormAsync(http.RequestAborted);
        if (options.Codes?.Open(form["code"]) is not { } key)
            return new RazorComponentResult<CodePage>(new { Wrong = true }) { StatusCode = StatusCodes.Status403Forbidden };
        http.Response.Cookies.Append(ScreenCookie, key, new() { HttpOnly = true, SameSite = SameSiteMode.Strict, IsEssential = true });
        return Results.LocalRedirect(Ground);
    }

    private static RedirectHttpResult Back(string kept) => TypedResults.LocalRedirect("/live?kept=" + Uri.EscapeDataString(kept));

    private static RedirectHttpResult Problem(string what) => TypedResults.LocalRedirect("/live?problem=" + Uri.EscapeDataString(what));
}

/// <summary>What the cockpit page shows.</summary>
/// <param name="Lit">False: nothing.</param>
/// <param name="Line">The one line.</param>
/// <param name="Rest">On the ground: the rest, a sentence each.</param>
internal sealed record CockpitView(bool Lit, string? Line = null, IReadOnlyList<string>? Rest = null)
{
    public static CockpitView Of(LiveDesk live, ServingOptions options, HttpContext http)
    {
        if (!live.Flight.Light().IsLit)
            return new(false);
        LiveShown shown = LiveShown.Of(live);
        if (!shown.State.Light.IsLit || NextSite(shown, live) is not { } next)
            return new(false);
        DisplayUnits units = http.Units();
        string line = units.Sentence(next.Next?.Line ?? "Nothing to learn from yet.");
        return new(true, line, shown.State.Light.Reason == LightReason.OnTheGround ? [.. LiveWords.OnTheGround(shown, next, units)] : null);
    }

    /// <summary>The site where the next load goes; else that of the last delivery.</summary>
    private static LiveNext? NextSite(LiveShown shown, LiveDesk live)
    {
        string? site = shown.Loads.NextLoad?.OnHook.Load.Delivery;
        LiveNext? planned = shown.State.Next.FirstOrDefault(n => n.Card.Site is { } s && string.Equals(s, site, StringComparison.OrdinalIgnoreCase));
        if (planned is not null || shown.State.Deliveries.LastOrDefault(d => !d.Withdrawn) is not { } last)
            return planned ?? (shown.State.Next.Count > 0 ? shown.State.Next[0] : null);
        return shown.State.Next.FirstOrDefault(n => n.Card == LiveLook.At(last.Rotation, last.Frame, shown.State.Cards)) ?? (shown.State.Next.Count > 0 ? shown.State.Next[0] : null);
    }
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(CockpitView))]
internal sealed partial class CockpitJson : JsonSerializerContext;
