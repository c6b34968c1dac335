using System.Buffers.Binary;
using System.Text;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The tags of an image of a TIFF file, checked against the file's length, and against what a grid can need, before
/// anything is believed.</summary>
/// <remarks>TIFF revision 6.0 (Adobe 1992), and BigTIFF.</remarks>
internal sealed class TiffDirectory
{
    private const int MostImages = 1000;
    private const int MostTags = 4000;
    private const long MostTagBytes = 16L << 20;
    private const long MostBytesOfAllTags = 64L << 20;
    private const int MostTextBytes = 1 << 20;
    private const int MostDoubles = 100_000;
    private const int ReducedImage = 0b001;
    private const int MaskImage = 0b100;
    private const int TransparencyMask = 4;

    private readonly FileBytes bytes;
    private readonly Dictionary<int, Entry> entries;

    private TiffDirectory(FileBytes bytes, long offset, Dictionary<int, Entry> entries) => (this.bytes, Offset, this.entries) = (bytes, offset, entries);

    /// <summary>Where it lies in the file.</summary>
    public long Offset { get; }

    public long FileLength => bytes.Length;

    /// <summary>How much of the file its tags take.</summary>
    public long TagBytes => entries.Values.Sum(entry => entry.Count * SizeOf(entry.Type));

    private bool IsMask => (Whole(TiffTag.NewSubfileType) & MaskImage) != 0 || Whole(TiffTag.PhotometricInterpretation) == TransparencyMask;

    private bool IsReduced => (Whole(TiffTag.NewSubfileType) & ReducedImage) != 0;

    /// <summary>The first image of full resolution, and the mask that follows it, where there is one; overviews, and masks of
    /// overviews, are passed over (NewSubfileType).</summary>
    /// <exception cref="BadInputException">Not a TIFF file, cut off, or without a full-resolution image.</exception>
    public static (TiffDirectory Image, TiffDirectory? Mask) OfFirstFullImage(Stream stream, string fileName)
    {
        var bytes = FileBytes.Open(stream, fileName);
        TiffDirectory? image = null;
        foreach (var directory in In(bytes).Where(directory => !directory.IsReduced))
        {
            if (image is not null && directory.IsMask) return (image, directory);
            if (image is not null) break;
            if (!directory.IsMask) image = directory;
        }
        return (image ?? throw bytes.Fault("Holds no image of full resolution."), null);
    }

    private static IEnumerable<TiffDirectory> In(FileBytes bytes)
    {
        var seen = new HashSet<long>();
        for (var offset = bytes.FirstDirectory; offset != 0;)
        {
            if (!seen.Add(offset)) throw bytes.Fault("Its image directories run in a circle; the file is damaged.");
            if (seen.Count > MostImages) throw bytes.Fault($"Has more than {MostImages} images; one with heights is wanted.");
            var directory = new TiffDirectory(bytes, offset, ReadEntries(bytes, offset, out var next));
            yield return directory;
            offset = next;
        }
    }

    public bool Has(TiffTag tag) => entries.ContainsKey((int)tag);

