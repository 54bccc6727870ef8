using System.CommandLine;
using Stillhook.Files.Jobs;
using Stillhook.Files.Reports;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook schema job</c> and <c>schema plan</c>: the published JSON Schemas, for editors and other programs.</summary>
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
        Command plan = new("plan", """
            Prints the JSON Schema (draft 2020-12) of what 'plan --json' writes.
            Example: stillhook schema plan > lift-plan.schema.json
            """);
        plan.SetAction(_ =>
        {
            Console.WriteLine(LiftPlanDocuments.Schema());
            return ExitCode.Done;
        });
        Command approach = new("approach", """
            Prints the JSON Schema (draft 2020-12) of what 'approach --json' writes.
            Example: stillhook schema approach > approach.schema.json
            """);
        approach.SetAction(_ =>
        {
            Console.WriteLine(ApproachDocuments.Schema());
            return ExitCode.Done;
        });
        return new("schema", "Prints a published schema: of the job file, of the lift plan, or of an approach. Example: stillhook schema job") { job, plan, approach };
    }
}
