namespace Glowcast.Engine.Take;

/// <summary>Bytes from anywhere in a picture file, fetched a page at a time; after <see cref="MostPages"/> of them there are no more.</summary>
/// <remarks>The tags of a real file lie on a few dozen pages, however large it is.</remarks>
/// <param name="file">Can be sought.</param>
internal sealed class PictureBytes(Stream file)
{
    public const int PageBytes = 4096;

    /// <summary>Of one file: 8 MiB.</summary>
    public const int MostPages = 2048;

    private readonly byte[] page = new byte[PageBytes];
    private long pageAt = -1;
    private int pageLength;

    public long Length { get; } = file.Length;

    public int PagesRead { get; private set; }

    /// <returns>False where the file ends before, or no more of it is read.</returns>
    public bool TryRead(long offset, Span<byte> target)
    {
        if (offset < 0 || offset > Length - target.Length) return false;
        while (!target.IsEmpty)
        {
            if (!TurnTo(offset - (offset % PageBytes))) return false;
            var at = (int)(offset - pageAt);
            var count = Math.Min(target.Length, pageLength - at);
            if (count <= 0) return false;
            page.AsSpan(at, count).CopyTo(target);
            target = target[count..];
            offset += count;
        }
        return true;
    }

    /// <summary>A whole number without sign of at most eight bytes.</summary>
    public bool TryWhole(long offset, int size, bool isLittle, out long number)
    {
        Span<byte> bytes = stackalloc byte[8];
        number = 0;
        if (!TryRead(offset, bytes[..size])) return false;
        number = WholeOf(bytes[..size], isLittle);
        return number >= 0;
    }

    public static long WholeOf(ReadOnlySpan<byte> bytes, bool isLittle)
    {
        var number = 0L;
        for (var i = 0; i < bytes.Length; i++) number = (number << 8) | bytes[isLittle ? bytes.Length - 1 - i : i];
        return number;
    }

    private bool TurnTo(long at)
    {
        if (at == pageAt) return true;
        if (PagesRead == MostPages) return false;
        PagesRead++;
        file.Position = at;
        (pageAt, pageLength) = (at, file.ReadAtLeast(page, PageBytes, throwOnEndOfStream: false));
        return true;
    }
}
