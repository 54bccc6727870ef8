using Stillhook.App.Serving;
using Stillhook.Recording;

namespace Stillhook.App.Pages;

/// <summary>What came of one file handed in.</summary>
/// <param name="Name">The file's name.</param>
/// <param name="Flight">The flight as opened; null when it was no record, or could not be used and was not kept.</param>
/// <param name="AlreadyThere">The same record was in the store before.</param>
/// <param name="Findings">Irregularities.</param>
public sealed record Upload(string Name, OpenFlight? Flight, bool AlreadyThere, IReadOnlyList<Finding> Findings)
{
    /// <summary>What came of it as a crew sheet; null of anything else.</summary>
    public CrewTaken? Crew { get; init; }
}

/// <summary>What came of a crew sheet.</summary>
/// <param name="Day">Its day; null when no job told it, and nothing was kept.</param>
/// <param name="Added">Lines kept.</param>
/// <param name="Standing">Lines that stood already.</param>
public sealed record CrewTaken(DateOnly? Day, int Added, int Standing);
