using Stillhook.App.Serving;
using Stillhook.Recording;

namespace Stillhook.App.Pages;

/// <summary>What came of one record handed in.</summary>
/// <param name="Name">The file's name.</param>
/// <param name="Flight">The flight as opened; null when the record could not be used and was not kept.</param>
/// <param name="AlreadyThere">The same record was in the store before.</param>
/// <param name="Findings">Irregularities.</param>
public sealed record Upload(string Name, OpenFlight? Flight, bool AlreadyThere, IReadOnlyList<Finding> Findings);
