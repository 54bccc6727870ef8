using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.Features;

namespace Stillhook.App.Serving;

/// <summary>Most bytes that may be sent to an address; null takes what a record may have.</summary>
internal sealed record BodyLimit(long? Bytes)
{
    /// <summary>Where nothing else is said: room for the longest job with its pasted tables.</summary>
    public const long Usual = 8_000_000;

    /// <summary>For addresses that take records.</summary>
    public static BodyLimit Record { get; } = new((long?)null);
}

/// <summary>Stands before everything that changes something: the form is read within its bounds of bytes and time, and has to bring the token of a page of this program.</summary>
internal static class FormGuard
{
    public static async Task Run(HttpContext http, RequestDelegate next, long largest, TimeSpan longest)
    {
        if (HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method))
        {
            await next(http);
            return;
        }
        EndpointMetadataCollection? endpoint = http.GetEndpoint()?.Metadata;
        long limit = endpoint?.GetMetadata<BodyLimit>() is { } own ? own.Bytes ?? largest : BodyLimit.Usual;
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
            size.MaxRequestBodySize = limit;
        if (await Read(http, longest) is { } refused)
            await refused.ExecuteAsync(http);
        else if (endpoint?.GetMetadata<IAntiforgeryMetadata>() is not { RequiresValidation: false } && !await http.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(http))
            await PageResults.Message("Not taken", "The form was too old or not complete, and nothing was changed.", "Go back, reload the page and send it again.", StatusCodes.Status400BadRequest).ExecuteAsync(http);
        else
            await next(http);
    }

    /// <summary>Reads the form once for all that follow; null when it was read, else what to answer.</summary>
    private static async Task<IResult?> Read(HttpContext http, TimeSpan longest)
    {
        if (!http.Request.HasFormContentType)
            return null;
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(http.RequestAborted);
        end.CancelAfter(longest);
        try
        {
            IFormCollection form = await http.Request.ReadFormAsync(end.Token);
            // No store keeps it, and nobody types it.
            return form.Any(f => f.Key.Contains('\0', StringComparison.Ordinal) || f.Value.Any(v => v?.Contains('\0', StringComparison.Ordinal) == true))
                ? PageResults.Message("Not taken", "The form holds a character that no text has, and nothing was changed.", "Type it again by hand instead of pasting it.", StatusCodes.Status400BadRequest)
                : null;
        }
        catch (Microsoft.AspNetCore.Http.BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return PageResults.Message("Too large", "More was sent than this page takes.", "Nothing was kept. Records that are larger are debriefed from the terminal: stillhook debrief FILE.", StatusCodes.Status413PayloadTooLarge);
        }
        catch (Microsoft.AspNetCore.Http.BadHttpRequestException e)
        {
            return PageResults.Message("Not taken", "What was sent broke off or came too slowly, and nothing was kept.", "Send it again over a better connection.", e.StatusCode);
        }
        catch (InvalidDataException)
        {
            return PageResults.Message("Not taken", "The form could not be read, and nothing was changed.", "Go back, reload the page and send it again.", StatusCodes.Status400BadRequest);
        }
    }
}
