using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>The hash of the token by which others than this machine are let in; the token itself is kept nowhere.</summary>
public interface ITokens
{
    /// <summary>Null while none was made.</summary>
    Task<byte[]?> HashAsync(CancellationToken cancel);

    Task KeepAsync(byte[] hash, Instant now, CancellationToken cancel);
}
