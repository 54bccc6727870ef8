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

    /// <summary>A record that is kept already and belongs to somebody else: nothing of it is told.</summary>
    public static Upload SomebodyElses(string name) => new(name, null, true, []);

    /// <summary>A name to show, from that of a file handed in: without folders and without characters that can't be kept. It never becomes a path.</summary>
    public static string NameOf(string fileName, string otherwise)
    {
        string last = fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];
        string name = string.Concat(last.EnumerateRunes().Where(r => r != System.Text.Rune.ReplacementChar && !System.Text.Rune.IsControl(r)).Take(Longest)).Trim();
        return name is "" or "." or ".." ? otherwise : name;
    }

    private const int Longest = 200;
}

/// <summary>What came of a crew sheet.</summary>
/// <param name="Day">Its day; null when no job told it, and nothing was kept.</param>
/// <param name="Added">Lines kept.</param>
/// <param name="Standing">Lines that stood already.</param>
public sealed record CrewTaken(DateOnly? Day, int Added, int Standing);
