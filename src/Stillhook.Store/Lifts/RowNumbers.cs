using System.Data.Common;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Stillhook.Store;

/// <summary>Numbers of the row that a query stands at. On SQLite they are taken from the statement itself: several times as quick where there are millions.</summary>
internal readonly struct RowNumbers(DbDataReader row)
{
    private readonly sqlite3_stmt? statement = (row as SqliteDataReader)?.Handle;

    public double? Number(int column)
    {
        if (statement is null)
            return row.IsDBNull(column) ? null : row.GetDouble(column);
        double value = raw.sqlite3_column_double(statement, column);
        // Nothing reads as zero; only then is it asked which of the two it is.
        return value == 0 && raw.sqlite3_column_type(statement, column) == raw.SQLITE_NULL ? null : value;
    }

    public double Double(int column) => statement is null ? row.GetDouble(column) : raw.sqlite3_column_double(statement, column);

    public long Long(int column) => statement is null ? row.GetInt64(column) : raw.sqlite3_column_int64(statement, column);

    public int Int(int column) => statement is null ? row.GetInt32(column) : checked((int)raw.sqlite3_column_int64(statement, column));

    /// <summary>Bytes of a text, UTF-8, good until the next row; false where they can't be had and the text must be read.</summary>
    public bool TryText(int column, out ReadOnlySpan<byte> utf8)
    {
        utf8 = statement is null ? default : raw.sqlite3_column_blob(statement, column);
        return statement is not null;
    }

    public bool Bool(int column) => statement is null ? row.GetBoolean(column) : raw.sqlite3_column_int64(statement, column) != 0;
}
