using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>Counts what happens and lets the n-th fail, once.</summary>
internal sealed class FaultPoint(int at)
{
    private int met;

    /// <summary>Whether the n-th was met.</summary>
    public bool Hit => met >= at;

    public void Pass(Func<Exception> fault)
    {
        if (IsNow())
            throw fault();
    }

    /// <summary>Counts one; whether it is the n-th.</summary>
    public bool IsNow() => Interlocked.Increment(ref met) == at;
}

/// <summary>Something happens at the n-th command of the database.</summary>
internal abstract class AtCommand : DbCommandInterceptor
{
    protected abstract void Pass(DbCommand command);

    public override InterceptionResult<DbDataReader> ReaderExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        Pass(command);
        return result;
    }

    public override InterceptionResult<int> NonQueryExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<int> result)
    {
        Pass(command);
        return result;
    }

    public override InterceptionResult<object> ScalarExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<object> result)
    {
        Pass(command);
        return result;
    }
}

/// <summary>The n-th command of the database fails; as from a broken disk where nothing else is said: SQLite's own code 10, SQLITE_IOERR.</summary>
internal sealed class FailingCommands(FaultPoint point, Func<Exception>? fault = null) : AtCommand
{
    public static SqliteException Broken() => new("disk I/O error", 10);

    protected override void Pass(DbCommand command) => point.Pass(fault ?? Broken);
}

/// <summary>A server ends the connection before its n-th command.</summary>
internal sealed class KilledConnections(FaultPoint point, Action<DbConnection> kill) : AtCommand
{
    protected override void Pass(DbCommand command)
    {
        if (point.IsNow())
            kill(command.Connection!);
    }
}

/// <summary>The n-th commit fails.</summary>
internal sealed class FailingCommits(FaultPoint point, Func<DbConnection, Exception?>? fault = null) : DbTransactionInterceptor
{
    public override InterceptionResult TransactionCommitting(DbTransaction transaction, TransactionEventData eventData, InterceptionResult result)
    {
        if (point.IsNow() && (fault is null ? FailingCommands.Broken() : fault(transaction.Connection!)) is { } broken)
            throw broken;
        return result;
    }
}

/// <summary>A stream whose n-th read, write or flush fails.</summary>
internal sealed class FailingStream(FaultPoint point, byte[]? content = null) : MemoryStream(content ?? [])
{
    private readonly MemoryStream written = new();

    public override bool CanWrite => true;

    public override int Read(byte[] buffer, int offset, int count)
    {
        point.Pass(Broken);
        return base.Read(buffer, offset, count);
    }

    public override void Write(byte[] buffer, int offset, int count)
    {
        point.Pass(Broken);
        written.Write(buffer, offset, count);
    }

    public override void Flush() => point.Pass(Broken);

    private static IOException Broken() => new("The device is gone");
}
