using System.Diagnostics;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Identity;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Tries to sign in, counted by name whether or not there is such an account, and taken one after the other.</summary>
internal sealed class SignInTries(int aMinute) : IDisposable
{
    private readonly PartitionedRateLimiter<string> names = PartitionedRateLimiter.Create<string, string>(name =>
        RateLimitPartition.GetFixedWindowLimiter(name, _ => new FixedWindowRateLimiterOptions { PermitLimit = aMinute, Window = TimeSpan.FromMinutes(1) }));

    /// <summary>One at a time: many guesses sent at once would all be judged before the first is counted, and hashing takes a whole core.</summary>
    public SemaphoreSlim OneByOne { get; } = new(1, 1);

    /// <summary>Whether another try under this name may be made now.</summary>
    public bool Take(string name)
    {
        using RateLimitLease lease = names.AttemptAcquire(name);
        return lease.IsAcquired;
    }

    public void Dispose()
    {
        names.Dispose();
        OneByOne.Dispose();
    }
}

/// <summary>Signs in. A name that nobody has, a wrong password and a locked account are answered alike and as late.</summary>
internal sealed class SignIn(UserManager<Account> accounts, SignInManager<Account> sessions, IPasswordHasher<Account> hasher, SignInTries tries, ILogger<SignIn> log)
{
    // Longer than hashing and writing take; hashing alone takes 0.1 to 0.2 s on a slow machine.
    private static readonly TimeSpan AnsweredAfter = TimeSpan.FromMilliseconds(600);
    private static readonly Account Nobody = new();
    private static string? nobodysHash;

    /// <summary>Whether the person is signed in now.</summary>
    public async Task<bool> Try(string name, string password, string? from, CancellationToken cancellation)
    {
        long start = Stopwatch.GetTimestamp();
        bool done = await Judge(name, password, from, cancellation);
        if (!done && AnsweredAfter - Stopwatch.GetElapsedTime(start) is { Ticks: > 0 } left)
            await Task.Delay(left, cancellation);
        return done;
    }

    private async Task<bool> Judge(string name, string password, string? from, CancellationToken cancellation)
    {
        if (name.Length is 0 or > AccountNames.Longest || password.Length is 0 or > AccountSetup.LongestPassword || !tries.Take(accounts.NormalizeName(name) ?? ""))
            return false;
        await tries.OneByOne.WaitAsync(cancellation);
        try
        {
            Account? account = await accounts.FindByNameAsync(name);
            bool isRight = await IsRight(account, password);
            if (account is not null && isRight)
            {
                await accounts.ResetAccessFailedCountAsync(account);
                await sessions.SignInAsync(account, isPersistent: false);
            }
            else if (account is not null)
                // A name that nobody has is not written down: it may be a password in the wrong field.
                log.LogWarning("Sign-in refused for account {Account} from {Address}", account.UserName, from);
            return account is not null && isRight;
        }
        finally
        {
            tries.OneByOne.Release();
        }
    }

    /// <summary>Whether it is the account's password and the account is open. The password is hashed in any case.</summary>
    public async Task<bool> IsRight(Account? account, string password)
    {
        string hash = account?.PasswordHash ?? (nobodysHash ??= hasher.HashPassword(Nobody, "nobody's password"));
        bool isRight = hasher.VerifyHashedPassword(account ?? Nobody, hash, password) != PasswordVerificationResult.Failed;
        if (account is null || await accounts.IsLockedOutAsync(account))
            return false;
        if (!isRight)
            await accounts.AccessFailedAsync(account);
        return isRight;
    }
}

/// <summary>Names that an account can have.</summary>
internal static class AccountNames
{
    public const int Longest = 80;

    /// <summary>Why a name can't be used; null when it can.</summary>
    public static string? Refuse(string name) =>
        name.Length is 0 or > Longest ? "A name has 1 to 80 characters."
        : name != name.Trim() || name.Any(char.IsControl) || name.Any(c => char.GetUnicodeCategory(c) == System.Globalization.UnicodeCategory.Format) ? "A name has no blank at its ends and no control characters."
        : name == PageContext.Nobody ? "That stands for whoever types without an account; choose another name."
        : null;
}
