using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>DTED levels 0, 1 and 2 (MIL-PRF-89020B): three headers, then one record for each column from west to east,
/// its heights from south to north as sign and magnitude, and a checksum.</summary>
/// <remarks>The vertical datum is EGM96 by either of the names that the standard gives it, E96 and MSL: of every elevation
/// it says that it is counted as the Earth Gravity Model 1996 determines. Cells of before 1996 that say MSL may lie a few
/// metres off. Some producers wrote two's complement instead. Read as sign and magnitude their negative heights lie below
/// −12,000 m, where no ground is; one such height, and the whole file is read as two's complement.</remarks>
internal sealed class DtedFormat : IGridFormat
{
    private const int HeaderBytes = 3428;
    private const int RecordHeadBytes = 8;
    private const int ChecksumBytes = 4;
    private const byte RecordMark = 0xAA;
    private const short Null = -32767;
    private const short Deepest = -12_000;

    public string Name => "DTED .dt0 .dt1 .dt2";

    public bool Recognises(string fileName) => fileName.Length > 4
        && fileName[^4..].ToUpperInvariant() is ".DT0" or ".DT1" or ".DT2";

    public GridSource Open(Stream stream, string fileName) => new Source(stream, Header.Read(stream, fileName), fileName);

    private sealed class Source : GridSource
    {
        private readonly Stream stream;

        public Source(Stream stream, Header header, string fileName)
            : base(fileName, header.Posts, header.VerticalDatum) => (this.stream, HeightError) = (stream, header.HeightError);

        public override long ReadingBytes => (2L * Posts.Rows * Posts.Columns) + (1 << 16);

        private protected override void ReadPieces(GridWindow window, TakeHeights take)
        {
            var raw = ReadColumns();
            var isComplement = Array.Exists(raw, value => SignAndMagnitude(value) is var height && height < Deepest && height != Null);
            var heights = new float[Posts.Columns];
            for (var row = window.Top; row < window.Bottom; row++)
            {
                for (var column = 0; column < heights.Length; column++) heights[column] = HeightOf(raw[(row * heights.Length) + column], isComplement);
                take(row, 0, heights);
            }
        }

        /// <summary>All records, as rows from north to south: one height tells how the whole file writes negative ones.</summary>
        private ushort[] ReadColumns()
        {
            var raw = new ushort[Posts.Rows * Posts.Columns];
            var record = new byte[RecordHeadBytes + (2 * Posts.Rows) + ChecksumBytes];
            stream.Position = HeaderBytes;
            for (var column = 0; column < Posts.Columns; column++)
            {
                stream.ReadExactly(record);
                MustBeRecord(record, column, Name);
                for (var fromSouth = 0; fromSouth < Posts.Rows; fromSouth++)
                    raw[((Posts.Rows - 1 - fromSouth) * Posts.Columns) + column] = BinaryPrimitives.ReadUInt16BigEndian(record.AsSpan(RecordHeadBytes + (2 * fromSouth)));
            }
            return raw;
        }
    }

    private static float HeightOf(ushort value, bool isComplement)
    {
        var height = isComplement ? unchecked((short)value) : SignAndMagnitude(value);
        return height == Null || height == short.MinValue ? float.NaN : height;
    }

    private static short SignAndMagnitude(ushort value) => (short)((value & 0x8000) == 0 ? value : -(value & 0x7FFF));

    private static void MustBeRecord(ReadOnlySpan<byte> record, int column, string fileName)
    {
        if (record[0] != RecordMark) throw new BadInputException(fileName, $"Its column {column} does not begin with AA (hexadecimal): it is damaged.");
        if (BinaryPrimitives.ReadUInt16BigEndian(record[4..]) is var says && says != column)
            throw new BadInputException(fileName, $"Its column {column} says that it is column {says}: it is damaged.");
        var sum = 0u;
        foreach (var part in record[..^ChecksumBytes]) sum += part;
        if (BinaryPrimitives.ReadUInt32BigEndian(record[^ChecksumBytes..]) is var checksum && checksum != sum)
            throw new BadInputException(fileName, $"Its column {column} adds up to {sum}, not to its checksum {checksum}: it is damaged.");
    }

    /// <summary>User header label, data set identification and accuracy record; only the numbers that place the heights.</summary>
    private sealed record Header(GridPosts Posts, string? VerticalDatum, HeightError HeightError)
    {
        private const double TenthsPerDegree = 36_000;

        public static Header Read(Stream stream, string fileName)
        {
            var bytes = new byte[HeaderBytes];
            stream.Position = 0;
            if (stream.ReadAtLeast(bytes, HeaderBytes, throwOnEndOfStream: false) < HeaderBytes || !bytes.AsSpan(0, 4).SequenceEqual("UHL1"u8))
                throw new BadInputException(fileName, $"Is not a DTED file: it does not begin with UHL1 and {HeaderBytes} bytes of headers.");
            var text = Encoding.Latin1.GetString(bytes);
            MustBeWgs84(text.Substring(224, 5).Trim(), fileName);
            var (west, south) = (Origin(text.Substring(4, 8), "EW", 180, fileName), Origin(text.Substring(12, 8), "NS", 90, fileName));
            var (stepX, stepY) = (Number(text.Substring(20, 4), fileName) / TenthsPerDegree, Number(text.Substring(24, 4), fileName) / TenthsPerDegree);
            var (columns, rows) = (Number(text.Substring(47, 4), fileName), Number(text.Substring(51, 4), fileName));
            var length = HeaderBytes + ((long)columns * (RecordHeadBytes + (2 * rows) + ChecksumBytes));
            if (stream.Length != length)
                throw new BadInputException(fileName, $"Has {stream.Length} bytes where {columns} columns of {rows} heights want {length}: it is cut off, or its header is wrong.");
            return new Header(
                new GridPosts(rows, columns, south + ((rows - 1) * stepY), west, stepY, stepX),
                text.Substring(221, 3).Trim() switch { "E96" or "MSL" => VerticalDatums.Egm96, "" => null, var other => other },
                HeightError.Stated(Accuracy(text.Substring(735, 4)), Accuracy(text.Substring(743, 4))) ?? HeightError.Usual);
        }

        // Whole metres; NA where the producer does not know.
        private static double? Accuracy(string text) => int.TryParse(text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var metres) ? metres : null;

        private static void MustBeWgs84(string datum, string fileName)
        {
            if (datum is not ("WGS84" or ""))
                throw new BadInputException(fileName, $"Is in the datum '{datum}'; WGS84 can be read.");
        }

        // DDDMMSSH: degrees, minutes, seconds and the hemisphere.
        private static double Origin(string text, string hemispheres, int most, string fileName)
        {
            var degrees = Number(text[..3], fileName) + (Number(text[3..5], fileName) / 60.0) + (Number(text[5..7], fileName) / 3600.0);
            if (!hemispheres.Contains(text[7], StringComparison.Ordinal) || degrees > most)
                throw new BadInputException(fileName, $"Has the origin '{text}', which must be like 0070000{hemispheres[0]}: degrees, minutes, seconds, and {hemispheres[0]} or {hemispheres[1]}.");
            return text[7] == hemispheres[0] ? degrees : -degrees;
        }

        private static int Number(string digits, string fileName) => int.TryParse(digits.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new BadInputException(fileName, $"Has '{digits}' in its header where a number must stand.");
    }
}
