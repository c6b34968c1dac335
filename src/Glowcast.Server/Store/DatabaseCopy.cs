using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>A copy of a database without what can be worked out again. On Unix it has lost its name before anything is copied, so that nobody else reads it and a kill
/// leaves an empty file at most.</summary>
internal sealed class DatabaseCopy : IDisposable
{
    private const string Cached = "cached";

    private readonly string path = Path.Combine(Path.GetTempPath(), $"glowcast-copy-{Guid.NewGuid():N}.db");
    private readonly SqliteConnection copy;

    /// <exception cref="BadInputException">The database is damaged, or none of this service.</exception>
    public DatabaseCopy(string database)
    {
        LoadLibrary();
        Content = OwnFiles.Create(path, share: FileShare.ReadWrite | FileShare.Delete);
        copy = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = Address(path), Pooling = false }.ToString());
        try
        {
            copy.Open();
            copy.Execute("PRAGMA journal_mode = OFF");
            copy.Execute("CREATE TABLE opened (once); DROP TABLE opened");
            if (!OperatingSystem.IsWindows()) File.Delete(path);
            copy.Execute("ATTACH $database AS source", ("$database", Source(database)));
            CopyAll();
        }
        catch (SqliteException damaged)
        {
            Dispose();
            throw new BadInputException("data", $"Its {DataFolder.DatabaseName} is damaged (SQLite error {damaged.SqliteExtendedErrorCode}), so no backup of it would be whole; save what can be read with data salvage, or restore an earlier backup.");
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>The copy's bytes.</summary>
    public FileStream Content { get; }

    public List<(string Id, string Name)> Grids() => copy.Query("SELECT id, file_name FROM grid", row => (row.GetString(0), row.GetString(1)));

    public void ForgetGrid(string id) => copy.Execute("DELETE FROM grid WHERE id = $id", ("$id", id));

    /// <summary>Whether the database itself still speaks of a grid, or it was deleted meanwhile.</summary>
    public bool IsStillKept(string id) => copy.Scalar<long>("SELECT count(*) FROM source.grid WHERE id = $id", ("$id", id)) > 0;

    public void Dispose()
    {
        copy.Dispose();
        Content.Dispose();
        File.Delete(path);
    }

    // SQLite writes beside a database even to read it, unless it is told that nobody can change it.
    private static string Source(string database)
    {
        if (!OnDisk.IsReadOnly(database)) return database;
        if (new FileInfo(database + "-wal") is { Exists: true, Length: > 0 })
            throw new BadInputException("data", $"Lies on a disk that can only be read, and what was written last is not in its {DataFolder.DatabaseName} yet; copy the folder to another disk and name the copy.");
        return Address(database) + "?immutable=1";
    }

    // Only a database that is named so may attach another that is.
    private static string Address(string path) => $"file:{Uri.EscapeDataString(OperatingSystem.IsWindows() ? '/' + path.Replace('\\', '/') : path).Replace("%2F", "/", StringComparison.Ordinal)}";

    // Takes a while the first time, in which the copy would stand under its name.
    private static void LoadLibrary()
    {
        using var none = new SqliteConnection("Data Source=:memory:;Pooling=False");
        none.Open();
    }

    private void CopyAll()
    {
        using (var transaction = copy.BeginTransaction())
        {
            var version = copy.Scalar<long>("PRAGMA source.user_version");
            var objects = copy.Query("SELECT type, name, sql FROM source.sqlite_schema WHERE sql IS NOT NULL ORDER BY type = 'table' DESC", row => (Type: row.GetString(0), Name: row.GetString(1), Sql: row.GetString(2)));
            foreach (var table in objects.Where(found => found.Type == "table" && found.Name != Cached)) CheckTable(table.Name);
            foreach (var (type, name, sql) in objects)
            {
                copy.Execute(sql);
                if (type == "table" && name != Cached) copy.Execute($"INSERT INTO main.{Quoted(name)} SELECT * FROM source.{Quoted(name)}");
            }
            copy.Execute($"PRAGMA main.user_version = {version}");
            transaction.Commit();
        }
        if (!KnownSchema.IsIn(copy)) throw new BadInputException("data", $"Its {DataFolder.DatabaseName} is no database of this program, or its schema is damaged; name the data folder of a service, or save what can be read with data salvage.");
    }

    private void CheckTable(string table)
    {
        if (copy.Query($"PRAGMA source.integrity_check({Quoted(table)})", row => row.GetString(0)) is not ["ok"]) throw new SqliteException("damaged", 11);
    }

    private static string Quoted(string name) => $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
