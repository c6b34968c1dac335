using Microsoft.Data.Sqlite;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Store;

/// <summary>Grid files in a folder beside the database, which says what they are.</summary>
internal sealed class SqliteGrids(DataFolder folder) : IGrids
{
    private readonly Database database = folder.Database;

    /// <summary>Removes what a service that ended in the middle has left: files half arrived, and files that nothing speaks of.</summary>
    public void Tidy()
    {
        RemoveOthers(folder.Grids, "SELECT id FROM grid");
        RemoveOthers(folder.Incoming, "SELECT json_extract(request, '$.held') FROM job WHERE kind = 'grid' AND state IN ('queued', 'running')");
    }

    public Task<IReadOnlyList<KeptGrid>> AllAsync(CancellationToken cancel) => Task.FromResult<IReadOnlyList<KeptGrid>>(database.Read(
        connection => connection.Query("SELECT id, file_name, bytes, facts, added FROM grid ORDER BY added DESC, id", Read)));

    public Task<KeptGrid?> FindAsync(string id, CancellationToken cancel) => Task.FromResult(database.Read(
        connection => connection.Query("SELECT id, file_name, bytes, facts, added FROM grid WHERE id = $id", Read, ("$id", id)).FirstOrDefault()));

    public async Task<ArrivedGrid> ReceiveAsync(Stream content, string fileName, CancellationToken cancel)
    {
        var path = Path.Combine(folder.Incoming, Guid.NewGuid().ToString("N"));
        try
        {
            using var address = new GridAddress(fileName);
            await using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0, FileOptions.Asynchronous);
            var part = new byte[1 << 17];
            int read;
            while ((read = await content.ReadAsync(part, cancel)) > 0)
            {
                address.Append(part.AsSpan(0, read));
                await file.WriteAsync(part.AsMemory(0, read), cancel);
            }
            file.Flush(flushToDisk: true);
            return new ArrivedGrid(address.ToString(), fileName, path, file.Length);
        }
        catch
        {
            File.Delete(path);
            throw;
        }
    }

    public HeldGrid Hold(ArrivedGrid arrived)
    {
        OnDisk.FlushNames(folder.Incoming);
        return arrived.Hold();
    }

    public ArrivedGrid TakeUp(HeldGrid held) => new(held.Id, held.FileName, PathOf(held), held.Bytes);

    public void Drop(HeldGrid held) => File.Delete(PathOf(held));

    public Task<bool> KeepAsync(ArrivedGrid arrived, string facts, Instant now, CancellationToken cancel) => database.WriteAsync(
        connection =>
        {
            // Moving it over itself is harmless, and mends a file that was lost.
            arrived.MoveTo(PathOf(arrived.Id));
            OnDisk.FlushNames(folder.Grids);
            return connection.Execute(
                "INSERT OR IGNORE INTO grid (id, file_name, bytes, facts, added) VALUES ($id, $name, $bytes, $facts, $added)",
                ("$id", arrived.Id), ("$name", arrived.FileName), ("$bytes", arrived.Bytes), ("$facts", facts), ("$added", InstantPattern.ExtendedIso.Format(now))) > 0;
        },
        cancel);

    public Stream? Open(string id)
    {
        try
        {
            return File.OpenRead(PathOf(id));
        }
        catch (FileNotFoundException)
        {
            return null;
        }
    }

    // The fact first: a file that nothing speaks of is tidied away, a fact without its file would be a lie.
    public Task<bool> DeleteAsync(string id, CancellationToken cancel) => database.WriteAsync(
        connection => connection.Execute("DELETE FROM grid WHERE id = $id", ("$id", id)) > 0,
        cancel,
        wasThere =>
        {
            if (wasThere) File.Delete(PathOf(id));
        });

    /// <param name="id">Of a grid that is kept, or has just been reckoned: no text of a client.</param>
    private string PathOf(string id) => Path.Combine(folder.Grids, id);

    private string PathOf(HeldGrid held) => Path.Combine(folder.Incoming, Path.GetFileName(held.Held));

    private void RemoveOthers(string inFolder, string sql)
    {
        var known = database.Read(connection => connection.Query(sql, row => row.GetString(0))).ToHashSet();
        foreach (var path in Directory.EnumerateFiles(inFolder).Where(path => !known.Contains(Path.GetFileName(path)))) File.Delete(path);
    }

    private static KeptGrid Read(SqliteDataReader row) => new(
        row.GetString(0), row.GetString(1), row.GetInt64(2), row.GetString(3), InstantPattern.ExtendedIso.Parse(row.GetString(4)).Value);
}
