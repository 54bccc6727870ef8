using System.CommandLine;
using System.Text;
using Stillhook.App.Commands;
using Stillhook.Store;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

RootCommand root = new("""
    Stillhook: for the long-line pilot. From the record of a lifting day to the numbers for the next approach.
    Planning and debriefing aid: flight manual, operations manual, local rules and the pilot decide.
    """)
{
    PlanCommand.Create(),
    ApproachCommand.Create(),
    BriefCommand.Create(),
    WhyCommand.Create(),
    DebriefCommand.Create(),
    NextCommand.Create(),
    ImportCommand.Create(),
    NoteCommand.Create(),
    CorrectCommand.Create(),
    DayCommand.Create(),
    ReportCommand.Create(),
    StoreCommands.Backup(),
    StoreCommands.Restore(),
    StoreCommands.Export(),
    SimulateCommand.Create(),
    DemoCommand.Create(),
    ServeCommand.Create(),
    AccountCommand.Create(),
    ListenCommand.Create(),
    SolveOrderCommand.Create(),
    CheckFileCommand.Create(),
    SchemaCommand.Create(),
};
ParseResult arguments = root.Parse(args);
if (arguments.Errors.Count > 0)
{
    foreach (string message in arguments.Errors.Select(e => e.Message))
        Console.Error.WriteLine($"stillhook: {message}");
    Console.Error.WriteLine("stillhook: add --help for the command's options and an example.");
    return ExitCode.BadInput;
}
try
{
    return await arguments.InvokeAsync(new() { EnableDefaultExceptionHandler = false });
}
catch (OperationCanceledException)
{
    return ExitCode.AnswerIsNo;
}
catch (Exception e) when (OutOfMemory.In(e))
{
    Console.Error.WriteLine("stillhook: " + OutOfMemory.Words);
    return ExitCode.Failed;
}
catch (StoreException e)
{
    Console.Error.WriteLine($"stillhook: {e.Message}");
    return ExitCode.BadInput;
}
catch (Exception e)
{
    Console.Error.WriteLine($"stillhook: the program failed; please report this: {e}");
    return ExitCode.Failed;
}

/// <summary>Named so that tests can host the program.</summary>
public partial class Program;
