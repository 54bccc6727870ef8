using System.Diagnostics;
using System.Globalization;
using Npgsql;
using Stillhook.Store;

[assembly: AssemblyFixture(typeof(Stillhook.Tests.Store.PostgresServer))]

namespace Stillhook.Tests.Store;

/// <summary>A PostgreSQL of the tests' own, from the binaries that Debian's package 'postgresql' puts down: started when first asked for, in a folder of its own, on a free port, gone afterwards.</summary>
public sealed class PostgresServer : IDisposable
{
    private readonly Lock guard = new();
    private string? folder, template, because;
    private int port, databases;

    /// <summary>Connection string of a fresh database with the tables in it. Skips the test where there is no PostgreSQL.</summary>
    internal string FreshStore()
    {
        lock (guard)
        {
            Start();
            if (template is null)
            {
                string first = FreshDatabase();
                WorkStore.Open(first);
                NpgsqlConnection.ClearAllPools();
                template = new NpgsqlConnectionStringBuilder(first).Database;
            }
            return FreshDatabase($" TEMPLATE {template}");
        }
    }

    /// <summary>Connection string of a fresh, empty database.</summary>
    internal string FreshDatabase(string how = "")
    {
        lock (guard)
        {
            Start();
            string name = string.Create(CultureInfo.InvariantCulture, $"store{++databases}");
            using NpgsqlConnection connection = new(Connection("postgres"));
            connection.Open();
            using NpgsqlCommand create = connection.CreateCommand();
#pragma warning disable CA2100 // The name is made two lines above.
            create.CommandText = $"CREATE DATABASE {name}{how}";
#pragma warning restore CA2100
            create.ExecuteNonQuery();
            return Connection(name);
        }
    }

    public void Dispose()
    {
        if (folder is null)
            return;
        NpgsqlConnection.ClearAllPools();
        if (port != 0)
            Run("pg_ctl", "-D", Path.Combine(folder, "data"), "-s", "-m", "immediate", "-w", "stop");
        Directory.Delete(folder, recursive: true);
    }

    private string Connection(string database) => string.Create(CultureInfo.InvariantCulture, $"Host=127.0.0.1;Port={port};Username=stillhook;Database={database};Maximum Pool Size=8");

    private void Start()
    {
        if (because is not null)
            Assert.Skip(because);
        if (port != 0)
            return;
        if (Binaries is null)
            Assert.Skip(because = "No PostgreSQL was found: install the package 'postgresql'.");
        folder = Directory.CreateTempSubdirectory("stillhook-postgres").FullName;
        if (IsRoot) // initdb refuses root; the package makes a user for this
            Process.Start("chown", ["postgres", folder])!.WaitForExit();
        string data = Path.Combine(folder, "data");
        Must(Run("initdb", "-D", data, "-A", "trust", "-U", "stillhook", "-E", "UTF8", "--locale=C", "-N"));
        int free = FreePort.Tcp();
        Must(Run("pg_ctl", "-D", data, "-s", "-w", "-l", Path.Combine(folder, "log"), "-o", string.Create(CultureInfo.InvariantCulture, $"-p {free} -k {folder} -c listen_addresses=127.0.0.1 -c fsync=off -c shared_buffers=16MB -c max_connections=300"), "start"));
        port = free;
    }

    private static string? Binaries { get; } = Directory.Exists("/usr/lib/postgresql")
        ? Directory.EnumerateDirectories("/usr/lib/postgresql").Select(v => Path.Combine(v, "bin")).LastOrDefault(b => File.Exists(Path.Combine(b, "initdb")))
        : null;

    private static bool IsRoot => Environment.UserName == "root";

    private static void Must((int Code, string Said) run)
    {
        if (run.Code != 0)
            throw new InvalidOperationException($"PostgreSQL could not be started: {run.Said}");
    }

    private static (int Code, string Said) Run(string program, params string[] arguments)
    {
        string path = Path.Combine(Binaries!, program);
        ProcessStartInfo start = new(IsRoot ? "runuser" : path) { RedirectStandardError = true, WorkingDirectory = Path.GetTempPath() };
        foreach (string argument in IsRoot ? ["-u", "postgres", "--", path, .. arguments] : arguments)
            start.ArgumentList.Add(argument);
        start.RedirectStandardOutput = program == "initdb"; // the server would keep the other end of pg_ctl's output open
        start.RedirectStandardError = start.RedirectStandardOutput;
        using Process process = Process.Start(start)!;
        string said = start.RedirectStandardError ? process.StandardOutput.ReadToEnd() + process.StandardError.ReadToEnd() : "";
        process.WaitForExit();
        return (process.ExitCode, said);
    }
}
