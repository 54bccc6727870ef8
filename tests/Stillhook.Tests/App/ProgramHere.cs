using System.CommandLine;
using System.Globalization;
using Stillhook.App.Commands;

namespace Stillhook.Tests.App;

/// <summary>Commands run in the tests' own process, which saves the start of the program; for tests that nothing runs beside, since the console is one.</summary>
internal static class ProgramHere
{
    public static StartedProgram.Result Run(params string[] arguments)
    {
        (TextWriter output, TextWriter errors) = (Console.Out, Console.Error);
        using StringWriter said = new(CultureInfo.InvariantCulture), complained = new(CultureInfo.InvariantCulture);
        Console.SetOut(said);
        Console.SetError(complained);
        try
        {
            RootCommand root = new() { NextCommand.Create(), NoteCommand.Create(), CorrectCommand.Create(), DayCommand.Create() };
            ParseResult parsed = root.Parse(arguments);
            foreach (string message in parsed.Errors.Select(e => e.Message))
                complained.WriteLine(message);
            int exit = parsed.Errors.Count > 0 ? ExitCode.BadInput : parsed.Invoke();
            return new(exit, said.ToString(), complained.ToString());
        }
        finally
        {
            Console.SetOut(output);
            Console.SetError(errors);
        }
    }
}
