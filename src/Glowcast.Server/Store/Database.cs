using Glowcast.Server.Problems;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>The one SQLite file: many readers beside one writer, and what is written has reached the disk when the call comes back.</summary>
internal sealed class Database : IDisposable
{
    private readonly string connectionString;
    private readonly SemaphoreSlim writing = new(1);
    private readonly RoomToDelete room;

    private Database(string path)
    {
        connectionString = new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = SqliteOpenMode.ReadWriteCreate,
            ForeignKeys = true,
        }.ToString();
        room = new RoomToDelete(Path.GetDirectoryName(path)!);
    }

    /// <summary>Opens the file, or makes it, and brings its schema forward.</summary>
    /// <exception cref="Engine.Measures.BadInputException">It was made by a later version, or is no database.</exception>
    public static Database Open(string path)
    {
        var database = new Database(path);
        using var connection = database.Connect();
        connection.Execute("PRAGMA journal_mode = WAL");
        Migrations.BringForward(connection);
        database.room.Keep();
        return database;
    }

    public T Read<T>(Func<SqliteConnection, T> read)
    {
        using var connection = Connect();
        return read(connection);
    }

    /// <summary>All of it or nothing.</summary>
    /// <param name="afterwards">Done when it is written, before anybody else writes.</param>
    /// <exception cref="SqliteException">Such as that the disk is full; nothing was written then.</exception>
    public async Task<T> WriteAsync<T>(Func<SqliteConnection, T> write, CancellationToken cancel, Action<T>? afterwards = null)
    {
        await writing.WaitAsync(cancel);
        try
        {
            using var connection = Connect();
            using var transaction = connection.BeginTransaction(deferred: false);
            var outcome = write(connection);
            transaction.Commit();
            afterwards?.Invoke(outcome);
            return outcome;
        }
        finally
        {
            writing.Release();
        }
    }

    /// <summary>Writes what forgets something, on a full disk too: there it makes room.</summary>
    /// <inheritdoc cref="WriteAsync"/>
    public async Task<T> ForgetAsync<T>(Func<SqliteConnection, T> write, CancellationToken cancel, Action<T>? afterwards = null)
    {
        try
        {
            return await WriteAsync(write, cancel, afterwards);
        }
        catch (Exception full) when (FullDisk.Is(full))
        {
            room.Release();
            var outcome = await WriteAsync(write, cancel, afterwards);
            ShortenLog();
            room.Keep();
            return outcome;
        }
    }

    public void Dispose()
    {
        using (var connection = new SqliteConnection(connectionString)) SqliteConnection.ClearPool(connection);
        writing.Dispose();
    }

    // What the log holds goes to where it belongs; readers in the middle may keep it from that until later.
    private void ShortenLog()
    {
        using var connection = Connect();
        connection.Query("PRAGMA wal_checkpoint(TRUNCATE)", row => row.GetInt64(0));
    }

    private SqliteConnection Connect()
    {
        var connection = new SqliteConnection(connectionString);
        connection.Open();
        // Acknowledged means on the disk: a commit waits for it.
        connection.Execute("PRAGMA synchronous = FULL");
        return connection;
    }
}
