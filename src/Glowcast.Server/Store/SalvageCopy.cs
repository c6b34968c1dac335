using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>A damaged database, copied so that looking at it changes nothing.</summary>
internal sealed class SalvageCopy : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("glowcast-salvage-").FullName;
    private readonly SqliteConnection connection;

    public SalvageCopy(string database)
    {
        var copy = Path.Combine(folder, DataFolder.DatabaseName);
        foreach (var ending in (string[])["", "-wal"])
            if (OwnFiles.IsPlain(database + ending)) File.Copy(database + ending, copy + ending);
        connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = copy, Pooling = false }.ToString());
    }

    /// <summary>What can be read of a table.</summary>
    public List<object[]> Rows(string table, string columns, string key)
    {
        try
        {
            connection.Open();
            return connection.Readable($"SELECT {columns} FROM {table}", "", key, key, row =>
            {
                var values = new object[row.FieldCount];
                row.GetValues(values);
                return values;
            });
        }
        catch (SqliteException)
        {
            // Not even where the table lies can be read.
            return [];
        }
    }

    public void Dispose()
    {
        connection.Dispose();
        // Made here, for this user alone.
        Directory.Delete(folder, recursive: true);
    }
}
