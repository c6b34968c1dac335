using System.Text.Json;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;
using Microsoft.Data.Sqlite;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Store;

/// <summary>Grid files in a folder beside the database, which says what they are.</summary>
internal sealed partial class SqliteGrids(DataFolder folder) : IGrids
{
    private readonly Database database = folder.Database;

    public Task<IReadOnlyList<KeptGrid>> AllAsync(CancellationToken cancel) => Task.FromResult<IReadOnlyList<KeptGrid>>(database.Read(
        connection => connection.Readable("SELECT id, file_name, bytes, facts, added FROM grid", "", "added DESC, id", "id", Read)));

    public Task<KeptGrid?> FindAsync(string id, CancellationToken cancel) => Task.FromResult(database.Read(
        connection => connection.Query("SELECT id, file_name, bytes, facts, added FROM grid WHERE id = $id", Read, ("$id", id)).FirstOrDefault()));

    public async Task<ArrivedGrid> ReceiveAsync(Stream content, string fileName, CancellationToken cancel)
    {
        var path = folder.NewIncoming();
        try
        {
            using var address = new GridAddress(fileName);
            await using var file = OwnFiles.Create(path, FileOptions.Asynchronous, FileShare.None);
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
        var held = arrived.Hold();
        folder.Ledger.Hold(held);
        return held;
    }

    public ArrivedGrid TakeUp(HeldGrid held) => new(held.Id, held.FileName, File.Exists(PathOf(held)) ? PathOf(held) : PathOf(held.Id), held.Bytes);

    public void Drop(HeldGrid held)
    {
        var name = Path.GetFileName(held.Held);
        if (folder.IsIncoming(name) || EarlierName().IsMatch(name)) OwnFiles.Delete(Path.Combine(folder.Incoming, name));
    }

    public Task<bool> KeepAsync(ArrivedGrid arrived, string facts, Instant now, CancellationToken cancel) => database.WriteAsync(
        connection =>
        {
            Place(arrived);
            return connection.Execute(
                "INSERT OR IGNORE INTO grid (id, file_name, bytes, facts, added) VALUES ($id, $name, $bytes, $facts, $added)",
                ("$id", arrived.Id), ("$name", arrived.FileName), ("$bytes", arrived.Bytes), ("$facts", facts), ("$added", InstantPattern.ExtendedIso.Format(now))) > 0;
        },
        cancel);

    public Stream? Open(string id)
    {
        try
        {
            return OwnFiles.HasContent(PathOf(id)) ? File.OpenRead(PathOf(id)) : null;
        }
        catch (FileNotFoundException)
        {
            return null;
        }
    }

    // The wish is written down first, so that a file whose deletion was cut off is told from one whose fact was lost.
    public Task<bool> DeleteAsync(string id, CancellationToken cancel) => database.ForgetAsync(
        connection =>
        {
            if (connection.Scalar<long>("SELECT count(*) FROM grid WHERE id = $id", ("$id", id)) == 0) return false;
            folder.Ledger.Delete(id);
            return connection.Execute("DELETE FROM grid WHERE id = $id", ("$id", id)) > 0;
        },
        cancel,
        wasThere =>
        {
            if (wasThere) OwnFiles.Delete(PathOf(id));
        });

    // Moving it over itself is harmless, and mends a file that was lost or damaged; what is not ours is not written over.
    private void Place(ArrivedGrid arrived)
    {
        var place = PathOf(arrived.Id);
        if (Path.Exists(place) && !(OwnFiles.HasContent(place) && (folder.Ledger.Of(arrived.Id) is not null || GridAddress.Of(arrived.FileName, place) == arrived.Id)))
            throw new BadInputException("file", $"Cannot be kept: something that this service has not made stands in its data folder at {DataFolder.GridsName}/{arrived.Id}; move it away.");
        folder.Ledger.Keep((arrived.Id, arrived.FileName, arrived.Bytes));
        arrived.MoveTo(place);
        OnDisk.FlushNames(folder.Grids);
    }

    /// <param name="id">Of a grid that is kept, or has just been reckoned: no text of a client.</param>
    private string PathOf(string id) => Path.Combine(folder.Grids, id);

    private string PathOf(HeldGrid held) => Path.Combine(folder.Incoming, Path.GetFileName(held.Held));

    private static KeptGrid Read(SqliteDataReader row)
    {
        var facts = row.GetString(3);
        _ = JsonSerializer.Deserialize<GridAnswer>(facts, AnswerJson.Options) ?? throw new JsonException();
        return new(row.GetString(0), row.GetString(1), row.GetInt64(2), facts, InstantPattern.ExtendedIso.Parse(row.GetString(4)).Value);
    }

    // Of a release whose names did not say whose they are; only the database speaks of such files.
    [GeneratedRegex(@"\A[0-9a-f]{32}\z", RegexOptions.CultureInvariant)]
    private static partial Regex EarlierName();
}
