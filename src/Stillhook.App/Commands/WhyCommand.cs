using System.CommandLine;
using Stillhook.App.Serving;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook why JOB [FIGURE]</c>: the working of a figure of the lift plan or of an approach, down to the typed values.</summary>
internal static class WhyCommand
{
    private const string OfApproach = "approach";

    public static Command Create()
    {
        Argument<FileInfo> job = JobArgument.Create();
        Argument<string?> key = new("FIGURE") { Description = "Which figure, such as payload.7 or approach.power-in, or the beginning of its name; all are listed when left out", Arity = ArgumentArity.ZeroOrOne };
        ApproachChoice choice = new();
        Option<string?> units = PlanCommand.UnitsOption();
        Option<string?> store = StoreOption.Measured();
        Command command = new("why", """
            The working of any figure of the plan or of an approach: formula, inputs, and where each came from.
            Example: stillhook why examples/path-repair.json payload.7
            Example: stillhook why examples/path-repair.json approach.power-in --load 4
            Exit code: 0 shown, 1 there is no such figure, 2 the job file can't be planned.
            """) { job, key, units, store };
        foreach (Option option in choice.All)
            command.Add(option);
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            FileInfo file = arguments.GetValue(job)!;
            if (JobArgument.Read(file) is not { } jobFile || choice.Read(arguments, file, jobFile) is not { } options)
                return ExitCode.BadInput;
            string? asked = arguments.GetValue(key);
            PlanOptions planning = JobArgument.PlanOptions(jobFile);
            if (StoreOption.Existing(arguments.GetValue(store)) is { } flights)
                planning = planning with { Measured = MeasuredWork.For(flights, jobFile.Request) };
            if (Figures(file, jobFile, planning, options, asked) is not { } figures)
                return ExitCode.BadInput;
            WhyText text = new(Console.Out, figures, PlanCommand.Units(arguments.GetValue(units), jobFile), file.Name, jobFile.LineOf);
            return Show(figures, text, asked);
        }));
        return command;
    }

    /// <summary>The figures of the lift plan, of the approach, or of both when none is asked for; null, with the findings told, when they can't be worked out.</summary>
    private static FigureBook? Figures(FileInfo file, JobFile job, PlanOptions planning, ApproachOptions options, string? key)
    {
        bool ofApproach = key?.StartsWith(OfApproach, StringComparison.OrdinalIgnoreCase) ?? false;
        FigureBook figures = new();
        if (!ofApproach)
        {
            LiftPlan plan = Job.Plan(job.Request, planning);
            if (!plan.IsPlanned)
            {
                JobArgument.WriteFindings(file, job, plan);
                return null;
            }
            foreach (Figure figure in plan.Figures.All)
                figures.Add(figure);
        }
        if (key is not null && !ofApproach)
            return figures;
        ApproachPlan approach = ApproachCommand.Planned(job.Request, options);
        if (approach.Situation is null)
        {
            ApproachCommand.WriteFindings(file, job, approach);
            return ofApproach ? null : figures;
        }
        foreach (Figure figure in approach.Figures.All)
            figures.Add(figure);
        return figures;
    }

    private static int Show(FigureBook figures, WhyText text, string? key)
    {
        if (key is null)
        {
            text.WriteKeys();
            return ExitCode.Done;
        }
        Figure[] found = figures.Find(key) is { } exact ? [exact] : [.. figures.All.Where(f => f.Key.StartsWith(key, StringComparison.OrdinalIgnoreCase))];
        if (found.Length == 0)
        {
            Console.Error.WriteLine($"stillhook: there is no figure '{key}' in this plan. {(NearestWord.To(key, [.. figures.All.Select(f => f.Key).Where(k => Math.Abs(k.Length - key.Length) <= 2)]) is { } near ? $"Did you mean '{near}'? " : "")}All: stillhook why JOB");
            return ExitCode.AnswerIsNo;
        }
        foreach (Figure figure in found)
            text.Write(figure);
        return ExitCode.Done;
    }
}
