using System.CommandLine;
using Stillhook.Files.Cards;
using Stillhook.Files.Jobs;
using Stillhook.Files.Reports;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook schema job</c>, <c>plan</c>, <c>approach</c>, <c>day</c> and <c>report</c>: the published JSON Schemas, for editors and other programs.</summary>
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
        Command day = Printed("day", """
            Prints the JSON Schema (draft 2020-12) of what 'day --json' writes.
            Example: stillhook schema day > day-sheet.schema.json
            """, DaySheetDocuments.Schema);
        Command report = Printed("report", """
            Prints the JSON Schema (draft 2020-12) of what 'report --json' writes.
            Example: stillhook schema report > customer-report.schema.json
            """, CustomerReportDocuments.Schema);
        Command brief = Printed("brief", """
            Prints the JSON Schema (draft 2020-12) of brief.json and of what 'brief --json' writes.
            Example: stillhook schema brief > brief.schema.json
            """, BriefDocuments.Schema);
        return new("schema", "Prints a published schema: of the job file, of the lift plan, of an approach, of a brief, of the day sheet, or of the customer report. Example: stillhook schema job") { job, plan, approach, brief, day, report };
    }

    private static Command Printed(string name, string description, Func<string> schema)
    {
        Command command = new(name, description);
        command.SetAction(_ =>
        {
            Console.WriteLine(schema());
            return ExitCode.Done;
        });
        return command;
    }
}
