using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Stillhook.Store;

/// <summary>Somebody who may sign in once the pages are opened to a network. Roles and flags are its claims.</summary>
public sealed class Account : IdentityUser;

/// <summary>Lets ASP.NET Core Identity keep its accounts in the store.</summary>
public static class AccountServices
{
    /// <summary>Adds what reads and writes the accounts of a store. Archives never carry them; a backup of a SQLite store does.</summary>
    public static IServiceCollection AddAccounts(this IServiceCollection services, WorkStore store)
    {
        ArgumentNullException.ThrowIfNull(services);
        ArgumentNullException.ThrowIfNull(store);
        services.AddScoped(_ => store.Database.Context());
        services.AddScoped<IUserStore<Account>, AccountUsers>();
        return services;
    }

    private sealed class AccountUsers(StillhookContext context, IdentityErrorDescriber describer) : UserOnlyStore<Account, StillhookContext>(context, describer);
}
