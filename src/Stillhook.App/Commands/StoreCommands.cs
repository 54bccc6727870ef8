using System.CommandLine;
using System.Globalization;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook backup</c>, <c>restore</c> and <c>export</c>: the store as one file.</summary>
internal static class StoreCommands
{
    public static Command Backup()
    {
        StoreOption store = new();
        Argument<FileInfo> file = new("FILE") { Description = "Where the backup goes" };
        Command command = new("backup", """
            Writes everything that is kept into one file and checks it. It can go on being written to meanwhile.
            Example: stillhook backup stick/2026-11-26.db
            """) { file, store.Place };
        command.SetAction(arguments => StoreOption.Guarded(() => Told(Stillhook.Store.Backup.Write(store.Open(arguments), arguments.GetValue(file)!.FullName))));
        return command;
    }

    public static Command Restore()
    {
        StoreOption store = new();
        Argument<FileInfo> file = new("FILE") { Description = "A backup" };
        Command command = new("restore", """
            Makes a store from a backup, after checking it. A store that holds something is not written over.
            Example: stillhook restore stick/2026-11-26.db --store new.db
            """) { file, store.Place };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            string from = arguments.GetValue(file)!.FullName;
            Stillhook.Store.Backup.Restore(from, arguments.GetValue(store.Place)!, StoreOption.Options);
            return Told(Stillhook.Store.Backup.Check(from));
        }));
        return command;
    }

    public static Command Export()
    {
        StoreOption store = new();
        Argument<string> job = new("JOB") { Description = "Name of a job in the store" };
        Option<FileInfo> output = new("--output", "-o") { Description = "The archive: a zip with JSON and the records as they came", HelpName = "FILE", Required = true };
        Command command = new("export", """
            Writes a job with its flights, corrections and cards into one open archive, which import reads.
            Example: stillhook export "Path repair" -o path-repair.zip
            Exit code: 0 written, 1 there is no such job, 2 the store or the file can't be used.
            """) { job, output, store.Place };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            WorkStore work = store.Open(arguments);
            string name = arguments.GetValue(job)!;
            IReadOnlyList<KeptJob> jobs = work.Jobs.List();
            if (jobs.FirstOrDefault(j => j.Name.Contains(name, StringComparison.OrdinalIgnoreCase)) is not { } found)
            {
                Console.Error.WriteLine($"stillhook: no job '{name}' is kept. Jobs: {string.Join("; ", jobs.Select(j => j.Name))}");
                return ExitCode.AnswerIsNo;
            }
            WholeFile.Write(arguments.GetValue(output)!.FullName, to => Archive.Export(work, found.Key, to));
            Console.WriteLine($"{found.Name}: written to {arguments.GetValue(output)!.Name}.");
            return ExitCode.Done;
        }));
        return command;
    }

    private static int Told(BackupReceipt receipt)
    {
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{receipt.File}: {receipt.Bytes} bytes, checked, SHA-256 {receipt.Digest}"));
        return ExitCode.Done;
    }
}
