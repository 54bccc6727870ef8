using System.CommandLine;
using System.Security.Claims;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook account</c>: who may sign in once the pages are opened to a network.</summary>
internal static class AccountCommand
{
    public static Command Create() => new("account", """
        Says who may sign in once the pages are opened to a network (serve --open). A password is typed at the terminal or comes on standard input, never as an argument.
        """) { Add(), List(), Remove(), Password() };

    private static Argument<string> Name() => new("NAME") { Description = "Name of the account" };

    private static Command Add()
    {
        StoreOption store = new();
        Argument<string> name = Name();
        Option<string[]> roles = new("--role") { Description = $"What it may do: {string.Join(", ", Access.Roles)}; can be given more than once", HelpName = "ROLE", Required = true };
        roles.AcceptOnlyFromAmong([.. Access.Roles]);
        Option<bool> all = new("--all-flights") { Description = "May read everybody's flights; without it a pilot reads only his own, and the others none" };
        Option<string?> fliesAs = new("--flies-as") { Description = "The pilot's name as jobs write it, where it differs from the account's", HelpName = "PILOT" };
        Command command = new("add", """
            Makes an account and asks for its password twice.
            Example: stillhook account add "A. Berger" --role planner --role maintenance --all-flights
            Example: stillhook account add pilot-b --role pilot --flies-as "B. Keller"
            Exit code: 0 made, 2 it can't be.
            """) { name, roles, all, fliesAs, store.Place };
        command.SetAction(arguments => Run(store, arguments, async accounts =>
        {
            Account account = new() { UserName = arguments.GetValue(name) };
            string pilot = (arguments.GetValue(fliesAs) ?? account.UserName!).Trim();
            bool isPilot = arguments.GetValue(roles)!.Contains(Role.Pilot);
            if (AccountNames.Refuse(account.UserName!) is { } refused)
                return Told(refused);
            if (await accounts.FindByNameAsync(account.UserName!) is not null)
                return Told($"there is an account {account.UserName} already; choose another name.");
            if (isPilot && await FlyingAs(accounts, pilot) is { } other)
                return Told($"the flights of pilot {pilot} are read by account {other} already; name another with --flies-as.");
            if (ReadPassword(account.UserName!) is not { } password)
                return ExitCode.BadInput;
            IdentityResult made = await accounts.CreateAsync(account, password);
            if (!made.Succeeded)
                return Told(made);
            await accounts.AddClaimsAsync(account,
            [
                .. arguments.GetValue(roles)!.Distinct().Select(role => new Claim(ClaimTypes.Role, role)),
                .. isPilot ? [new Claim(Access.FliesAs, pilot)] : Array.Empty<Claim>(),
                .. arguments.GetValue(all) ? [new Claim(Access.AllFlights, "yes")] : Array.Empty<Claim>(),
            ]);
            Console.WriteLine($"{account.UserName}: made.");
            return ExitCode.Done;
        }));
        return command;
    }

    private static Command List()
    {
        StoreOption store = new();
        Command command = new("list", "Lists the accounts with what each may do.") { store.Place };
        command.SetAction(arguments => Run(store, arguments, async accounts =>
        {
            foreach (Account account in accounts.Users.OrderBy(a => a.NormalizedUserName).ToList())
            {
                IList<Claim> claims = await accounts.GetClaimsAsync(account);
                string flights = claims.Any(c => c.Type == Access.AllFlights) ? "; reads everybody's flights" : claims.FirstOrDefault(c => c.Type == Access.FliesAs) is { } pilot ? $"; flies as {pilot.Value}" : "";
                string locked = await accounts.IsLockedOutAsync(account) ? "; locked after wrong passwords" : "";
                Console.WriteLine($"{account.UserName}: {string.Join(", ", claims.Where(c => c.Type == ClaimTypes.Role).Select(c => c.Value).Order(StringComparer.Ordinal))}{flights}{locked}");
            }
            return ExitCode.Done;
        }));
        return command;
    }

