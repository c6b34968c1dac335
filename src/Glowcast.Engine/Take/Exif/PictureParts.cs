using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Take;

/// <summary>What of a picture file is wanted here: its tags of EXIF, and where it names smaller pictures of itself.</summary>
/// <remarks>The file is told by its first bytes, never by its name. JPEG, TIFF and the raw files that are TIFF within (CR2, DNG, NEF,
/// ORF, RW2 and others), RAF, and CR3, HEIF, PNG and WebP, which have EXIF in parts of their own. Nothing is unfolded, nothing calls
/// itself, and <see cref="PictureBytes"/> and <see cref="TagWalk"/> bound how much is read.</remarks>
internal sealed class PictureParts
{
    private const int HeadBytes = 16;

    private readonly TagWalk walk;
    private readonly List<(int Wide, int High)> sizes = [];
    private readonly List<(long Offset, long Length)> previews = [];

    private PictureParts(PictureBytes bytes) => (Bytes, walk) = (bytes, new TagWalk(bytes));

    public PictureBytes Bytes { get; }

    public IReadOnlyList<TagDirectory> Directories => walk.Directories;

    /// <summary>As JPEGs say it of themselves.</summary>
    public IReadOnlyList<(int Wide, int High)> Sizes => sizes;

    /// <summary>Where JPEGs lie that the container of the file names.</summary>
    public IReadOnlyList<(long Offset, long Length)> Previews => previews;

    /// <param name="name">Of the file, for faults.</param>
    /// <exception cref="BadInputException">It is no picture file, or a TIFF file of which nothing can be read.</exception>
    public static PictureParts Of(Stream file, string name)
    {
        var parts = new PictureParts(new PictureBytes(file));
        Span<byte> head = stackalloc byte[HeadBytes];
        head.Clear();
        _ = parts.Bytes.TryRead(0, head[..(int)Math.Min(HeadBytes, parts.Bytes.Length)]);
        if (!parts.Read(head)) throw new BadInputException(name, "Is no picture file that can be read: JPEG, TIFF, DNG or a camera's raw file.");
        return parts.Directories.Count > 0 || !IsTiff(head)
            ? parts
            : throw new BadInputException(name, "Is broken: what the camera wrote into it cannot be read.");
    }

    public void AddSize(long wide, long high) => sizes.Add(((int)wide, (int)high));

    public void AddPreview(long offset, long length) => previews.Add((offset, length));

    /// <summary>Reads the tags of a TIFF structure.</summary>
    public void AddTags(long start, DirectoryKind kind)
    {
        const int panasonic = 0x55;
        if (walk.Read(start, kind) != panasonic || Directories.Count == 0 || Directories[0][ExifTag.JpegOfRaw] is not { } jpeg) return;
        AddPreview(jpeg.At, jpeg.Count);
        JpegSegments.Read(jpeg.At, this);
    }

    private bool Read(ReadOnlySpan<byte> head)
    {
        if (JpegSegments.Begin(head)) JpegSegments.Read(0, this);
        else if (IsTiff(head)) AddTags(0, DirectoryKind.Picture);
        else if (head.StartsWith("FUJIFILMCCD-RAW "u8)) ReadRaf();
        else if (head[4..].StartsWith("ftyp"u8)) IsoMediaBoxes.Read(this);
        else if (head.StartsWith(PictureChunks.PngMark)) PictureChunks.ReadPng(this);
        else if (head.StartsWith("RIFF"u8) && head[8..].StartsWith("WEBP"u8)) PictureChunks.ReadWebP(this);
        else return false;
        return true;
    }

    // 42 is TIFF; ORF writes RO or RS, RW2 55 (hexadecimal).
    private static bool IsTiff(ReadOnlySpan<byte> head) => (head[0], head[1], head[2], head[3]) is
        ((byte)'I', (byte)'I', 42 or 0x55, 0) or ((byte)'M', (byte)'M', 0, 42)
        or ((byte)'I', (byte)'I', (byte)'R', (byte)'O' or (byte)'S') or ((byte)'M', (byte)'M', (byte)'O' or (byte)'S', (byte)'R');

    private void ReadRaf()
    {
        const int jpegAt = 84;
        if (!Bytes.TryWhole(jpegAt, 4, isLittle: false, out var offset) || !Bytes.TryWhole(jpegAt + 4, 4, isLittle: false, out var length)) return;
        AddPreview(offset, length);
        JpegSegments.Read(offset, this);
    }
}
