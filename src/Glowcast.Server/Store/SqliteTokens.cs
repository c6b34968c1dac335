using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Store;

internal sealed class SqliteTokens(Database database) : ITokens
{
    public Task<byte[]?> HashAsync(CancellationToken cancel) => Task.FromResult(database.Read(
        connection => connection.Scalar<byte[]>("SELECT hash FROM token WHERE name = 'access'")));

    public Task KeepAsync(byte[] hash, Instant now, CancellationToken cancel) => database.WriteAsync(
        connection => connection.Execute(
            "INSERT OR REPLACE INTO token (name, hash, made) VALUES ('access', $hash, $made)", ("$hash", hash), ("$made", InstantPattern.ExtendedIso.Format(now))),
        cancel);
}
