using System.Globalization;
using System.IO.Compression;
using BitMiracle.LibTiff.Classic;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>A GeoTIFF made for a test, written by LibTiff. Its heights are <see cref="Height"/>.</summary>
internal sealed record MadeTiff
{
    public const int Rows = 37;
    public const int Columns = 53;

    // The library keeps one extender for everybody.
    static MadeTiff() => Tiff.SetTagExtender(Extend);

    public string ByteOrder { get; init; } = "l";

    public bool Tiled { get; init; }

    public int BlockRows { get; init; } = 16;

    public SampleFormat Format { get; init; } = SampleFormat.INT;

    public int Bits { get; init; } = 16;

    public Compression Compression { get; init; } = Compression.NONE;

    public Predictor Predictor { get; init; } = Predictor.NONE;

    public string? NoData { get; init; } = "-9999";

    public string? Metadata { get; init; }

    public double[]? PixelScale { get; init; } = [30, 30, 0];

    public double[]? Tiepoint { get; init; } = [0, 0, 0, 500_000, 5_000_000, 0];

    public double[]? Matrix { get; init; }

    /// <summary>Which posts have a height; written as a mask of <see cref="MaskBits"/> bits in a directory after the heights. Null for none.</summary>
    public Func<int, int, bool>? Mask { get; init; }

    public int MaskBits { get; init; } = 1;

    public int MaskColumns { get; init; } = Columns;

    public short[] Keys { get; init; } = KeysOf((1024, 1), (1025, 1), (3072, 32632));

    public double[] KeyNumbers { get; init; } = [];

    public string KeyText { get; init; } = "";

    /// <summary>A smooth hill, whole metres where samples are whole; a hole at row 3, column 5.</summary>
    public Func<int, int, double> Height { get; init; } = (row, column) => row == 3 && column == 5 ? -9999 : 100 + (7 * row) + (3 * column);

    public static short[] KeysOf(params (int Key, int Value)[] codes) =>
        [1, 1, 0, (short)codes.Length, .. codes.SelectMany(code => new[] { (short)code.Key, (short)0, (short)1, unchecked((short)code.Value) })];

    /// <summary>Keys of codes first, then keys whose numbers follow one another.</summary>
    public static short[] KeysOf((int Key, int Value)[] codes, params int[] numberKeys) =>
        [1, 1, 0, (short)(codes.Length + numberKeys.Length),
            .. codes.SelectMany(code => new[] { (short)code.Key, (short)0, (short)1, unchecked((short)code.Value) }),
            .. numberKeys.SelectMany((key, i) => new[] { (short)key, unchecked((short)34736), (short)1, (short)i })];

    public MemoryStream Write()
    {
        var stream = new MemoryStream();
        using (var tiff = Tiff.ClientOpen("made", "w" + ByteOrder, stream, new KeptOpen()))
        {
            Describe(tiff);
            Place(tiff);
            if (Tiled) WriteTiles(tiff);
            else WriteStrips(tiff);
            if (Mask is not null) WriteMask(tiff, Mask);
        }
        stream.Position = 0;
        return stream;
    }

    private void Describe(Tiff tiff)
    {
        tiff.SetField(TiffTag.IMAGEWIDTH, Columns);
        tiff.SetField(TiffTag.IMAGELENGTH, Rows);
        tiff.SetField(TiffTag.SAMPLESPERPIXEL, 1);
        tiff.SetField(TiffTag.BITSPERSAMPLE, Bits);
        tiff.SetField(TiffTag.SAMPLEFORMAT, Format);
        tiff.SetField(TiffTag.PHOTOMETRIC, Photometric.MINISBLACK);
        tiff.SetField(TiffTag.PLANARCONFIG, PlanarConfig.CONTIG);
        tiff.SetField(TiffTag.COMPRESSION, Compression);
        if (Predictor != Predictor.NONE) tiff.SetField(TiffTag.PREDICTOR, Predictor);
        if (Tiled)
        {
            tiff.SetField(TiffTag.TILEWIDTH, 32);
            tiff.SetField(TiffTag.TILELENGTH, BlockRows);
        }
        else
        {
            tiff.SetField(TiffTag.ROWSPERSTRIP, BlockRows);
        }
    }

    private void Place(Tiff tiff)
    {
        if (PixelScale is not null) tiff.SetField((TiffTag)33550, PixelScale.Length, PixelScale);
        if (Tiepoint is not null) tiff.SetField((TiffTag)33922, Tiepoint.Length, Tiepoint);
        if (Matrix is not null) tiff.SetField((TiffTag)34264, Matrix.Length, Matrix);
        if (Keys.Length > 0) tiff.SetField((TiffTag)34735, Keys.Length, Keys);
        if (KeyNumbers.Length > 0) tiff.SetField((TiffTag)34736, KeyNumbers.Length, KeyNumbers);
        if (KeyText.Length > 0) tiff.SetField((TiffTag)34737, KeyText);
        if (NoData is not null) tiff.SetField((TiffTag)42113, NoData);
        if (Metadata is not null) tiff.SetField((TiffTag)42112, Metadata);
    }

    // The library writes some predictors wrongly against the machine's byte order; those are written here, by the specification.
    private bool IsFoldedHere => ByteOrder == "b" && Predictor != Predictor.NONE && Compression is Compression.DEFLATE or Compression.ADOBE_DEFLATE;

    private byte[] Folded(IEnumerable<int> rows, int left, int count)
    {
        var stream = new MemoryStream();
        using (var zlib = new ZLibStream(stream, CompressionLevel.Fastest, leaveOpen: true))
            foreach (var row in rows) zlib.Write(Predicted(Samples(Math.Min(row, Rows - 1), left, count)));
        return stream.ToArray();
    }

