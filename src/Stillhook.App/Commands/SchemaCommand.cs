using System.CommandLine;
using Stillhook.Files.Jobs;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook schema job</c>: the JSON Schema of the job file, for editors and other programs.</summary>
internal static class SchemaCommand
{
    public static Command Create()
    {
        Option<bool> table = new("--table") { Description = "Print the keys as a table for people instead" };
        Command job = new("job", """
            Prints the JSON Schema (draft 2020-12) of the job file.
            Example: stillhook schema job > job-file.schema.json
            """) { table };
        job.SetAction(arguments =>
        {
            Console.Write(arguments.GetValue(table) ? JobKeyTable.Text() : JobSchema.Text());
            return ExitCode.Done;
        });
        return new("schema", "Prints the published schema of a file. Example: stillhook schema job") { job };
    }
}
