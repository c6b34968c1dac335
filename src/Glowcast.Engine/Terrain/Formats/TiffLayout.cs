using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>How the samples of a TIFF image are laid out, checked so that reading them is bounded in memory and time.</summary>
internal sealed record TiffLayout
{
    // Deflate unfolds to 1032 times at the most, LZW to some 1370 times.
    private const long MostUnfolding = 1400;

    private const long MostBlockBytes = 1 << 27;

    // Of 16 × 16 posts each these hold more than a grid may.
    private const long MostBlocks = 1 << 21;

    private TiffLayout(TiffDirectory tags, SampleKind sample, string fileName)
    {
        Rows = Dimension(tags, TiffTag.ImageLength, fileName);
        Columns = Dimension(tags, TiffTag.ImageWidth, fileName);
        Sample = sample;
        if (Rows * RowBytes(Columns) > MostUnfolding * tags.FileLength)
            throw new BadInputException(fileName, $"Claims {Columns} × {Rows} heights, which its {tags.FileLength} bytes cannot hold: it is cut off, or its header is wrong.");
        IsTiled = tags.Has(TiffTag.TileWidth);
        BlockRows = IsTiled ? Dimension(tags, TiffTag.TileLength, fileName) : (int)Math.Clamp(tags.Whole(TiffTag.RowsPerStrip, Rows), 1, Rows);
        BlockColumns = IsTiled ? Dimension(tags, TiffTag.TileWidth, fileName) : Columns;
        MustHaveItsBlocks(tags, fileName);
        BlockBytes = tags.Wholes(IsTiled ? TiffTag.TileByteCounts : TiffTag.StripByteCounts);
    }

    public int Rows { get; }

    public int Columns { get; }

    public SampleKind Sample { get; }

    public bool IsTiled { get; }

    /// <summary>Rows of one tile or strip.</summary>
    public int BlockRows { get; }

    /// <summary>Columns of one tile; of a strip they are those of the image.</summary>
    public int BlockColumns { get; }

    public int BlocksAcross => ((Columns - 1) / BlockColumns) + 1;

    public int BlocksDown => ((Rows - 1) / BlockRows) + 1;

    /// <summary>Of each tile or strip, as it lies in the file; 0 for one that was never written.</summary>
    private long[] BlockBytes { get; }

    /// <summary>Where a tile lies in the image; what juts out is left out.</summary>
    public GridWindow PlaceOf(int block)
    {
        var (top, left) = (block / BlocksAcross * BlockRows, block % BlocksAcross * BlockColumns);
        return new GridWindow(left, top, Math.Min(BlockColumns, Columns - left), Math.Min(BlockRows, Rows - top));
    }

    /// <summary>A block that was never written holds no heights.</summary>
    public bool IsSparse(int block) => BlockBytes[block] == 0;

    /// <summary>Memory that unfolding needs besides the heights: the largest block as it lies in the file, a tile unfolded, and the lists of blocks.</summary>
    public long UnfoldingBytes => BlockBytes.Max() + (IsTiled ? BlockRows * RowBytes(BlockColumns) : 0) + RowBytes(Columns) + (4L * Columns) + (32L * BlockBytes.Length);

    /// <summary>Of so many samples beside one another, as they are unfolded.</summary>
    public long RowBytes(int columns) => (((long)columns * Sample.Bits()) + 7) / 8;

    /// <summary>Of a transparency mask (TIFF 6.0, PhotometricInterpretation 4): of one bit, or as some write it of eight.</summary>
    /// <inheritdoc cref="Of"/>
    public static TiffLayout OfMask(TiffDirectory tags, string fileName)
    {
        MustBeKnown(tags, fileName);
        var sample = tags.Whole(TiffTag.BitsPerSample, 1) switch
        {
            1 => SampleKind.Bit,
            8 => SampleKind.Byte,
            var bits => throw new BadInputException(fileName, $"Is of {bits} bits; masks of one bit or eight can be read."),
        };
        var layout = new TiffLayout(tags, sample, fileName);
        layout.MustFit(tags, fileName);
        return layout;
    }

    /// <exception cref="BadInputException">Anything but one sheet of whole or real numbers in a compression that is known here, or a claim that the file cannot bear out.</exception>
    public static TiffLayout Of(TiffDirectory tags, string fileName)
    {
        MustBeKnown(tags, fileName);
        var layout = new TiffLayout(tags, SampleOf(tags, fileName), fileName);
        layout.MustFit(tags, fileName);
        return layout;
    }

