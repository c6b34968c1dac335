using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>Statements with their values kept apart from their text.</summary>
internal static class Sql
{
    /// <returns>How many rows it changed.</returns>
    public static int Execute(this SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        using var command = connection.Command(sql, values);
        return command.ExecuteNonQuery();
    }

    public static List<T> Query<T>(
        this SqliteConnection connection, string sql, Func<SqliteDataReader, T> read, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        using var command = connection.Command(sql, values);
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read()) rows.Add(read(reader));
        return rows;
    }

    /// <summary>The first value of the first row; the default where there is none.</summary>
    public static T? Scalar<T>(this SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> values) =>
        connection.Query(sql, row => row.IsDBNull(0) ? default : row.GetFieldValue<T>(0), values).FirstOrDefault();

    private static SqliteCommand Command(this SqliteConnection connection, string sql, ReadOnlySpan<(string Name, object? Value)> values)
    {
        var command = connection.CreateCommand();
#pragma warning disable CA2100 // Every text is a constant of this program.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach (var (name, value) in values) command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        return command;
    }
}
