using System.CommandLine;
using Stillhook.Files.Jobs;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary>Where the store is: a file made when missing, or a PostgreSQL connection string.</summary>
internal sealed class StoreOption
{
    /// <summary>The option.</summary>
    /// <param name="defaultFile">Name of the file when nothing is said.</param>
    public StoreOption(string defaultFile = "stillhook.db") => Place = new("--store")
    {
        Description = "The file everything is kept in, made when missing; or a PostgreSQL connection string (Host=...)",
        HelpName = "PLACE",
        DefaultValueFactory = _ => Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "Stillhook", defaultFile),
    };

    /// <summary>To be added to a command.</summary>
    public Option<string> Place { get; }

    /// <summary>How a store is opened here: job files are read by this program.</summary>
    public static StoreOptions Options { get; } = new() { ReadJob = text => JobFile.Read(text) is { IsUsable: true } job ? job.Request : null };

    /// <summary>A store that a command may read measured flights from; none when it is not named.</summary>
    public static Option<string?> Measured() => new("--store") { Description = "Store whose flights feed forecast and quote: rotations and hovers as measured. Limits stay those of the chart", HelpName = "PLACE" };

    /// <summary>Opens a store that is there already; null when none is named.</summary>
    /// <exception cref="FileNotFoundException">There is none.</exception>
    public static WorkStore? Existing(string? place) => place is null ? null
        : File.Exists(place) || place.Contains("Host=", StringComparison.OrdinalIgnoreCase) ? WorkStore.Open(place, Options)
        : throw new FileNotFoundException($"{place}: there is no such store. Records are taken in with: stillhook import");

    /// <summary>Opens the store.</summary>
    public WorkStore Open(ParseResult arguments) => WorkStore.Open(arguments.GetValue(Place)!, Options);

    /// <summary>Does something with the store; what the store or a file refuses is told in one line.</summary>
    public static int Guarded(Func<int> what)
    {
        try
        {
            return what();
        }
        catch (Exception e) when (e is StoreException or IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"stillhook: {e.Message}");
            return ExitCode.BadInput;
        }
    }
}
