using Microsoft.Data.Sqlite;
using NodaTime;

namespace Glowcast.Server.Store;

/// <param name="mostBytes">Of all contents together.</param>
internal sealed class SqliteCache(Database database, IClock clock, long mostBytes) : ICache
{
    // Noting every use would make a write of every read.
    private const long UseNotedAfterS = 3600;

    public async Task<byte[]?> FindAsync(string key, CancellationToken cancel)
    {
        var found = Find(key);
        if (found.Count == 0) return null;
        var now = NowS();
        if (!database.IsDamaged && now - found[0].Used > UseNotedAfterS)
            await database.WriteAsync(connection => connection.Execute("UPDATE cached SET used = $now WHERE key = $key", ("$now", now), ("$key", key)), cancel);
        return found[0].Content;
    }

    public Task KeepAsync(IReadOnlyCollection<KeyValuePair<string, byte[]>> contents, CancellationToken cancel)
    {
        var bytes = contents.Sum(content => (long)content.Value.Length);
        return bytes > mostBytes || database.IsDamaged ? Task.CompletedTask : database.WriteAsync(
            connection =>
            {
                MakeRoom(connection, mostBytes - bytes);
                foreach (var (key, content) in contents)
                    connection.Execute("INSERT OR REPLACE INTO cached (key, content, used) VALUES ($key, $content, $now)", ("$key", key), ("$content", content), ("$now", NowS()));
                return contents.Count;
            },
            cancel);
    }

    // What cannot be read any more is worked out again.
    private List<(byte[] Content, long Used)> Find(string key)
    {
        try
        {
            return database.Read(connection => connection.Query(
                "SELECT content, used FROM cached WHERE key = $key", row => (row.GetFieldValue<byte[]>(0), row.GetInt64(1)), ("$key", key)));
        }
        catch (DamagedException)
        {
            return [];
        }
    }

    private static void MakeRoom(SqliteConnection connection, long mostLeft) => connection.Execute(
        """
        DELETE FROM cached WHERE rowid IN (
            SELECT rowid FROM (SELECT rowid, sum(length(content)) OVER (ORDER BY used DESC, rowid DESC) AS newer FROM cached) WHERE newer > $most)
        """,
        ("$most", mostLeft));

    private long NowS() => clock.GetCurrentInstant().ToUnixTimeSeconds();
}
