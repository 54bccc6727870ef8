using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Stillhook.Store;

/// <summary>A backup that was written and checked, or checked again.</summary>
/// <param name="File">The file.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="Digest">SHA-256 of what it holds, lower-case hexadecimal.</param>
public sealed record BackupReceipt(string File, long Bytes, string Digest);

/// <summary>The whole store in one file, written while the store is in use, checked before it takes the place of an older one.</summary>
/// <remarks>
/// Of a SQLite store it holds the database itself, copied page by page by SQLite's own backup; of a PostgreSQL one everything as an archive. Either can be restored to either database.
/// </remarks>
public static class Backup
{
    private const string Format = "stillhook-backup";
    private const int Version = 1;
    private const string DatabaseName = "work.db";

    /// <summary>A backup is one's own, so its bound is only a guard against nonsense.</summary>
    private static readonly ArchiveLimits Limits = new() { MostBytes = 1L << 40 };

    /// <summary>Writes a backup. A file of that name is replaced only once the new one is whole and on the disk.</summary>
    public static BackupReceipt Write(WorkStore store, string file)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentException.ThrowIfNullOrEmpty(file);
        string full = Path.GetFullPath(file);
        return Explained(full, () => store.Guarded(() =>
        {
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            Remnants.Clear(Path.GetDirectoryName(full)!);
            using Gone waiting = new(Remnants.Beside(full));
            using (FileStream to = new(waiting.File, FileMode.CreateNew, FileAccess.ReadWrite))
            {
                if (store.Database is SqliteDatabase sqlite)
                    Pack(sqlite, full, to);
                else
                    Archive.ExportAll(store, to);
                to.Flush(flushToDisk: true);
            }
            BackupReceipt checkedOne = Check(waiting.File);
            System.IO.File.Move(waiting.File, full, overwrite: true);
            return checkedOne with { File = full };
        }));
    }

    /// <summary>Checks that a backup is whole: every digest, and the database's own check of itself when it is restored.</summary>
    /// <exception cref="StoreException">It is not; the message names the entry.</exception>
    public static BackupReceipt Check(string file) => Explained(file, () =>
    {
        using FileStream from = System.IO.File.OpenRead(file);
        using ArchiveReader reader = new(from, Limits);
        Want(reader);
        reader.CheckAll();
        string digest = reader.Manifest.Format == Format ? reader.Entry(DatabaseName).Sha256 : DigestOf(reader.Manifest);
        return new BackupReceipt(Path.GetFullPath(file), from.Length, digest);
    });

    /// <summary>Restores a backup to a new place and opens it. An existing file is never written over.</summary>
    /// <param name="file">The backup.</param>
    /// <param name="place">A file that isn't there yet, or the connection string of a PostgreSQL database; what is in that stays.</param>
    /// <param name="options">What the store needs from the program.</param>
    public static WorkStore Restore(string file, string place, StoreOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(place);
        bool postgres = PostgresDatabase.IsConnection(place);
        if (!postgres && System.IO.File.Exists(place))
            throw new StoreException(StoreFault.Failed, $"{place} is there already. Move it away or restore to another name; nothing was changed.");
        return Explained(file, () =>
        {
            using FileStream from = System.IO.File.OpenRead(file);
            using ArchiveReader reader = new(from, Limits);
            Want(reader);
            reader.CheckAll();
            string folder = postgres ? Path.GetTempPath() : Path.GetDirectoryName(Path.GetFullPath(place))!;
            Directory.CreateDirectory(folder);
            using Gone waiting = new(Remnants.Beside(Path.Combine(folder, DatabaseName)));
            if (reader.Manifest.Format == Format)
                Unpack(reader, waiting.File, options);
            else if (!postgres)
                Archive.Import(WorkStore.Open(waiting.File, options), from, Limits);
            if (!postgres)
                MoveIn(waiting.File, place);
            WorkStore store = WorkStore.Open(place, options);
            if (postgres)
                TakeOver(reader, from, waiting.File, store);
            return store;
        });
    }

    private static void Want(ArchiveReader reader) =>
        reader.Want(reader.Manifest.Format == Format ? Format : Archive.Format, reader.Manifest.Format == Format ? Version : Archive.Version);

    private static void Pack(SqliteDatabase sqlite, string beside, FileStream to)
    {
        using Gone copy = new(Remnants.Beside(beside));
        using (SqliteConnection from = Direct(sqlite.File), into = Direct(copy.File))
        {
            from.BackupDatabase(into);
            Say(into, "PRAGMA journal_mode=delete"); // one file, without the log beside it
            MustBeWhole(into, sqlite.File);
        }
        using ArchiveWriter zip = new(to, Format, Version);
        using FileStream content = System.IO.File.OpenRead(copy.File);
        zip.Copy(DatabaseName, content);
        zip.Finish();
    }

    private static void Unpack(ArchiveReader reader, string file, StoreOptions? options)
    {
        using (FileStream to = new(file, FileMode.CreateNew, FileAccess.Write))
        {
            reader.CopyTo(DatabaseName, to);
            to.Flush(flushToDisk: true);
        }
        using (SqliteConnection connection = Direct(file))
            MustBeWhole(connection, DatabaseName);
        WorkStore.Open(file, options); // refuses one of a newer program before it takes its place
    }

    private static void MoveIn(string file, string place)
    {
        using (SqliteConnection connection = Direct(file))
        {
            SqliteConnection.ClearAllPools(); // one that waits for its next use would keep the log
            Say(connection, "PRAGMA journal_mode=delete");
        }
        System.IO.File.Move(file, Path.GetFullPath(place), overwrite: false);
    }

    private static void TakeOver(ArchiveReader reader, FileStream from, string unpacked, WorkStore store)
    {
        if (reader.Manifest.Format != Format)
        {
            Archive.Import(store, from, Limits);
            return;
        }
        using FileStream archive = Remnants.Waiting(Path.GetTempPath());
        Archive.ExportAll(WorkStore.Open(unpacked), archive);
        archive.Position = 0;
        Archive.Import(store, archive, Limits);
    }

    private static SqliteConnection Direct(string file)
    {
        SqliteConnection connection = new(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false, DefaultTimeout = 10 }.ToString());
        connection.Open();
        return connection;
    }

    private static void MustBeWhole(SqliteConnection connection, string name)
    {
        if (Say(connection, "PRAGMA integrity_check") is not "ok" and var found)
            throw new StoreException(StoreFault.Damaged, $"{name} is damaged: {found}. Nothing was written.");
        if (Say(connection, "PRAGMA foreign_key_check") is { } broken)
            throw new StoreException(StoreFault.Damaged, $"{name} is damaged: a row of '{broken}' belongs to nothing. Nothing was written.");
    }

    private static string? Say(SqliteConnection connection, string pragma)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Texts of this file only.
        command.CommandText = pragma;
