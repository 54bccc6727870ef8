using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.Adjusting;
using Stillhook.App.Pages.NextDelivery;
using Stillhook.Following;
using Stillhook.Planning.Rechecking;

namespace Stillhook.App.Serving;

/// <summary>Address of the next delivery: what to change, from everything since the card was issued, and what readings of now move.</summary>
internal static class NextRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/next", Page).RequireAuthorization(Access.Flights);
        routes.MapPost("/jobs/{key:guid}/next", Read).RequireAuthorization(Access.Flights);
    }

    /// <summary>While the job's flight is listened to, what is read is written down too; then it is shown as by its address.</summary>
    private static IResult Read(Guid key, HttpContext http, ServingOptions options, [FromForm] string? qnh, [FromForm] string? oat, [FromForm] string? wind, [FromForm] string? fuel, [FromForm] string? time)
    {
        ReadNow read = ReadNow.From(qnh, oat, wind, fuel, time, http.Units().Mark);
        if (http.Live(key) is { } live && read is { IsEmpty: false, Mistakes.Count: 0 })
            live.Read(read.Readings, http.TypedBy());
        return TypedResults.LocalRedirect($"/jobs/{key}/next{QueryString.Create(read.Typed.Where(t => t.Value.Length > 0).Select(t => KeyValuePair.Create(t.Key, (string?)t.Value)))}#now");
    }

    private static IResult Page(Guid key, HttpContext http, ServingOptions options, JobWork jobs, string? qnh, string? oat, string? wind, string? fuel, string? time)
    {
        if (jobs.Open(key) is not { } job)
            return PageResults.Message("Not here", "There is no such job in the store.", "It may have been removed. Go back to the jobs.", 404);
        http.RememberJob(key);
        KeptNext? kept = job.File.IsUsable && job.Kept.Day is not null ? Kept(http, options, jobs, job) : null;
        ReadNow read = ReadNow.From(qnh, oat, wind, fuel, time, http.Units().Mark);
        string? refused = null;
        ConditionsNow? now = null;
        if (kept is not null && read is { IsEmpty: false, Mistakes.Count: 0 })
        {
            Shift shift = read.Shift(kept, options.Clock, DeliveredLive(http, key));
            refused = Rechecker.Refuse(job.File.Request, shift);
            now = refused is null ? jobs.Once(key, job.Kept.Text, "now " + read.Text(shift), () => Job.Conditions(job.File.Request, job.ApproachOptions(), shift)) : null;
        }
        return new RazorComponentResult<NextPage>(new { Job = job, Kept = kept, Read = read, Now = now, IsLive = http.Live(key) is not null, Refused = refused, Token = http.FormToken(), Units = http.Units() })
        {
            StatusCode = read.Mistakes.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
        };
    }

    /// <summary>Loads delivered in the flight that is listened to, when it is of this job: they are not in the store before it is taken in.</summary>
    private static IEnumerable<string>? DeliveredLive(HttpContext http, Guid job) =>
        http.Live(job) is { } live ? LiveShown.Of(live).Loads.Gone : null;

    /// <summary>Records are read again only when something of the day, the job, its cards or the flight that is listened to was changed.</summary>
    private static KeptNext Kept(HttpContext http, ServingOptions options, JobWork jobs, OpenJob job)
    {
        DayKept day = new(options.Store, new(job.Kept.Day!.Value, job.Kept.Aircraft));
        LiveDelivery[] live = [.. http.Live(job.Kept.Key) is { } desk ? desk.Flight.State().Deliveries.Where(d => !d.Withdrawn) : []];
        string text = string.Create(CultureInfo.InvariantCulture, $"{day.Stamp} {job.Ground?.Stamp} {options.Store.Jobs.Cards(job.Kept.Key).Count} {string.Join(' ', live.Select(d => $"{d.Number}.{d.MeasuredAgain}"))} {job.Kept.Text}");
        // Each sees what follows from his own flights alone, unless he may read all.
        Func<long, bool>? readable = http.Readable(options.Store);
        return jobs.Once(job.Kept.Key, text, readable is null ? "next" : "next for " + http.TakesInFor(), () => KeptNext.Of(options.Store, job.Kept, job.Ground?.Grid, live, readable));
    }
}
