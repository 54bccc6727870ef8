// Changes one part of the program in small ways, one at a time, and looks whether its tests notice.
// Stillhook.Mutation PART [CHANGES [SEED]]   PART: physics, planning, approaching, debriefing or adjusting; CHANGES: how many, drawn at random (100); SEED (1) draws the same ones again.
// Needs the built tests. Ends with the score and every change that went unnoticed, kept in artifacts/mutation too.
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using Stillhook.Mutation;

// The part's own tests come first; those that use it from elsewhere are asked when these noticed nothing.
var parts = new Dictionary<string, (string Project, string Folder, string[] Own, string[] Elsewhere)>
{
    ["physics"] = ("Stillhook.Physics", "", ["Physics"], ["Planning", "Approaching", "Debriefing"]),
    ["planning"] = ("Stillhook", "Planning", ["Planning"], ["Solving", "Briefing", "Reporting", "Files.Jobs", "Files.Reports"]),
    ["approaching"] = ("Stillhook", "Approaching", ["Approaching"], ["Briefing", "Simulating", "Files.Pictures", "Files.Reports"]),
    ["debriefing"] = ("Stillhook", "Debriefing", ["Debriefing"], ["Adjusting", "Simulating", "Reporting", "Recording", "Files.Reports"]),
    ["adjusting"] = ("Stillhook", "Adjusting", ["Adjusting"], ["Files.Reports", "Reporting"]),
};
if (args.Length is < 1 or > 3 || !parts.TryGetValue(args[0], out (string Project, string Folder, string[] Own, string[] Elsewhere) part))
{
    Console.Error.WriteLine($"mutation: expected a part ({string.Join(", ", parts.Keys)}), then how many changes, then a seed.");
    return 2;
}
int wanted = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 100, seed = args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : 1;
string root = AppContext.BaseDirectory;
while (!File.Exists(Path.Combine(root, "Stillhook.slnx"))) root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("Run from inside the repository: Stillhook.slnx was not found above the program.");
string built = Path.Combine(root, "artifacts", "bin", "Stillhook.Tests", "release"), work = Path.Combine(root, "artifacts", "mutation");
string folder = Path.Combine(root, "src", part.Project, part.Folder).TrimEnd(Path.DirectorySeparatorChar);
const string TooLong = "Stillhook.Tests.Approaching.ApproachPropertyTests"; // a third of all the time; its seeds are drawn anew in every run

var copies = new ConcurrentBag<string>();
for (int i = 0; i < Environment.ProcessorCount; i++)
{
    string copy = Path.Combine(work, $"copy-{i}");
    Directory.CreateDirectory(copy);
    foreach (string file in Directory.EnumerateFiles(built, "*", SearchOption.AllDirectories))
    {
        string to = Path.Combine(copy, Path.GetRelativePath(built, file));
        Directory.CreateDirectory(Path.GetDirectoryName(to)!);
        File.Copy(file, to, overwrite: true);
    }
    copies.Add(copy);
}
var program = new ChangedProgram(root, part.Project, built);
TimeSpan limit = TimeSpan.FromMinutes(10);
var clock = Stopwatch.StartNew();
if (Try(null) != Outcome.Unnoticed)
{
    Console.Error.WriteLine($"mutation: the tests of {string.Join(", ", part.Own.Concat(part.Elsewhere))} don't pass on the program as it is.");
    return 1;
}
limit = clock.Elapsed * 6 + TimeSpan.FromSeconds(60); // generous: a busy machine must not pass for a change noticed

Change[] all = [.. program.Changes(folder)], drawn = [.. all];
new Random(seed).Shuffle(drawn);
var outcomes = new ConcurrentDictionary<Change, Outcome>();
int compiled = 0;
Parallel.ForEach(drawn, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, (change, state) =>
{
    if (Volatile.Read(ref compiled) >= wanted) { state.Stop(); return; }
    Outcome outcome = Try(change);
    if (outcome != Outcome.NotCompiled && Interlocked.Increment(ref compiled) > wanted) return;
    outcomes[change] = outcome;
    if (outcome == Outcome.Unnoticed) Console.WriteLine(Row(change));
});

compiled = Math.Min(compiled, wanted);
int Count(Outcome outcome) => outcomes.Values.Count(o => o == outcome);
double score = 100.0 * (Count(Outcome.Failed) + Count(Outcome.OutOfTime)) / compiled;
string summary = string.Create(CultureInfo.InvariantCulture, $"{args[0]}, seed {seed}: {compiled} of {all.Length} changes tried ({Count(Outcome.NotCompiled)} drawn that can't be compiled): {Count(Outcome.Failed)} failed a test, {Count(Outcome.OutOfTime)} ran out of time, {Count(Outcome.Unnoticed)} unnoticed; score {score:0.0} %, in {clock.Elapsed.TotalMinutes:0} min");
string[] page = [summary, "", "| where | is | changed |", "|---|---|---|", .. outcomes.Where(o => o.Value == Outcome.Unnoticed).Select(o => o.Key).OrderBy(c => c.File, StringComparer.Ordinal).ThenBy(c => c.Line).Select(Row)];
File.WriteAllLines(Path.Combine(work, $"{args[0]}-{seed}.md"), page);
Console.WriteLine(summary);
return 0;

Outcome Try(Change? change)
{
    if (!copies.TryTake(out string? copy)) throw new InvalidOperationException("No copy of the tests is free.");
    try
    {
        if (!program.Write(Path.Combine(copy, part.Project + ".dll"), change)) return Outcome.NotCompiled;
        Outcome own = Run(copy, part.Own);
        return own == Outcome.Unnoticed ? Run(copy, part.Elsewhere) : own;
    }
    finally { copies.Add(copy); }
}

Outcome Run(string copy, string[] tests)
{
    var start = new ProcessStartInfo("dotnet", [Path.Combine(copy, "Stillhook.Tests.dll"), "-noColor", "-stopOnFail", "-maxThreads", "1", "-class-", TooLong, .. tests.SelectMany(t => new[] { "-namespace", $"Stillhook.Tests.{t}*" })])
    {
        RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = root,
    };
    using var run = Process.Start(start)!;
    _ = run.StandardOutput.ReadToEndAsync();
    _ = run.StandardError.ReadToEndAsync();
    if (run.WaitForExit(limit)) return run.ExitCode == 0 ? Outcome.Unnoticed : Outcome.Failed;
    run.Kill(entireProcessTree: true);
    run.WaitForExit();
    return Outcome.OutOfTime;
}

string Row(Change c) => $"| {Path.GetRelativePath(folder, c.File).Replace('\\', '/')}:{c.Line} | {Cell(c.Was)} | {Cell(c.Now)} |";

static string Cell(string text)
{
    string line = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace("|", "\\|", StringComparison.Ordinal);
    return $"`{line}`";
}
