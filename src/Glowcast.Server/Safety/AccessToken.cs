using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using Glowcast.Server.Store;
using NodaTime;

namespace Glowcast.Server.Safety;

/// <summary>The token that others than this machine must show. It is made once, shown once, and kept as a hash.</summary>
/// <remarks>Its 256 random bits need no salt and no slow hash: nobody guesses them.</remarks>
internal sealed class AccessToken(byte[] hash)
{
    private const int Bytes = 32;

    /// <param name="renew">Whether a new one takes the place of the old.</param>
    /// <param name="show">Gets a token that has just been made.</param>
    public static async Task<AccessToken> OpenAsync(ITokens tokens, IClock clock, bool renew, Action<string> show)
    {
        if (!renew && await tokens.HashAsync(CancellationToken.None) is { } kept) return new AccessToken(kept);
        var token = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));
        var hash = HashOf(token);
        await tokens.KeepAsync(hash, clock.GetCurrentInstant(), CancellationToken.None);
        show(token);
        return new AccessToken(hash);
    }

    /// <summary>Takes as long whatever is wrong.</summary>
    public bool Is(string shown) => CryptographicOperations.FixedTimeEquals(HashOf(shown), hash);

    private static byte[] HashOf(string token) => SHA256.HashData(Encoding.UTF8.GetBytes(token));
}
