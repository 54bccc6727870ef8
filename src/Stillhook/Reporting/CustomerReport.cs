using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>What the customer is told of a job: what was placed where and when, what was not, how the time went, and the lines of an invoice.</summary>
/// <remarks>
/// Made for people outside the operator: it holds nothing of how the loads were flown, of limits that were passed, or of who flew.
/// Made by <see cref="CustomerReporter"/>.
/// </remarks>
public sealed record CustomerReport
{
    /// <summary>Name of the job; null when none was entered.</summary>
    public string? Job { get; init; }

    /// <summary>Who the work was for; null when not entered.</summary>
    public string? Customer { get; init; }

    /// <summary>Aircraft on the job, each once.</summary>
    public IReadOnlyList<string> Aircraft { get; init; } = [];

    /// <summary>Days of work, in order, each once.</summary>
    public required IReadOnlyList<DateOnly> Days { get; init; }

    /// <summary>Last moment that the report knows of, by the sites' clock: it dates the files made from it.</summary>
    public required DateTimeOffset UpTo { get; init; }

    /// <summary>Units that people read.</summary>
    public ShownUnits Units { get; init; } = ShownUnits.M;

    /// <summary>Sites of the job.</summary>
    public IReadOnlyList<ReportSite> Sites { get; init; } = [];

    /// <summary>Loads that stand where they were left, in order of time.</summary>
    public IReadOnlyList<PlacedLoad> Placed { get; init; } = [];

    /// <summary>Loads of the list that were not placed, in its order.</summary>
    public IReadOnlyList<LoadNotPlaced> NotPlaced { get; init; } = [];

    /// <summary>Sums.</summary>
    public required ReportTotals Totals { get; init; }

    /// <summary>Every stop of a minute or more, in order of time.</summary>
    public IReadOnlyList<WorkStop> Stops { get; init; } = [];

    /// <summary>Minutes stopped by cause; every cause is there, with zero where nothing was lost.</summary>
    public IReadOnlyList<StandbyTime> Standby { get; init; } = [];

    /// <summary>Loads placed in each clock hour, from the first to the last of each day.</summary>
    public IReadOnlyList<HourCount> LoadsByHour { get; init; } = [];

    /// <summary>Invoice lines.</summary>
    public required InvoiceDraft Invoice { get; init; }

    /// <summary>What a reader must know of the figures: what is missing or counted in a way that he would not guess.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];
}

/// <summary>Sums of a report.</summary>
/// <param name="Planned">Loads on the list.</param>
/// <param name="PlacedOfPlanned">Of those, placed.</param>
/// <param name="NotOnList">Loads placed whose number is not known, or on no list.</param>
/// <param name="MassKg">Mass placed, kg, as far as masses are known.</param>
/// <param name="WithoutMass">Loads placed whose mass nobody knows: they are not in <paramref name="MassKg"/>.</param>
/// <param name="FlightTimeS">Time in the air, s.</param>
public sealed record ReportTotals(int Planned, int PlacedOfPlanned, int NotOnList, double MassKg, int WithoutMass, double FlightTimeS)
{
    /// <summary>All loads placed.</summary>
    public int Placed => PlacedOfPlanned + NotOnList;
}

/// <summary>A site on the report.</summary>
/// <param name="Name">Name the crew uses.</param>
/// <param name="Use">What for.</param>
/// <param name="At">Where.</param>
/// <param name="Placed">Loads placed there.</param>
public sealed record ReportSite(string Name, Debriefing.SiteUse Use, Place At, int Placed);

/// <summary>Loads placed in a clock hour.</summary>
/// <param name="Hour">Start of the hour by the sites' clock.</param>
/// <param name="Count">Loads.</param>
public sealed record HourCount(DateTimeOffset Hour, int Count);