    private static Command Remove()
    {
        StoreOption store = new();
        Argument<string> name = Name();
        Command command = new("remove", """
            Removes an account; its sessions end with the next request. Flights it took in for itself are then read only by accounts that read all.
            Exit code: 0 removed, 2 there is none.
            """) { name, store.Place };
        command.SetAction(arguments => Run(store, arguments, async accounts =>
        {
            if (await accounts.FindByNameAsync(arguments.GetValue(name)!) is not { } account)
                return NoAccount(arguments.GetValue(name)!);
            await accounts.DeleteAsync(account);
            Console.WriteLine($"{account.UserName}: removed.");
            return ExitCode.Done;
        }));
        return command;
    }

    private static Command Password()
    {
        StoreOption store = new();
        Argument<string> name = Name();
        Command command = new("password", """
            Sets another password and ends every session of the account; also opens one that is locked.
            Exit code: 0 set, 2 it can't be.
            """) { name, store.Place };
        command.SetAction(arguments => Run(store, arguments, async accounts =>
        {
            if (await accounts.FindByNameAsync(arguments.GetValue(name)!) is not { } account)
                return NoAccount(arguments.GetValue(name)!);
            if (ReadPassword(account.UserName!) is not { } password)
                return ExitCode.BadInput;
            foreach (IPasswordValidator<Account> rule in accounts.PasswordValidators)
                if (await rule.ValidateAsync(accounts, account, password) is { Succeeded: false } refused)
                    return Told(refused);
            account.PasswordHash = accounts.PasswordHasher.HashPassword(account, password);
            (account.LockoutEnd, account.AccessFailedCount) = (null, 0);
            if (await accounts.UpdateSecurityStampAsync(account) is { Succeeded: false } notKept)
                return Told(notKept);
            Console.WriteLine($"{account.UserName}: password set.");
            return ExitCode.Done;
        }));
        return command;
    }

    private static async Task<string?> FlyingAs(UserManager<Account> accounts, string pilot)
    {
        foreach (Account account in accounts.Users.ToList())
            if ((await accounts.GetClaimsAsync(account)).Any(c => c.Type == Access.FliesAs && string.Equals(c.Value, pilot, StringComparison.OrdinalIgnoreCase)))
                return account.UserName;
        return null;
    }

    private static int Run(StoreOption store, ParseResult arguments, Func<UserManager<Account>, Task<int>> what) => StoreOption.Guarded(() =>
    {
        ServiceCollection services = new();
        services.AddLogging();
        AccountSetup.AddIdentity(services, store.Open(arguments));
        using ServiceProvider provider = services.BuildServiceProvider();
        using IServiceScope scope = provider.CreateScope();
        return what(scope.ServiceProvider.GetRequiredService<UserManager<Account>>()).GetAwaiter().GetResult();
    });

    /// <summary>The password: one line of standard input, or typed twice unseen; null, with the reason told, when there is none.</summary>
    private static string? ReadPassword(string name)
    {
        string? password = Console.IsInputRedirected ? Console.In.ReadLine() : Typed($"Password for {name}: ");
        if (!Console.IsInputRedirected && password != Typed("Once more: "))
        {
            Told("the two differ; nothing was changed. Start again.");
            return null;
        }
        if (!string.IsNullOrEmpty(password))
            return password;
        Told("no password was given; type one, or send it on standard input.");
        return null;
    }

    private static string Typed(string ask)
    {
        Console.Error.Write(ask);
        StringBuilder typed = new();
        while (Console.ReadKey(intercept: true) is { Key: not ConsoleKey.Enter } key)
        {
            if (key.Key == ConsoleKey.Backspace)
                typed.Length = Math.Max(0, typed.Length - 1);
            else if (!char.IsControl(key.KeyChar))
                typed.Append(key.KeyChar);
        }
        Console.Error.WriteLine();
        return typed.ToString();
    }

    private static int NoAccount(string name) => Told($"there is no account {name}; those there are: stillhook account list");

    private static int Told(IdentityResult refused) => Told(string.Join(" ", refused.Errors.Select(e => e.Description)));

    private static int Told(string why)
    {
        Console.Error.WriteLine($"account: {why}");
        return ExitCode.BadInput;
    }
}
