using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>Elevation grids that were uploaded: files named by what they hold, never by what a client calls them.</summary>
public interface IGrids
{
    /// <summary>The latest first.</summary>
    Task<IReadOnlyList<KeptGrid>> AllAsync(CancellationToken cancel);

    Task<KeptGrid?> FindAsync(string id, CancellationToken cancel);

    /// <summary>Takes a file in, to be looked at before it is kept.</summary>
    /// <param name="fileName">As the client calls it; part of the address, since some formats are placed by it.</param>
    /// <exception cref="IOException">Such as that the disk is full; nothing is left of it then.</exception>
    Task<ArrivedGrid> ReceiveAsync(Stream content, string fileName, CancellationToken cancel);

    /// <summary>Holds what arrived until it is dropped, over a restart too, so that it can be kept later.</summary>
    HeldGrid Hold(ArrivedGrid arrived);

    ArrivedGrid TakeUp(HeldGrid held);

    void Drop(HeldGrid held);

    /// <summary>Keeps what arrived for good: when this returns, file and facts have reached the disk.</summary>
    /// <param name="facts">What the readers found in it, as JSON.</param>
    /// <returns>Whether it is new; false where the same file was there before.</returns>
    Task<bool> KeepAsync(ArrivedGrid arrived, string facts, Instant now, CancellationToken cancel);

    /// <returns>Seekable; null where it has been deleted meanwhile.</returns>
    Stream? Open(string id);

    /// <returns>Whether it was there.</returns>
    Task<bool> DeleteAsync(string id, CancellationToken cancel);
}

/// <param name="Id">Its address, made of its name and bytes.</param>
/// <param name="FileName">As the client called it.</param>
/// <param name="Facts">What the readers found in it, as JSON.</param>
public sealed record KeptGrid(string Id, string FileName, long Bytes, string Facts, Instant Added);

/// <summary>A file that has arrived whole and waits to be kept. Disposed before that, it is gone, unless it is held.</summary>
/// <param name="path">Where it is for the time being.</param>
public sealed class ArrivedGrid(string id, string fileName, string path, long bytes) : IDisposable
{
    private bool isHeld;

    public string Id => id;

    public string FileName => fileName;

    public long Bytes => bytes;

    public Stream Open() => File.OpenRead(path);

    public HeldGrid Hold()
    {
        isHeld = true;
        return new HeldGrid(id, fileName, Path.GetFileName(path), bytes);
    }

    /// <summary>Moves it, in one step, to where it stays.</summary>
    public void MoveTo(string place) => File.Move(path, place, overwrite: true);

    public void Dispose()
    {
        if (!isHeld) File.Delete(path);
    }
}

/// <param name="Held">The name it has for the time being.</param>
public sealed record HeldGrid(string Id, string FileName, string Held, long Bytes);
