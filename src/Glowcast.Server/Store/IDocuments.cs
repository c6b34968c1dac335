using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>Small JSON documents that a user keeps under ids of their own.</summary>
public interface IDocuments
{
    /// <summary>In the order of their names.</summary>
    Task<IReadOnlyList<Document>> AllAsync(string kind, CancellationToken cancel);

    Task<Document?> FindAsync(string kind, string id, CancellationToken cancel);

    /// <summary>Keeps a document for good: when this returns it has reached the disk.</summary>
    /// <param name="mayReplace">Asked, in one step with the writing, of what is there now (null for nothing).</param>
    Task<PutOutcome> PutAsync(Document document, Func<Document?, bool> mayReplace, CancellationToken cancel);

    /// <param name="mayDelete">Asked, in one step with the deleting, of what is there now.</param>
    Task<DeleteOutcome> DeleteAsync(string kind, string id, Func<Document, bool> mayDelete, CancellationToken cancel);
}

/// <param name="Kind">Such as "lookouts".</param>
/// <param name="Name">For people.</param>
/// <param name="Json">What is kept.</param>
/// <param name="Changed">When it was last put.</param>
public sealed record Document(string Kind, string Id, string Name, string Json, Instant Changed);

public enum DeleteOutcome
{
    Deleted,

    /// <summary>The one there may not be deleted.</summary>
    Refused,

    NotThere,
}

public enum PutOutcome
{
    Created,
    Replaced,

    /// <summary>The one there may not be replaced.</summary>
    Refused,

    /// <summary>There are as many of its kind as may be.</summary>
    TooMany,
}
