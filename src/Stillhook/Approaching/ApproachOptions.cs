using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Approaching;

/// <summary>Which approach to plan, and what the program around it knows that the job file doesn't.</summary>
public sealed record ApproachOptions
{
    /// <summary>Name of the delivery site; the load's, or the only one, when null.</summary>
    public string? Site { get; init; }

    /// <summary>Number of the load; the heaviest that lifts when null.</summary>
    public string? Load { get; init; }

    /// <summary>Distance to go at the start mark, typed.</summary>
    public Length? Start { get; init; }

    /// <summary>Path angle, typed.</summary>
    public Angle? Glide { get; init; }

    /// <summary>What was typed instead of what the job file says; figures name it as typed.</summary>
    public ApproachShift Shift { get; init; } = new();

    /// <summary>How the lift plan was made: clock and weather.</summary>
    public PlanOptions Plan { get; init; } = new();

    /// <summary>Ground by latitude and longitude (degrees), m; null without an elevation grid.</summary>
    public Func<double, double, double?>? Ground { get; init; }

    /// <summary>The moment of a local clock minute on a day; null when the sites' time zone is not known.</summary>
    public Func<DateOnly, double, DateTimeOffset?> MomentOf { get; init; } = (_, _) => null;

    /// <summary>Simulated flights that the offered plan is tried on.</summary>
    public int Flights { get; init; } = 10_000;

    /// <summary>Simulated flights that each way is tried on before one is offered. Fewer answer faster and may offer a way that is a little less good.</summary>
    public int TrialFlights { get; init; } = 600;

    /// <summary>Seed of those flights.</summary>
    public ulong Seed { get; init; } = 1;
}
