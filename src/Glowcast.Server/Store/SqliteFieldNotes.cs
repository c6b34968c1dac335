using Microsoft.Data.Sqlite;
using NodaTime.Text;

namespace Glowcast.Server.Store;

internal sealed class SqliteFieldNotes(Database database) : IFieldNotes
{
    private const long Most = 100_000;

    public Task<IReadOnlyList<KeptNote>> AllAsync(string? place, CancellationToken cancel) => Task.FromResult<IReadOnlyList<KeptNote>>(database.Read(
        connection => connection.Query(
            "SELECT id, place, json, written FROM note WHERE $place IS NULL OR place = $place ORDER BY written DESC, id", Read, ("$place", place))));

    public Task<KeptNote?> FindAsync(string id, CancellationToken cancel) => Task.FromResult(database.Read(
        connection => connection.Query("SELECT id, place, json, written FROM note WHERE id = $id", Read, ("$id", id)).FirstOrDefault()));

    public Task<bool> AddAsync(KeptNote note, CancellationToken cancel) => database.WriteAsync(
        connection => connection.Scalar<long>("SELECT count(*) FROM note") < Most && connection.Execute(
            "INSERT INTO note (id, place, json, written) VALUES ($id, $place, $json, $written)",
            ("$id", note.Id), ("$place", note.Place), ("$json", note.Json), ("$written", InstantPattern.ExtendedIso.Format(note.Written))) > 0,
        cancel);

    public Task<bool> DeleteAsync(string id, CancellationToken cancel) => database.ForgetAsync(
        connection => connection.Execute("DELETE FROM note WHERE id = $id", ("$id", id)) > 0, cancel);

    private static KeptNote Read(SqliteDataReader row) =>
        new(row.GetString(0), row.GetString(1), row.GetString(2), InstantPattern.ExtendedIso.Parse(row.GetString(3)).Value);
}
