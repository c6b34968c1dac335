namespace Glowcast.Server.Store;

/// <summary>What can be worked out again: kept while there is room, and the longest unused forgotten first.</summary>
public interface ICache
{
    Task<byte[]?> FindAsync(string key, CancellationToken cancel);

    /// <summary>Keeps all of them, or, where there is no room, none.</summary>
    Task KeepAsync(IReadOnlyCollection<KeyValuePair<string, byte[]>> contents, CancellationToken cancel);
}
