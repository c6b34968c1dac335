using System.Buffers.Binary;
using System.Text;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The tags of a TIFF file's first full-resolution image, checked against the file's length before anything
/// is believed: no tag has more values than the file has bytes.</summary>
/// <remarks>TIFF revision 6.0 (Adobe 1992), and BigTIFF. Overviews and masks (NewSubfileType) are passed over.</remarks>
internal sealed class TiffDirectory
{
    private const int MostImages = 1000;

    private readonly FileBytes bytes;
    private readonly Dictionary<int, Entry> entries;

    private TiffDirectory(FileBytes bytes, long offset, Dictionary<int, Entry> entries) => (this.bytes, Offset, this.entries) = (bytes, offset, entries);

    /// <summary>Where it lies in the file.</summary>
    public long Offset { get; }

    public long FileLength => bytes.Length;

    /// <exception cref="BadInputException">Not a TIFF file, cut off, or without a full-resolution image.</exception>
    public static TiffDirectory OfFirstFullImage(Stream stream, string fileName)
    {
        var bytes = FileBytes.Open(stream, fileName);
        var seen = new HashSet<long>();
        for (var offset = bytes.FirstDirectory; offset != 0;)
        {
            if (!seen.Add(offset)) throw bytes.Fault("Its image directories run in a circle; the file is damaged.");
            if (seen.Count > MostImages) throw bytes.Fault($"Has more than {MostImages} images; one with heights is wanted.");
            var entries = ReadEntries(bytes, offset, out var next);
            var directory = new TiffDirectory(bytes, offset, entries);
            if ((directory.Whole(TiffTag.NewSubfileType) & 0b101) == 0) return directory;
            offset = next;
        }
        throw bytes.Fault("Holds no image of full resolution.");
    }

    public bool Has(TiffTag tag) => entries.ContainsKey((int)tag);

    /// <summary>One whole number, or the fallback where the tag is missing.</summary>
    public long Whole(TiffTag tag, long fallback = 0)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return fallback;
        return entry.Count >= 1 ? WholeAt(entry, 0) : throw bytes.Fault($"Its tag {tag} is empty.");
    }

    /// <summary>All whole numbers of a tag; none where it is missing.</summary>
    public long[] Wholes(TiffTag tag)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return [];
        var values = new long[entry.Count];
        for (var i = 0; i < values.Length; i++) values[i] = WholeAt(entry, i);
        return values;
    }

    /// <summary>All numbers of a tag of doubles; none where it is missing.</summary>
    public double[] Doubles(TiffTag tag)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return [];
        if (entry.Type != EntryType.Double) throw bytes.Fault($"Its tag {tag} does not hold 64-bit numbers.");
        var values = new double[entry.Count];
        for (var i = 0; i < values.Length; i++) values[i] = BitConverter.Int64BitsToDouble(bytes.At(entry.At + (8L * i), 8));
        return values;
    }

    /// <summary>The text of a tag without its closing zeros; null where it is missing.</summary>
    public string? Text(TiffTag tag)
    {
        if (!entries.TryGetValue((int)tag, out var entry)) return null;
        if (entry.Type != EntryType.Ascii) throw bytes.Fault($"Its tag {tag} is not text.");
        return Encoding.Latin1.GetString(bytes.Span(entry.At, entry.Count)).TrimEnd('\0');
    }

    private long WholeAt(Entry entry, int index)
    {
        var size = SizeOf(entry.Type);
        return entry.Type is EntryType.Byte or EntryType.Short or EntryType.Long or EntryType.Long8 or EntryType.Directory or EntryType.Directory8
            ? bytes.At(entry.At + ((long)index * size), size)
            : throw bytes.Fault($"A tag that counts something holds values of type {(int)entry.Type}.");
    }

    private static Dictionary<int, Entry> ReadEntries(FileBytes bytes, long offset, out long next)
    {
        var (countSize, entrySize, pointer) = bytes.IsBig ? (8, 20, 8) : (2, 12, 4);
        var count = bytes.At(offset, countSize);
        if (count < 0 || count > (bytes.Length - offset) / entrySize) throw bytes.Fault($"Claims {count} tags, which do not fit into its {bytes.Length} bytes.");
        var entries = new Dictionary<int, Entry>();
        for (var i = 0; i < count; i++)
        {
            var at = offset + countSize + ((long)i * entrySize);
            var tag = (int)bytes.At(at, 2);
            var entry = new Entry((EntryType)bytes.At(at + 2, 2), bytes.At(at + 4, pointer), at + 4 + pointer);
            var size = SizeOf(entry.Type);
            if (entry.Count < 0 || entry.Count > bytes.Length / Math.Max(size, 1))
                throw bytes.Fault($"Its tag {tag} claims {entry.Count} values, which do not fit into its {bytes.Length} bytes.");
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

        public long At(long offset, int size)
        {
            var value = Span(offset, size);
            if (isLittle) Array.Reverse(value);
            var number = 0L;
            foreach (var part in value) number = (number << 8) | part;
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
