using System.CommandLine;
using System.Text.Json;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook check-file JOB</c>: everything wrong or missing in a job file in one go, and what the file is good for.</summary>
internal static class CheckFileCommand
{
    public static Command Create()
    {
        Argument<FileInfo> file = new("JOB") { Description = "Job file (docs/job-file.md)" };
        Option<bool> json = new("--json") { Description = "Write the findings as JSON" };
        Command command = new("check-file", """
            Checks a job file: every mistake with its line, then what the file is good for.
            Exit code: 0 fine, 1 good for a debrief but not for a plan, 2 with errors.
            Example: stillhook check-file job.json
            """) { file, json };
        command.SetAction(arguments =>
        {
            FileInfo named = arguments.GetValue(file)!;
            JobFile job = JobFiles.Read(named);
            IReadOnlyList<RequestFinding> needs = job.IsUsable ? RequestCheck.ForPlan(job.Request) : [];
            if (arguments.GetValue(json))
                WriteJson(job, needs);
            else
                WriteText(named.Name, job, needs);
            return !job.IsUsable ? ExitCode.BadInput : needs.Count > 0 ? ExitCode.AnswerIsNo : ExitCode.Done;
        });
        return command;
    }

    private static void WriteText(string name, JobFile job, IReadOnlyList<RequestFinding> needs)
    {
        foreach (Finding finding in job.Findings)
            Console.WriteLine(FindingText.Line(name, finding));
        foreach (RequestFinding need in needs)
            Console.WriteLine(FindingText.Line(name, new(Severity.Note, need.Code, job.LineOf(need.Path), 1, need.What, need.Mend)));
        Console.WriteLine(Verdict(job, needs));
    }

    private static string Verdict(JobFile job, IReadOnlyList<RequestFinding> needs)
    {
        int errors = job.Findings.Count(f => f.Severity == Severity.Error);
        if (errors > 0)
            return $"debrief: no; plan: no, because of {Counted(errors, "error")} above.";
        return needs.Count > 0 ? $"debrief: yes; plan: no, because {Counted(needs.Count, "thing")} that it needs {(needs.Count == 1 ? "is" : "are")} missing: {Paths(needs)}." : "debrief: yes; plan: yes.";
    }

    private static string Counted(int count, string what) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");

    private static string Paths(IReadOnlyList<RequestFinding> needs)
    {
        const int named = 6;
        return string.Join(", ", needs.Take(named).Select(n => n.Path)) + (needs.Count > named ? " and more" : "");
    }

    private static void WriteJson(JobFile job, IReadOnlyList<RequestFinding> needs)
    {
        using Stream output = Console.OpenStandardOutput();
        using (Utf8JsonWriter json = new(output, new() { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("version", 1);
            json.WriteBoolean("debrief", job.IsUsable);
            json.WriteBoolean("plan", job.IsUsable && needs.Count == 0);
            json.WriteStartArray("findings");
            foreach (Finding f in job.Findings)
                Write(json, f.Severity, f.Code, f.Line, null, f.What, f.Done);
            json.WriteEndArray();
            json.WriteStartArray("planNeeds");
            foreach (RequestFinding n in needs)
                Write(json, n.Severity, n.Code, job.LineOf(n.Path), n.Path, n.What, n.Mend);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        output.Write("\n"u8);
    }

    private static void Write(Utf8JsonWriter json, Severity severity, string code, long? line, string? path, string what, string mend)
    {
        json.WriteStartObject();
        json.WriteString("severity", JsonNamingPolicy.CamelCase.ConvertName(severity.ToString()));
        json.WriteString("code", code);
        if (line is { } number)
            json.WriteNumber("line", number);
        else
            json.WriteNull("line");
        if (path is not null)
            json.WriteString("path", path);
        json.WriteString("what", what);
        json.WriteString("mend", mend);
        json.WriteEndObject();
    }
}