    // TIFF 6.0, section 14, and Adobe Photoshop TIFF Technical Note 3 (2005); big-endian.
    private byte[] Predicted(byte[] row)
    {
        var size = Bits / 8;
        var count = row.Length / size;
        var result = new byte[row.Length];
        if (Predictor == Predictor.HORIZONTAL)
        {
            ulong Value(int i) => i < 0 ? 0 : size == 2 ? BitConverter.ToUInt16(row, i * 2) : BitConverter.ToUInt32(row, i * 4);
            for (var i = 0; i < count; i++)
                for (var part = 0; part < size; part++) result[(i * size) + part] = (byte)(unchecked(Value(i) - Value(i - 1)) >> (8 * (size - 1 - part)));
            return result;
        }
        for (var i = 0; i < count; i++)
            for (var part = 0; part < size; part++) result[(part * count) + i] = row[(i * size) + size - 1 - part];
        for (var i = result.Length - 1; i > 0; i--) result[i] -= result[i - 1];
        return result;
    }

    private void WriteStrips(Tiff tiff)
    {
        for (var top = 0; IsFoldedHere && top < Rows; top += BlockRows)
        {
            var bytes = Folded(Enumerable.Range(top, Math.Min(BlockRows, Rows - top)), 0, Columns);
            Assert.Equal(bytes.Length, tiff.WriteRawStrip(top / BlockRows, bytes, bytes.Length));
        }
        if (IsFoldedHere) return;
        for (var row = 0; row < Rows; row++)
            Assert.True(tiff.WriteScanline(Samples(row, 0, Columns), row));
    }

    private void WriteTiles(Tiff tiff)
    {
        var tile = 0;
        for (var top = 0; top < Rows; top += BlockRows)
        {
            for (var left = 0; left < Columns; left += 32)
            {
                if (IsFoldedHere)
                {
                    var folded = Folded(Enumerable.Range(top, BlockRows), left, 32);
                    Assert.Equal(folded.Length, tiff.WriteRawTile(tile++, folded, folded.Length));
                    continue;
                }
                var bytes = Enumerable.Range(top, BlockRows).SelectMany(row => Samples(Math.Min(row, Rows - 1), left, 32)).ToArray();
                Assert.True(tiff.WriteEncodedTile(tile++, bytes, bytes.Length) >= 0);
            }
        }
    }

    private void WriteMask(Tiff tiff, Func<int, int, bool> mask)
    {
        Assert.True(tiff.WriteDirectory());
        tiff.SetField(TiffTag.SUBFILETYPE, FileType.MASK);
        tiff.SetField(TiffTag.IMAGEWIDTH, MaskColumns);
        tiff.SetField(TiffTag.IMAGELENGTH, Rows);
        tiff.SetField(TiffTag.SAMPLESPERPIXEL, 1);
        tiff.SetField(TiffTag.BITSPERSAMPLE, MaskBits);
        tiff.SetField(TiffTag.PHOTOMETRIC, Photometric.MASK);
        tiff.SetField(TiffTag.COMPRESSION, Compression);
        tiff.SetField(TiffTag.ROWSPERSTRIP, 5);
        for (var row = 0; row < Rows; row++)
        {
            var line = new byte[((MaskColumns * MaskBits) + 7) / 8];
            for (var column = 0; column < MaskColumns; column++)
            {
                if (!mask(row, column)) continue;
                if (MaskBits == 1) line[column / 8] |= (byte)(0x80 >> (column % 8));
                else line[column * MaskBits / 8] = 255;
            }
            Assert.True(tiff.WriteScanline(line, row));
        }
    }

    private byte[] Samples(int row, int left, int count) =>
        [.. Enumerable.Range(left, count).SelectMany(column => Sample(Height(row, Math.Min(column, Columns - 1))))];

    private byte[] Sample(double height) => (Format, Bits) switch
    {
        (SampleFormat.INT, 16) => BitConverter.GetBytes((short)height),
        (SampleFormat.UINT, 16) => BitConverter.GetBytes((ushort)height),
        (SampleFormat.INT, 32) => BitConverter.GetBytes((int)height),
        (SampleFormat.UINT, 32) => BitConverter.GetBytes((uint)height),
        (SampleFormat.IEEEFP, 32) => BitConverter.GetBytes((float)height),
        (SampleFormat.IEEEFP, 64) => BitConverter.GetBytes(height),
        (_, 8) => [(byte)height],
        var other => throw new NotSupportedException(string.Create(CultureInfo.InvariantCulture, $"{other}")),
    };

    private static void Extend(Tiff tiff)
    {
        static TiffFieldInfo Many(int tag, TiffType type) => new((TiffTag)tag, -1, -1, type, FieldBit.Custom, true, true, "made " + tag);
        static TiffFieldInfo Text(int tag) => new((TiffTag)tag, -1, -1, TiffType.ASCII, FieldBit.Custom, true, false, "made " + tag);
        TiffFieldInfo[] fields =
        [
            Many(33550, TiffType.DOUBLE), Many(33922, TiffType.DOUBLE), Many(34264, TiffType.DOUBLE), Many(34735, TiffType.SHORT), Many(34736, TiffType.DOUBLE),
            Text(34737), Text(42112), Text(42113),
        ];
        tiff.MergeFieldInfo(fields, fields.Length);
    }

    private sealed class KeptOpen : TiffStream
    {
        public override void Close(object clientData)
        {
        }
    }
}
