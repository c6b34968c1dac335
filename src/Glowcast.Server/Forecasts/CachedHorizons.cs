using Glowcast.Engine.Terrain;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;

namespace Glowcast.Server.Forecasts;

/// <summary>Keeps tables of horizons among what can be worked out again, so that another day of a lookout is quick also after a restart.</summary>
internal sealed partial class CachedHorizons(ICache cache, ILogger<CachedHorizons> log) : IHorizonStore
{
    // Whoever asks is in the middle of working something out, on a thread of its own.
    public byte[]? Find(string key) => cache.FindAsync(CacheKey(key), CancellationToken.None).GetAwaiter().GetResult();

    public void Keep(string key, byte[] table)
    {
        try
        {
            cache.KeepAsync(new Dictionary<string, byte[]> { [CacheKey(key)] = table }, CancellationToken.None).GetAwaiter().GetResult();
        }
        catch (Exception full) when (FullDisk.Is(full))
        {
            NotKept(log, key);
        }
    }

    private static string CacheKey(string key) => $"horizons/{key}";

    [LoggerMessage(Level = LogLevel.Warning, Message = "The disk is full: horizons {Key} were used but not kept")]
    private static partial void NotKept(ILogger log, string key);
}
