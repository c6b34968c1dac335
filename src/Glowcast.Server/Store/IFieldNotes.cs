using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>What was seen in the field, as JSON.</summary>
public interface IFieldNotes
{
    /// <summary>The latest first.</summary>
    /// <param name="place">Of one lookout; null for all.</param>
    Task<IReadOnlyList<KeptNote>> AllAsync(string? place, CancellationToken cancel);

    Task<KeptNote?> FindAsync(string id, CancellationToken cancel);

    /// <summary>Keeps a note for good: when this returns it has reached the disk.</summary>
    /// <returns>False where there are as many as may be.</returns>
    Task<bool> AddAsync(KeptNote note, CancellationToken cancel);

    /// <returns>Whether it was there.</returns>
    Task<bool> DeleteAsync(string id, CancellationToken cancel);
}

/// <param name="Place">Tells one lookout from another.</param>
public sealed record KeptNote(string Id, string Place, string Json, Instant Written);
