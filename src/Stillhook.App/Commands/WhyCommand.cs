using System.CommandLine;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook why JOB [FIGURE]</c>: the working of a figure of the lift plan, down to the typed values.</summary>
internal static class WhyCommand
{
    public static Command Create()
    {
        Argument<FileInfo> job = JobArgument.Create();
        Argument<string?> key = new("FIGURE") { Description = "Which figure, such as payload.7, or the beginning of its name; all are listed when left out", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> units = PlanCommand.UnitsOption();
        Command command = new("why", """
            The working of any figure of the plan: formula, inputs, and where each came from.
            Example: stillhook why examples/path-repair.json payload.7
            Exit code: 0 shown, 1 there is no such figure, 2 the job file can't be planned.
            """) { job, key, units };
        command.SetAction(arguments =>
        {
            FileInfo file = arguments.GetValue(job)!;
            if (JobArgument.Read(file) is not { } jobFile)
                return ExitCode.BadInput;
            LiftPlan plan = Job.Plan(jobFile.Request, JobArgument.PlanOptions(jobFile));
            if (!plan.IsPlanned)
            {
                JobArgument.WriteFindings(file, jobFile, plan);
                return ExitCode.BadInput;
            }
            WhyText text = new(Console.Out, plan, PlanCommand.Units(arguments.GetValue(units), jobFile), file.Name, jobFile.LineOf);
            return Show(plan, text, arguments.GetValue(key));
        });
        return command;
    }

    private static int Show(LiftPlan plan, WhyText text, string? key)
    {
        if (key is null)
        {
            text.WriteKeys();
            return ExitCode.Done;
        }
        Figure[] found = plan.Figures.Find(key) is { } exact ? [exact] : [.. plan.Figures.All.Where(f => f.Key.StartsWith(key, StringComparison.OrdinalIgnoreCase))];
        if (found.Length == 0)
        {
            Console.Error.WriteLine($"stillhook: there is no figure '{key}' in this plan. {(NearestWord.To(key, [.. plan.Figures.All.Select(f => f.Key).Where(k => Math.Abs(k.Length - key.Length) <= 2)]) is { } near ? $"Did you mean '{near}'? " : "")}All: stillhook why JOB");
            return ExitCode.AnswerIsNo;
        }
        foreach (Figure figure in found)
            text.Write(figure);
        return ExitCode.Done;
    }
}
