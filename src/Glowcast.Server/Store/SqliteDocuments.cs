using Microsoft.Data.Sqlite;
using NodaTime.Text;

namespace Glowcast.Server.Store;

internal sealed class SqliteDocuments(Database database) : IDocuments
{
    private const long MostOfAKind = 10_000;

    public Task<IReadOnlyList<Document>> AllAsync(string kind, CancellationToken cancel) => Task.FromResult<IReadOnlyList<Document>>(database.Read(
        connection => connection.Query("SELECT kind, id, name, json, changed FROM document WHERE kind = $kind ORDER BY name, id", Read, ("$kind", kind))));

    public Task<Document?> FindAsync(string kind, string id, CancellationToken cancel) => Task.FromResult(database.Read(connection => Find(connection, kind, id)));

    public Task<PutOutcome> PutAsync(Document document, Func<Document?, bool> mayReplace, CancellationToken cancel) => database.WriteAsync(
        connection =>
        {
            var before = Find(connection, document.Kind, document.Id);
            if (!mayReplace(before)) return PutOutcome.Refused;
            if (before is null && connection.Scalar<long>("SELECT count(*) FROM document WHERE kind = $kind", ("$kind", document.Kind)) >= MostOfAKind)
                return PutOutcome.TooMany;
            connection.Execute(
                "INSERT OR REPLACE INTO document (kind, id, name, json, changed) VALUES ($kind, $id, $name, $json, $changed)",
                ("$kind", document.Kind), ("$id", document.Id), ("$name", document.Name), ("$json", document.Json),
                ("$changed", InstantPattern.ExtendedIso.Format(document.Changed)));
            return before is null ? PutOutcome.Created : PutOutcome.Replaced;
        },
        cancel);

    public Task<DeleteOutcome> DeleteAsync(string kind, string id, Func<Document, bool> mayDelete, CancellationToken cancel) => database.ForgetAsync(
        connection =>
        {
            if (Find(connection, kind, id) is not { } there) return DeleteOutcome.NotThere;
            if (!mayDelete(there)) return DeleteOutcome.Refused;
            connection.Execute("DELETE FROM document WHERE kind = $kind AND id = $id", ("$kind", kind), ("$id", id));
            return DeleteOutcome.Deleted;
        },
        cancel);

    private static Document? Find(SqliteConnection connection, string kind, string id) => connection.Query(
        "SELECT kind, id, name, json, changed FROM document WHERE kind = $kind AND id = $id", Read, ("$kind", kind), ("$id", id)).FirstOrDefault();

    private static Document Read(SqliteDataReader row) =>
        new(row.GetString(0), row.GetString(1), row.GetString(2), row.GetString(3), InstantPattern.ExtendedIso.Parse(row.GetString(4)).Value);
}
