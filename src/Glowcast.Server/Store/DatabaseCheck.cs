using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>Whether a database is whole.</summary>
internal static class DatabaseCheck
{
    private const int Corrupt = 11;

    /// <summary>A quick look at all pages, at every start.</summary>
    public static bool IsWhole(SqliteConnection connection) => Passes(connection, "PRAGMA quick_check(1)");

    /// <summary>All that SQLite can check, and the schema.</summary>
    public static bool IsWholeAndOurs(SqliteConnection connection) => Passes(connection, "PRAGMA integrity_check(1)") && KnownSchema.IsIn(connection);

    private static bool Passes(SqliteConnection connection, string check)
    {
        try
        {
            return connection.Query(check, row => row.GetString(0)) is ["ok"];
        }
        catch (SqliteException damaged) when (damaged.SqliteErrorCode == Corrupt)
        {
            return false;
        }
    }
}
