using Microsoft.Data.Sqlite;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Store;

/// <param name="mostWaiting">More are not taken in.</param>
internal sealed class SqliteJobs(Database database, int mostWaiting) : IJobs
{
    private const int MostEndedKept = 200;
    private const string Columns = "id, kind, request, state, share, problem, queued, ended";

    public Task<IReadOnlyList<Job>> AllAsync(CancellationToken cancel) => Task.FromResult<IReadOnlyList<Job>>(database.Read(
        connection => connection.Query($"SELECT {Columns} FROM job ORDER BY number DESC", Read)));

    public Task<Job?> FindAsync(string id, CancellationToken cancel) => Task.FromResult(database.Read(connection => Find(connection, id)));

    public Task<byte[]?> ResultAsync(string id, CancellationToken cancel) => Task.FromResult(database.Read(
        connection => connection.Scalar<byte[]>("SELECT result FROM job WHERE id = $id", ("$id", id))));

    public Task<Job?> AddAsync(string kind, string request, Instant now, CancellationToken cancel) => database.WriteAsync(
        connection =>
        {
            if (connection.Scalar<long>("SELECT count(*) FROM job WHERE state IN ('queued', 'running')") >= mostWaiting) return null;
            connection.Execute(
                "DELETE FROM job WHERE number IN (SELECT number FROM job WHERE state NOT IN ('queued', 'running') ORDER BY number DESC LIMIT -1 OFFSET $kept)",
                ("$kept", MostEndedKept));
            var id = Guid.CreateVersion7().ToString("N");
            connection.Execute(
                "INSERT INTO job (id, kind, request, state, queued) VALUES ($id, $kind, $request, 'queued', $now)",
                ("$id", id), ("$kind", kind), ("$request", request), ("$now", InstantPattern.ExtendedIso.Format(now)));
            return Find(connection, id);
        },
        cancel);

    public Task<Job?> TakeAsync(CancellationToken cancel) => database.WriteAsync(
        connection => connection.Query(
            $"UPDATE job SET state = 'running' WHERE number = (SELECT min(number) FROM job WHERE state = 'queued') RETURNING {Columns}", Read).FirstOrDefault(),
        cancel);

    public Task<bool> ReportAsync(string id, double share, CancellationToken cancel) => database.WriteAsync(
        connection => connection.Execute("UPDATE job SET share = $share WHERE id = $id AND state = 'running'", ("$id", id), ("$share", share)) > 0, cancel);

    public Task<bool> EndAsync(string id, JobState state, byte[]? result, string? problem, Instant now, CancellationToken cancel) => database.ForgetAsync(
        connection => connection.Execute(
            """
            UPDATE job SET state = $state, share = CASE $state WHEN 'done' THEN 1 ELSE share END, result = $result, problem = $problem, ended = $now
            WHERE id = $id AND state IN ('queued', 'running')
            """,
            ("$id", id), ("$state", state.ToString().ToLowerInvariant()), ("$result", result), ("$problem", problem), ("$now", InstantPattern.ExtendedIso.Format(now))) > 0,
        cancel);

    public Task RequeueAsync(CancellationToken cancel) => database.WriteAsync(
        connection => connection.Execute("UPDATE job SET state = 'queued', share = 0 WHERE state = 'running'"), cancel);

    public Task<bool> DeleteAsync(string id, CancellationToken cancel) => database.ForgetAsync(
        connection => connection.Execute("DELETE FROM job WHERE id = $id AND state NOT IN ('queued', 'running')", ("$id", id)) > 0, cancel);

    private static Job? Find(SqliteConnection connection, string id) =>
        connection.Query($"SELECT {Columns} FROM job WHERE id = $id", Read, ("$id", id)).FirstOrDefault();

    private static Job Read(SqliteDataReader row) => new(
        row.GetString(0), row.GetString(1), row.GetString(2), Enum.Parse<JobState>(row.GetString(3), ignoreCase: true), row.GetDouble(4), Text(row, 5),
        InstantPattern.ExtendedIso.Parse(row.GetString(6)).Value, Text(row, 7) is { } ended ? InstantPattern.ExtendedIso.Parse(ended).Value : null);

    private static string? Text(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);
}
