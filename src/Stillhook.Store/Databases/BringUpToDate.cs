using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;

namespace Stillhook.Store;

/// <summary>Brings the tables up to date in one transaction, so that a kill leaves the store as it was before or as it is after.</summary>
/// <remarks>
/// The library's own way keeps a row as its lock on SQLite, and a program killed at that moment leaves the lock behind for ever. Here the lock is the
/// writing transaction itself: it goes with the process.
/// </remarks>
internal static class BringUpToDate
{
    public static void Run(Database database)
    {
        using StillhookContext context = database.Context();
        if (Pending(database, context).Count == 0)
            return;
        using IDbContextTransaction transaction = database.BeginWriting(context);
        // Another program may have done it while this one waited.
        if (Pending(database, context).Count > 0)
            Apply(database, context, transaction.GetDbTransaction());
        transaction.Commit();
    }

    private static List<string> Pending(Database database, StillhookContext context)
    {
        List<string> known = [.. context.Database.GetMigrations()];
        List<string> applied = [.. Applied(database, context)];
        if (applied.Find(a => !known.Contains(a)) is { } unknown)
            throw new StoreException(StoreFault.NewerProgram, $"The store was written by a newer version of this program (it knows '{unknown}'). Install that version or a later one; nothing was changed.");
        if (applied.Count == 0 && database.HoldsSomethingElse(context))
            throw new StoreException(StoreFault.NotAStore, "The file or database holds tables of another program. Choose another place; nothing was changed.");
        return [.. known.Except(applied)];
    }

    /// <summary>What the history says. Asked by ourselves: the library finds out that there is no history by an error, and that would end the transaction on PostgreSQL.</summary>
    private static List<string> Applied(Database database, StillhookContext context)
    {
        context.Database.OpenConnection();
        using DbCommand command = context.Database.GetDbConnection().CreateCommand();
        command.Transaction = context.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = database.CountHistories;
        if (Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture) == 0)
            return [];
        command.CommandText = "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\" ORDER BY \"MigrationId\"";
        using DbDataReader row = command.ExecuteReader();
        List<string> applied = [];
        while (row.Read())
            applied.Add(row.GetString(0));
        return applied;
    }

    private static void Apply(Database database, StillhookContext context, DbTransaction transaction)
    {
        string? from = Applied(database, context).LastOrDefault();
        using DbCommand command = context.Database.GetDbConnection().CreateCommand();
        command.Transaction = transaction;
        command.CommandText = context.GetService<IMigrator>().GenerateScript(from, null, MigrationsSqlGenerationOptions.NoTransactions);
        command.ExecuteNonQuery();
    }
}
