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
        if (Interlocked.Increment(ref met) == at)
            throw fault();
    }
}

/// <summary>The n-th command of the database fails as from a broken disk: SQLite's own code 10, SQLITE_IOERR.</summary>
internal sealed class FailingCommands(FaultPoint point) : DbCommandInterceptor
{
    public override InterceptionResult<DbDataReader> ReaderExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        point.Pass(Broken);
        return result;
    }

    public override InterceptionResult<int> NonQueryExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<int> result)
    {
        point.Pass(Broken);
        return result;
    }

    public override InterceptionResult<object> ScalarExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<object> result)
    {
        point.Pass(Broken);
        return result;
    }

    public static SqliteException Broken() => new("disk I/O error", 10);
}

/// <summary>The n-th commit fails.</summary>
internal sealed class FailingCommits(FaultPoint point) : DbTransactionInterceptor
{
    public override InterceptionResult TransactionCommitting(DbTransaction transaction, TransactionEventData eventData, InterceptionResult result)
    {
        point.Pass(FailingCommands.Broken);
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