    private static void MustBeKnown(TiffDirectory tags, string fileName)
    {
        var faults = new Faults();
        if (tags.Whole(TiffTag.SamplesPerPixel, 1) is var bands and not 1)
            faults.Add(fileName, $"Has {bands} bands; a grid of heights has one. Extract it first.");
        if (tags.Whole(TiffTag.Compression, 1) is var compression and not (1 or 5 or 8 or 32773 or 32946))
            faults.Add(fileName, $"Is compressed by {CompressionName(compression)}; none, LZW, deflate and PackBits can be read.");
        if (tags.Whole(TiffTag.Predictor, 1) is var predictor and not (1 or 2 or 3))
            faults.Add(fileName, $"Has predictor {predictor}; 1, 2 and 3 can be read.");
        if (tags.Whole(TiffTag.Orientation, 1) is var orientation and not 1)
            faults.Add(fileName, $"Has orientation {orientation}; only 1, with the first row and column at the top left, can be read.");
        if (tags.Whole(TiffTag.Predictor, 1) == 2 && tags.Whole(TiffTag.BitsPerSample, 1) == 64)
            faults.Add(fileName, "Has predictor 2 on 64-bit numbers; 1 and 3 can be read there.");
        faults.ThrowIfAny();
    }

    private void MustHaveItsBlocks(TiffDirectory tags, string fileName)
    {
        var blocks = (long)BlocksAcross * BlocksDown;
        if (blocks > MostBlocks) throw new BadInputException(fileName, $"Is cut into {blocks} tiles or strips; {MostBlocks} can be read. Write it in larger ones.");
        var (sizes, places) = IsTiled
            ? (tags.CountOf(TiffTag.TileByteCounts), tags.CountOf(TiffTag.TileOffsets))
            : (tags.CountOf(TiffTag.StripByteCounts), tags.CountOf(TiffTag.StripOffsets));
        if (sizes != blocks || places != blocks)
            throw new BadInputException(fileName, $"Has {sizes} tiles or strips where its size wants {blocks}: its header is wrong.");
    }

    private void MustFit(TiffDirectory tags, string fileName)
    {
        var unfolded = BlockRows * RowBytes(BlockColumns);
        if (IsTiled && (unfolded > MostBlockBytes || unfolded > MostUnfolding * tags.FileLength))
            throw new BadInputException(fileName, $"Has tiles of {BlockColumns} × {BlockRows}, too large to be read.");
        if (BlockBytes.Any(bytes => bytes < 0 || bytes > tags.FileLength))
            throw new BadInputException(fileName, $"Has a tile or strip longer than the file's {tags.FileLength} bytes: it is cut off, or its header is wrong.");
    }

    private static int Dimension(TiffDirectory tags, TiffTag tag, string fileName) => tags.Whole(tag) is var size and >= 1 and < int.MaxValue
        ? (int)size
        : throw new BadInputException(fileName, $"Has {tag} {tags.Whole(tag)}; a whole number from 1 is right.");

    private static SampleKind SampleOf(TiffDirectory tags, string fileName) =>
        (tags.Whole(TiffTag.SampleFormat, 1), tags.Whole(TiffTag.BitsPerSample, 1)) switch
        {
            (1, 16) => SampleKind.UInt16,
            (2, 16) => SampleKind.Int16,
            (1, 32) => SampleKind.UInt32,
            (2, 32) => SampleKind.Int32,
            (3, 32) => SampleKind.Float32,
            (3, 64) => SampleKind.Float64,
            var (format, bits) => throw new BadInputException(
                fileName, $"Has samples of {bits} bits in format {format}; 16 and 32-bit whole numbers and 32 and 64-bit real numbers can be read."),
        };

    private static string CompressionName(long code) => code switch
    {
        2 or 3 or 4 => "a fax code",
        6 or 7 => "JPEG",
        34887 => "LERC",
        34925 => "LZMA",
        50000 => "Zstandard",
        50001 => "WebP",
        _ => $"method {code}",
    };
}

internal enum SampleKind
{
    Bit,
    Byte,
    Int16,
    UInt16,
    Int32,
    UInt32,
    Float32,
    Float64,
}

internal static class SampleKinds
{
    public static int Bits(this SampleKind kind) => kind switch
    {
        SampleKind.Bit => 1,
        SampleKind.Byte => 8,
        SampleKind.Int16 or SampleKind.UInt16 => 16,
        SampleKind.Float64 => 64,
        _ => 32,
    };
}
