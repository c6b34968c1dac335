using System.Text.Json;
using Microsoft.Data.Sqlite;
using NodaTime.Text;

namespace Glowcast.Server.Store;

/// <summary>Reads all rows that can be read: one that cannot takes none of the others with it.</summary>
internal static class Rows
{
    private const int Corrupt = 11;

    // What ids and names begin with, one range each: of a table with a damaged page the others stay readable.
    private static readonly string[] Bounds = ["", .. "0123456789abcdefghijklmnopqrstuvwxyz".Select(letter => $"{letter}"), "{"];

    /// <param name="select">Up to its WHERE, which is missing.</param>
    /// <param name="where">A condition; empty for none.</param>
    /// <param name="order">Columns with their directions.</param>
    /// <param name="key">The last column of the primary key.</param>
    public static List<T> Readable<T>(
        this SqliteConnection connection, string select, string where, string order, string key, Func<SqliteDataReader, T> read, params (string Name, object? Value)[] values)
    {
        var condition = where.Length > 0 ? $"WHERE {where} " : "";
        if (Collect($"{select} {condition}ORDER BY {order}", values, []) is { } all) return all;
        var found = new Dictionary<string, T>(StringComparer.Ordinal);
        foreach (var (from, to) in Bounds.Zip([.. Bounds.Skip(1), "\U0010FFFF"]))
            foreach (var direction in (string[])["ASC", "DESC"])
                _ = Collect(
                    $"{select} WHERE {(where.Length > 0 ? $"({where}) AND " : "")}CAST({key} AS TEXT) >= $from AND CAST({key} AS TEXT) < $to ORDER BY {key} {direction}",
                    [.. values, ("$from", from), ("$to", to)], found);
        return [.. found.Values];

        // Null where the table could not be read to its end.
        List<T>? Collect(string sql, (string Name, object? Value)[] with, Dictionary<string, T> into)
        {
            var rows = new List<T>();
            try
            {
                _ = connection.Query(
                    sql,
                    row =>
                    {
                        if (!TryRead(row, read, out var value)) return 0;
                        rows.Add(value);
                        into[KeyOf(row)] = value;
                        return 0;
                    },
                    with);
                return rows;
            }
            catch (SqliteException damaged) when (damaged.SqliteErrorCode == Corrupt)
            {
                return null;
            }
        }
    }

    /// <summary>Whether an exception says that what stands in a row cannot be what was written.</summary>
    public static bool IsUnreadable(Exception exception) =>
        exception is FormatException or InvalidCastException or InvalidOperationException or JsonException or UnparsableValueException or ArgumentException or OverflowException;

    private static bool TryRead<T>(SqliteDataReader row, Func<SqliteDataReader, T> read, out T value)
    {
        try
        {
            value = read(row);
            return true;
        }
        catch (Exception unreadable) when (IsUnreadable(unreadable))
        {
            value = default!;
            return false;
        }
    }

    // The first two columns tell rows apart in every table.
    private static string KeyOf(SqliteDataReader row) => $"{row.GetValue(0)}\0{row.GetValue(1)}";
}
