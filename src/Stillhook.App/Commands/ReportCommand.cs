using System.CommandLine;
using Stillhook.Files.Reports;
using Stillhook.Pdf;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook report JOB</c>: the customer report with its tables and maps, and the site file for next time.</summary>
internal static class ReportCommand
{
    public static Command Create()
    {
        StoreOption store = new();
        Argument<string> job = new("JOB") { Description = "Name of a job in the store, or the part of it that tells it apart" };
        Option<DirectoryInfo> folder = new("--output", "-o") { Description = "Where the files go", HelpName = "FOLDER" };
        Option<bool> json = new("--json") { Description = "Write the report for machines to standard output instead (schema: stillhook schema report)" };
        Command command = new("report", """
            The customer report: what was placed where and when, totals, waiting with its causes; HTML and PDF to read, CSV, GeoJSON and GPX for machines, lines of an invoice, and a job file to start the next job from.
            Example: stillhook report "Path repair" -o report
            Exit code: 0 written, 1 there is no such job or nothing of its day is kept, 2 the store or the folder can't be used.
            """) { job, folder, json, store.Place };
        command.Validators.Add(result =>
        {
            if (result.GetValue(folder) is null != result.GetValue(json))
                result.AddError("Say where the files go with -o FOLDER, or ask for --json: one of the two.");
        });
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            WorkStore work = store.Open(arguments);
            string name = arguments.GetValue(job)!;
            IReadOnlyList<KeptJob> jobs = work.Jobs.List();
            KeptJob[] found = [.. jobs.Where(j => j.Name.Contains(name, StringComparison.OrdinalIgnoreCase) && j.Day is not null)];
            DayWork[] days = [.. found.Select(j => work.Days.Read(new(j.Day!.Value, j.Aircraft), j.TimeZone)).Where(d => d.Lifts.Count > 0).OrderBy(d => d.Day)];
            if (days.Length == 0)
            {
                Console.Error.WriteLine(found.Length == 0 ? $"stillhook: no job '{name}' is kept. Jobs: {string.Join("; ", jobs.Select(j => j.Name))}" : $"stillhook: no lift of '{found[0].Name}' is kept. Take its record in with: stillhook import RECORD --job JOB");
                return ExitCode.AnswerIsNo;
            }
            CustomerReport report = CustomerReporter.Report(days);
            if (arguments.GetValue(json))
                PlanCommand.WriteJson(output => CustomerReportDocuments.Write(output, report));
            else
                Write(arguments.GetValue(folder)!, report, days);
            return ExitCode.Done;
        }));
        return command;
    }

    private static void Write(DirectoryInfo folder, CustomerReport report, DayWork[] days)
    {
        folder.Create();
        void File(string name, Action<Stream> write)
        {
            WholeFile.Write(Path.Combine(folder.FullName, name), write);
            Console.WriteLine(Path.Combine(folder.Name, name));
        }
        File("report.html", s => CustomerReportHtml.Write(s, report));
        File("report.pdf", s => s.Write(new PdfMaker().Make(CustomerPrint.Of(report))));
        File("placed.csv", s => PlacedCsv.Write(s, report));
        File("placed.geojson", s => PlacedGeoJson.Write(s, report));
        File("placed.gpx", s => PlacedGpx.Write(s, report));
        File("invoice.csv", s => InvoiceCsv.Write(s, report));
        if (days[^1].Job is { } job)
            File("next-job.json", s => SiteFile.Write(s, job, days.SelectMany(d => d.Lifts)));
    }
}
