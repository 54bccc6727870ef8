using System.CommandLine;
using Stillhook.Planning.Ordering;
using Stillhook.Solving;

namespace Stillhook.App.Commands;

/// <summary>The order solver in a process of its own: this program starts itself with a hidden command, so that a fault in the solver's native code can't take it down.</summary>
internal static class SolveOrderCommand
{
    private const string Name = "solve-order";

    /// <summary>The solver that runs as a child of this program.</summary>
    public static IOrderSolver Child()
    {
        string program = Environment.ProcessPath!;
        string assembly = typeof(SolveOrderCommand).Assembly.Location;
        // Started as 'dotnet Stillhook.App.dll' the process is the host, which wants the assembly's name first.
        bool hosted = Path.GetFileNameWithoutExtension(program).Equals("dotnet", StringComparison.OrdinalIgnoreCase);
        return new OrderSolverProcess(program, hosted ? [assembly, Name] : [Name]);
    }

    public static Command Create()
    {
        Command command = new(Name, "Solves one order from standard input to standard output; used by the program itself.") { Hidden = true };
        command.SetAction(_ =>
        {
            using Stream input = Console.OpenStandardInput(), output = Console.OpenStandardOutput();
            SolverChild.Run(input, output);
            return ExitCode.Done;
        });
        return command;
    }
}
