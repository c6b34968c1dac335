namespace Glowcast.Engine.Take;

/// <summary>What of a picture file is wanted here: its tags of EXIF, and where it names smaller pictures of itself.</summary>
internal sealed class PictureParts
{
    private readonly TagWalk walk;
    private readonly List<(int Wide, int High)> sizes = [];
    private readonly List<(long Offset, long Length)> previews = [];

    public PictureParts(PictureBytes bytes) => (Bytes, walk) = (bytes, new TagWalk(bytes));

    public PictureBytes Bytes { get; }

    public IReadOnlyList<TagDirectory> Directories => walk.Directories;

    /// <summary>As JPEGs say it of themselves.</summary>
    public IReadOnlyList<(int Wide, int High)> Sizes => sizes;

    /// <summary>Where JPEGs lie that the container of the file names.</summary>
    public IReadOnlyList<(long Offset, long Length)> Previews => previews;

    public void AddSize(long wide, long high) => sizes.Add(((int)wide, (int)high));

    public void AddPreview(long offset, long length) => previews.Add((offset, length));

    /// <inheritdoc cref="TagWalk.Read"/>
    public int? AddTags(long start, DirectoryKind kind) => walk.Read(start, kind);
}
