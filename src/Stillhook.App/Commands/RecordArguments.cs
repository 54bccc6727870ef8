using System.CommandLine;
using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary>The records named on the command line, read and joined.</summary>
internal static class RecordArguments
{
    public static Argument<string[]> Create(bool atLeastOne = true) => new("RECORD")
    {
        Description = "One or more records of the same day: GPX, IGC, NMEA 0183 or CSV, plain, gzip or zip",
        Arity = atLeastOne ? ArgumentArity.OneOrMore : ArgumentArity.ZeroOrMore,
    };

    /// <summary>The debrief of the named records with the crew's figures, and the next approach; null, with the reason told, when the input can't be used.</summary>
    public static (Debrief Debrief, NextApproach Next)? Debrief(ParseResult arguments, Argument<string[]> records, SetupOptions setup)
    {
        if (Record(arguments, records, setup) is not { } given)
            return null;
        Debrief debrief = Job.Debrief(given.Record, given.Setup);
        return (debrief, Job.Next(debrief));
    }

    /// <summary>The named records as one, with the crew's figures and the job file they are from; null, with the reason told, when they can't be used.</summary>
    public static (FlightRecord Record, LiftSetup Setup, JobFile? Job)? Record(ParseResult arguments, Argument<string[]> records, SetupOptions setup) =>
        setup.Read(arguments) is { } given && Read(arguments.GetValue(records)!, given.Job) is { } record ? (record, given.Setup, given.Job) : null;

    /// <summary>Reads every record and joins the usable ones; null when none could be used. Errors are told on standard error.</summary>
    private static FlightRecord? Read(string[] paths, JobFile? job)
    {
        List<FlightRecord> usable = [];
        foreach (string path in paths)
        {
            FlightRecord record = RecordReader.ReadFile(path, progress: Progress(path));
            if (record.Count > 0)
                usable.Add(record);
            else
                FindingText.Write(path, record.Findings);
        }
        if (usable.Count == 0)
            return null;
        FlightRecord joined = Job.Record(usable);
        return job?.Request.Date is { } day ? WithDayCheck(joined, day) : joined;
    }

    private static FlightRecord WithDayCheck(FlightRecord record, DateOnly day)
    {
        double first = record.TimeS.FirstOrDefault(t => !double.IsNaN(t), double.NaN);
        string expected = day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        if (double.IsNaN(first) || UtcText.Day(first) == expected)
            return record;
        Finding otherDay = new(Severity.Warning, "other-day", null, 1, $"The record starts on {UtcText.Day(first)} (UTC), the job is for {expected}.",
            "It was read all the same; check that it is the right record.");
        return record with { Findings = [.. record.Findings, otherDay] };
    }

    /// <summary>Megabytes read on one line of the terminal; nothing when the output goes elsewhere or the file is small.</summary>
    private static IProgress<long>? Progress(string path)
    {
        const long worthTelling = 20_000_000;
        if (Console.IsErrorRedirected || !File.Exists(path) || new FileInfo(path).Length is var length && length < worthTelling)
            return null;
        return new TerminalProgress(Path.GetFileName(path), length);
    }

    private sealed class TerminalProgress(string name, long length) : IProgress<long>
    {
        private int lastPercent = -1;

        public void Report(long bytes)
        {
            int percent = (int)Math.Min(100, 100 * bytes / length);
            if (percent == lastPercent)
                return;
            lastPercent = percent;
            Console.Error.Write(percent == 100 ? "\r                                                  \r" : $"\rreading {name}: {percent} %");
        }
    }
}
