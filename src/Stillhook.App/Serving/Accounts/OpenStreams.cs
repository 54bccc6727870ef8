using System.Collections.Concurrent;
using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Streams of what happens in a flight that is listened to; each ends with the session it was opened in.</summary>
internal sealed class OpenStreams
{
    // Own choice: what was changed at the terminal takes this long to reach an open stream.
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(5);
    private readonly ConcurrentDictionary<string, CancellationTokenSource> byAccount = new();

    /// <summary>Ends every stream of an account. A browser whose session goes on opens its own again by itself.</summary>
    public void End(ClaimsPrincipal account)
    {
        if (Key(account) is { } key && byAccount.TryRemove(key, out CancellationTokenSource? open))
            open.Cancel();
    }

    /// <summary>What happens, until the session of a request ends; without accounts until the page is closed.</summary>
    public async IAsyncEnumerable<LiveEvent> Follow(HttpContext http, LiveEvents events, long? after, [EnumeratorCancellation] CancellationToken cancellation)
    {
        string? account = Key(http.User);
        DateTimeOffset? expires = account is null ? null : (await http.AuthenticateAsync(IdentityConstants.ApplicationScheme)).Properties?.ExpiresUtc;
        CancellationToken signedOut = account is null ? CancellationToken.None : byAccount.GetOrAdd(account, _ => new()).Token;
        await foreach (LiveEvent e in Until(events, after, expires, signedOut, account is null ? () => Task.FromResult(true) : () => Stands(http), cancellation))
            yield return e;
    }

    /// <summary>What happens, until a moment, a word or an account that is no more.</summary>
    /// <param name="events">What happens.</param>
    /// <param name="after">The last id that the listener has.</param>
    /// <param name="expires">When it ends in any case; null for never.</param>
    /// <param name="signedOut">Ends it at once.</param>
    /// <param name="stands">Whether the account is as it was; asked now and then.</param>
    /// <param name="cancellation">The listener is gone.</param>
    public static async IAsyncEnumerable<LiveEvent> Until(LiveEvents events, long? after, DateTimeOffset? expires, CancellationToken signedOut, Func<Task<bool>> stands, [EnumeratorCancellation] CancellationToken cancellation)
    {
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(cancellation, signedOut);
        if (expires is { } at)
            end.CancelAfter(TimeSpan.FromTicks(Math.Max(0, (at - TimeProvider.System.GetUtcNow()).Ticks)));
        await using IAsyncEnumerator<LiveEvent> told = events.After(after, end.Token).GetAsyncEnumerator(end.Token);
        long looked = Stopwatch.GetTimestamp();
        while (await Next(told, cancellation))
        {
            if (Stopwatch.GetElapsedTime(looked) > Between)
            {
                if (!await stands())
                    yield break;
                looked = Stopwatch.GetTimestamp();
            }
            if (end.IsCancellationRequested)
                yield break;
            yield return told.Current;
        }
    }

    private static async Task<bool> Next(IAsyncEnumerator<LiveEvent> told, CancellationToken gone)
    {
        try
        {
            return await told.MoveNextAsync();
        }
        catch (OperationCanceledException) when (!gone.IsCancellationRequested)
        {
            return false;
        }
    }

    /// <summary>Read apart from the request, which would answer from what it read when it began.</summary>
    private static async Task<bool> Stands(HttpContext http)
    {
        await using AsyncServiceScope scope = http.RequestServices.GetRequiredService<IServiceScopeFactory>().CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<SignInManager<Account>>().ValidateSecurityStampAsync(http.User) is not null;
    }

    private static string? Key(ClaimsPrincipal account) => account.FindFirstValue(ClaimTypes.NameIdentifier);
}
