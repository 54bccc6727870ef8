using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary>A day of the store as a command names it, with the sites' clock both ways.</summary>
/// <param name="Store">The store.</param>
/// <param name="Key">Day and aircraft.</param>
/// <param name="Work">All that is kept of it.</param>
internal sealed record KeptDay(WorkStore Store, WorkDay Key, DayWork Work)
{
    public static Argument<string> CreateArgument() => new("DATE") { Description = "The day, such as 2026-06-01, in the sites' time zone" };

    public static Option<string?> CreateAircraft() => new("--aircraft") { Description = "One aircraft's day alone; that of the day's job when left out", HelpName = "NAME" };

    public static Option<string> CreateBy() =>
        new("--by") { Description = "Who says so", HelpName = "NAME", DefaultValueFactory = _ => Environment.UserName is { Length: > 0 } user ? user : "somebody" };

    /// <summary>The day named; null, with the reason told, when it is none.</summary>
    public static KeptDay? Open(ParseResult arguments, StoreOption store, Argument<string> day, Option<string?> aircraft)
    {
        if (!DateOnly.TryParseExact(arguments.GetValue(day), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
        {
            Console.Error.WriteLine($"stillhook: '{arguments.GetValue(day)}' is no day. Write it as 2026-06-01.");
            return null;
        }
        WorkStore work = store.Open(arguments);
        string? named = arguments.GetValue(aircraft) ?? work.Jobs.List().FirstOrDefault(j => j.Day == date)?.Aircraft;
        WorkDay key = new(date, named);
        return new(work, key, work.Days.Read(key));
    }

    /// <summary>The moment of a clock time of the day, s since 1970 UTC; null where the clocks are put forward over it.</summary>
    public double? MomentS(TimeOnly time)
    {
        DateTime local = Key.Day.ToDateTime(time);
        double asUtc = new DateTimeOffset(local, TimeSpan.Zero).ToUnixTimeSeconds();
        // The offset is that of the moment itself, found from a guess and then from what the guess gave.
        double moment = asUtc - Work.Clock(asUtc).Offset.TotalSeconds;
        moment = asUtc - Work.Clock(moment).Offset.TotalSeconds;
        return Work.Clock(moment).DateTime == local ? moment : null;
    }

    /// <summary>A moment on the sites' clock; on another day with its date.</summary>
    public string Clock(double timeS)
    {
        DateTimeOffset at = Work.Clock(timeS);
        return at.ToString(DateOnly.FromDateTime(at.DateTime) == Key.Day ? "HH:mm" : "yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
    }

    /// <summary>Tells what can't be used.</summary>
    public static int Refused(string why)
    {
        Console.Error.WriteLine("stillhook: " + why);
        return ExitCode.BadInput;
    }
}
