namespace Glowcast.Server.Store;

/// <summary>A little room on the disk that is kept for one purpose: forgetting something writes a little too, and on a full disk there would be no way to
/// make room.</summary>
internal sealed class RoomToDelete(string folder)
{
    public const string FileName = "glowcast-room";

    private const int Bytes = 256 << 10;

    private readonly string path = Path.Combine(folder, FileName);

    /// <summary>Gives the room back to the disk.</summary>
    public void Release()
    {
        if (!OwnFiles.HasContent(path)) return;
        using var file = new FileStream(path, FileMode.Open, FileAccess.Write);
        file.SetLength(0);
    }

    /// <summary>Takes it again; where the disk has none, a later time must do.</summary>
    public void Keep()
    {
        try
        {
            if (new FileInfo(path) is { Exists: true, Length: >= Bytes }) return;
            using var file = OwnFiles.IsPlain(path) ? new FileStream(path, FileMode.Open, FileAccess.ReadWrite) : OwnFiles.Create(path);
            if (!file.CanSeek) return;
            // Written out: a file that is only declared to be long takes no room.
            file.Write(new byte[Bytes]);
            file.Flush(flushToDisk: true);
        }
        catch (Exception full) when (full is IOException or UnauthorizedAccessException)
        {
            Release();
        }
    }
}
