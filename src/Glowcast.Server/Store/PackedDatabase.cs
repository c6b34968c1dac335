using System.Buffers.Binary;
using System.IO.Compression;

namespace Glowcast.Server.Store;

/// <summary>Judges the database in a backup by its first bytes, before any of it is written: sqlite.org/fileformat2.html, section 1.3.</summary>
internal static class PackedDatabase
{
    private const int HeaderBytes = 100;
    private const int PageSizeAt = 16;
    private const int PageCountAt = 28;
    private const int LargestPage = 65_536;

    /// <exception cref="InvalidDataException">It is no database, or of another length than it claims.</exception>
    public static void CheckHeader(ZipArchiveEntry packed)
    {
        using var source = packed.Open();
        var header = new byte[HeaderBytes];
        if (source.ReadAtLeast(header, HeaderBytes, throwOnEndOfStream: false) < HeaderBytes || !header.AsSpan().StartsWith("SQLite format 3\0"u8))
            throw new InvalidDataException($"Its {packed.FullName} is no database.");
        var pageSize = BinaryPrimitives.ReadUInt16BigEndian(header.AsSpan(PageSizeAt)) is > 1 and var size ? size : LargestPage;
        if ((long)pageSize * BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(PageCountAt)) != packed.Length)
            throw new InvalidDataException($"Its {packed.FullName} is of another length than it claims.");
    }
}