    /// <summary>One whole number, or the fallback where the tag is missing.</summary>
    public long Whole(TiffTag tag, long fallback = 0)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return fallback;
        return entry.Count >= 1 ? WholeAt(entry, 0) : throw bytes.Fault($"Its tag {tag} is empty.");
    }

    /// <summary>How many values a tag has; 0 where it is missing.</summary>
    public long CountOf(TiffTag tag) => entries.TryGetValue((int)tag, out var entry) ? entry.Count : 0;

    /// <summary>All whole numbers of a tag; none where it is missing.</summary>
    public long[] Wholes(TiffTag tag)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return [];
        MustBeWhole(entry);
        var (size, raw) = (SizeOf(entry.Type), bytes.Span(entry.At, entry.Count * SizeOf(entry.Type)));
        var values = new long[entry.Count];
        for (var i = 0; i < values.Length; i++) values[i] = bytes.WholeOf(raw.AsSpan(i * size, size));
        return values;
    }

    /// <summary>All numbers of a tag of doubles; none where it is missing.</summary>
    public double[] Doubles(TiffTag tag)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return [];
        if (entry.Type != EntryType.Double) throw bytes.Fault($"Its tag {tag} does not hold 64-bit numbers.");
        if (entry.Count > MostDoubles) throw bytes.Fault($"Its tag {tag} holds {entry.Count} numbers; a grid needs a few.");
        var raw = bytes.Span(entry.At, 8 * entry.Count);
        var values = new double[entry.Count];
        for (var i = 0; i < values.Length; i++) values[i] = BitConverter.Int64BitsToDouble(bytes.WholeOf(raw.AsSpan(8 * i, 8)));
        return values;
    }

    /// <summary>The text of a tag without its closing zeros; null where it is missing.</summary>
    public string? Text(TiffTag tag)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return null;
        if (entry.Type != EntryType.Ascii) throw bytes.Fault($"Its tag {tag} is not text.");
        if (entry.Count > MostTextBytes) throw bytes.Fault($"Its tag {tag} holds {entry.Count} bytes of text; {MostTextBytes} can be read.");
        return Encoding.Latin1.GetString(bytes.Span(entry.At, entry.Count)).TrimEnd('\0');
    }

    private long WholeAt(Entry entry, int index)
    {
        MustBeWhole(entry);
        var size = SizeOf(entry.Type);
        return bytes.At(entry.At + ((long)index * size), size);
    }

    private void MustBeWhole(Entry entry)
    {
        if (entry.Type is not (EntryType.Byte or EntryType.Short or EntryType.Long or EntryType.Long8 or EntryType.Directory or EntryType.Directory8))
            throw bytes.Fault($"A tag that counts something holds values of type {(int)entry.Type}.");
    }

    private static Dictionary<int, Entry> ReadEntries(FileBytes bytes, long offset, out long next)
    {
        var (countSize, entrySize, pointer) = bytes.IsBig ? (8, 20, 8) : (2, 12, 4);
        var count = bytes.At(offset, countSize);
        if (count < 0 || count > (bytes.Length - offset) / entrySize) throw bytes.Fault($"Claims {count} tags, which do not fit into its {bytes.Length} bytes.");
        if (count > MostTags) throw bytes.Fault($"Has {count} tags; a grid has a few dozen, and {MostTags} can be read.");
        var entries = new Dictionary<int, Entry>();
        var together = 0L;
        for (var i = 0; i < count; i++)
        {
            var at = offset + countSize + ((long)i * entrySize);
            var tag = (int)bytes.At(at, 2);
            var entry = new Entry((EntryType)bytes.At(at + 2, 2), bytes.At(at + 4, pointer), at + 4 + pointer);
            var size = SizeOf(entry.Type);
            if (entry.Count < 0 || entry.Count > bytes.Length / Math.Max(size, 1))
                throw bytes.Fault($"Its tag {tag} claims {entry.Count} values, which do not fit into its {bytes.Length} bytes.");
            together += entry.Count * size;
            if (entry.Count * size > MostTagBytes || together > MostBytesOfAllTags)
                throw bytes.Fault($"Its tag {tag} holds {entry.Count * size} bytes; {MostTagBytes} can be read, and {MostBytesOfAllTags} of all tags.");
            if (entry.Count * size > pointer) entry = entry with { At = bytes.At(entry.At, pointer) };
            bytes.MustHold(entry.At, entry.Count * size);
            entries.TryAdd(tag, entry);
        }
        next = bytes.At(offset + countSize + (count * entrySize), pointer);
        return entries;
    }

    private static int SizeOf(EntryType type) => type switch
    {
        EntryType.Byte or EntryType.Ascii or EntryType.SignedByte or EntryType.Undefined => 1,
        EntryType.Short or EntryType.SignedShort => 2,
        EntryType.Long or EntryType.SignedLong or EntryType.Float or EntryType.Directory => 4,
        EntryType.Rational or EntryType.SignedRational or EntryType.Double or EntryType.Long8 or EntryType.SignedLong8 or EntryType.Directory8 => 8,
        _ => 0,
    };

    private enum EntryType
    {
        Byte = 1,
        Ascii,
        Short,
        Long,
        Rational,
        SignedByte,
        Undefined,
        SignedShort,
        SignedLong,
        SignedRational,
        Float,
        Double,
        Directory,
        Long8 = 16,
        SignedLong8,
        Directory8,
    }

    private readonly record struct Entry(EntryType Type, long Count, long At);

    /// <summary>Numbers in the file's byte order, never from beyond its end.</summary>
    private sealed class FileBytes(Stream stream, string fileName, bool isLittle, bool isBig)
    {
        public bool IsBig => isBig;

        public long Length { get; } = stream.Length;

        public long FirstDirectory => isBig ? At(8, 8) : At(4, 4);

        public static FileBytes Open(Stream stream, string fileName)
        {
            Span<byte> head = stackalloc byte[4];
            stream.Position = 0;
            var read = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
            var isLittle = read == 4 && head[0] == 'I' && head[1] == 'I';
            if (read < 4 || (!isLittle && !(head[0] == 'M' && head[1] == 'M')))
                throw new BadInputException(fileName, "Is not a TIFF file: it does not begin with II or MM.");
            var version = isLittle ? BinaryPrimitives.ReadUInt16LittleEndian(head[2..]) : BinaryPrimitives.ReadUInt16BigEndian(head[2..]);
            return version is 42 or 43
                ? new FileBytes(stream, fileName, isLittle, version == 43)
                : throw new BadInputException(fileName, $"Is no TIFF file of version 42 or 43; it says {version}.");
        }

        public long At(long offset, int size) => WholeOf(Span(offset, size));

        public long WholeOf(ReadOnlySpan<byte> value)
        {
            var number = 0L;
            for (var i = 0; i < value.Length; i++) number = (number << 8) | value[isLittle ? value.Length - 1 - i : i];
            return number;
        }

        public byte[] Span(long offset, long size)
        {
            MustHold(offset, size);
            var value = new byte[size];
            stream.Position = offset;
            stream.ReadExactly(value);
            return value;
        }

        public void MustHold(long offset, long size)
        {
            if (offset < 0 || size < 0 || offset > Length - size) throw Fault($"Points to byte {offset}, beyond its end at {Length}: it is cut off, or damaged.");
        }

        public BadInputException Fault(string message) => new(fileName, message);
    }
}

/// <summary>The tags of TIFF 6.0, GeoTIFF (OGC 19-008r4) and GDAL that heights need.</summary>
internal enum TiffTag
{
    NewSubfileType = 254,
    ImageWidth = 256,
    ImageLength = 257,
    BitsPerSample = 258,
    Compression = 259,
    PhotometricInterpretation = 262,
    StripOffsets = 273,
    Orientation = 274,
    SamplesPerPixel = 277,
    RowsPerStrip = 278,
    StripByteCounts = 279,
    Predictor = 317,
    TileWidth = 322,
    TileLength = 323,
    TileOffsets = 324,
    TileByteCounts = 325,
    SampleFormat = 339,
    ModelPixelScale = 33550,
    ModelTiepoint = 33922,
    ModelTransformation = 34264,
    GeoKeyDirectory = 34735,
    GeoDoubleParams = 34736,
    GeoAsciiParams = 34737,
    GdalMetadata = 42112,
    GdalNoData = 42113,
}