#pragma warning restore CA2100
        return Convert.ToString(command.ExecuteScalar(), CultureInfo.InvariantCulture) is { Length: > 0 } said ? said : null;
    }

    private static string DigestOf(ArchiveManifest manifest) =>
        Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(string.Concat(manifest.Entries.Select(e => e.Name + e.Sha256)))));

    /// <summary>Faults of the backup's own file, in words.</summary>
    private static T Explained<T>(string file, Func<T> what)
    {
        try
        {
            return what();
        }
        catch (Exception e) when (Database.ExplainFile(e, e, file) is { } explained)
        {
            throw explained;
        }
        catch (ArgumentOutOfRangeException e) when (e.ParamName == "value")
        {
            // What .NET makes of EFBIG: a stick whose files end at 4 GB, or a bound of the user's.
            throw new StoreException(StoreFault.DiskFull, $"{file} would be larger than a file may be there. Nothing of this was kept; what was there before is as it was. Choose another disk.", e);
        }
        catch (SqliteException e)
        {
            throw new StoreException(e.SqliteErrorCode == 13 ? StoreFault.DiskFull : e.SqliteErrorCode == 26 ? StoreFault.BadArchive : StoreFault.Failed, $"{file}: {e.Message} Nothing was changed.", e);
        }
    }

    /// <summary>A file that goes when it is done with, the database's log beside it too.</summary>
    private sealed class Gone(string file) : IDisposable
    {
        public string File => file;

        public void Dispose()
        {
            if (System.IO.File.Exists(file))
                SqliteConnection.ClearAllPools();
            foreach (string ending in new[] { "", "-wal", "-shm", "-journal" })
                System.IO.File.Delete(file + ending);
        }
    }
}
