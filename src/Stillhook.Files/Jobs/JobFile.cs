using System.Text;
using System.Text.RegularExpressions;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Recording;

namespace Stillhook.Files.Jobs;

/// <summary>A job file as read.</summary>
/// <param name="Request">The job; holds stand-ins where an error was found, so use it only when <see cref="IsUsable"/>.</param>
/// <param name="Findings">Everything found wrong, in the order of the file.</param>
public sealed partial record JobFile(LiftRequest Request, IReadOnlyList<Finding> Findings)
{
    private JobValue? Root { get; init; }

    /// <summary>The findings about one value each, by its path without units, such as <c>loads[3].mass</c>.</summary>
    public ILookup<string, Finding> FindingsByPath { get; private init; } = Array.Empty<Finding>().ToLookup(_ => "");

    /// <summary>Whether the file could be used at all.</summary>
    public bool IsUsable => Findings.All(f => f.Severity != Severity.Error);

    /// <summary>Line of a value by its path, such as <c>loads[3].mass</c>; that of the nearest group around it when it isn't in the file, null when there is no file.</summary>
    public long? LineOf(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return Root is null ? null : JobLines.LineOf(Root, path);
    }

    /// <summary>Reads a job file: JSON with comments and trailing commas; every key carries its unit. See docs/job-file.md.</summary>
    /// <remarks>Everything wrong is reported in one go. A key that is not understood is a finding, never ignored in silence: a mistyped key is a missing figure.</remarks>
    public static JobFile Read(Stream stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        JobFindings findings = new();
        if (JobText.Read(stream, findings) is not { } root)
            return new(new LiftRequest(), findings.InOrder());
        JobReader reader = new(findings);
        LiftRequest request = reader.Read(root);
        CheckTimeZone(request, root, findings);
        foreach (RequestFinding found in RequestCheck.Check(request).Where(f => !reader.Spoilt.Concern(f.Path)))
            findings.Add(new(found.Severity, found.Code, JobLines.LineOf(root, found.Path), 1, $"{found.Path}: {found.What}", found.Mend), found.Path);
        return new(request, findings.InOrder()) { Root = root, FindingsByPath = findings.ByPath };
    }

    /// <summary>Reads the text of a job file.</summary>
    public static JobFile Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Read(new MemoryStream(Encoding.UTF8.GetBytes(text)));
    }

    private static void CheckTimeZone(LiftRequest request, JobValue root, JobFindings findings)
    {
        if (request.TimeZone is not { Length: > 0 } zone || IsZone(zone))
            return;
        string? near = NearestWord.To(zone, [.. TimeZoneInfo.GetSystemTimeZones().Select(z => z.Id).Where(z => z[0] == char.ToUpperInvariant(zone[0]))]);
        findings.Error("job-time-zone", JobLines.LineOf(root, "timeZone"), $"timeZone: '{JobValue.Shown(zone)}' is not known.",
            near is null ? "Write its IANA name, such as \"Europe/Zurich\"." : $"Did you mean \"{near}\"?", "timeZone");
    }

    private static bool IsZone(string name) => ZoneName().IsMatch(name) && TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone) && zone.HasIanaId;

    [GeneratedRegex("^[A-Za-z0-9_+-]{1,40}(/[A-Za-z0-9_+-]{1,40}){0,2}$", RegexOptions.CultureInvariant)]
    private static partial Regex ZoneName();
}
