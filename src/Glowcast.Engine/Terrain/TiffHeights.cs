using System.Globalization;
using System.Numerics;
using System.Runtime.InteropServices;
using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Unfolds the samples of a TIFF image into heights in metres.</summary>
/// <param name="noData">The raw sample that stands for no height; NaN for none.</param>
/// <param name="metresPerUnit">What one unit of a sample is worth [m].</param>
/// <param name="offsetM">The height of sample 0 [m].</param>
internal sealed class TiffHeights(TiffLayout layout, double noData, double metresPerUnit, double offsetM)
{
    // A real number in text can miss its own 32-bit form.
    private readonly double hole = layout.Sample == SampleKind.Float32 ? (float)noData : noData;

    static TiffHeights() => Tiff.SetErrorHandler(new Complaints());

    /// <exception cref="BadInputException">The samples cannot be unfolded.</exception>
    public float[] Read(Stream stream, long directory, string fileName)
    {
        var heights = new float[layout.Rows * layout.Columns];
        Complaints.Last = null;
        stream.Position = 0;
        try
        {
            // 'h': leave the directories alone; the one to read has been chosen and checked already.
            using var tiff = Tiff.ClientOpen(fileName, "rh", stream, new KeptOpen());
            if (tiff is null || !tiff.SetSubDirectory(directory)) throw Damaged(fileName);
            if (!(layout.IsTiled ? ReadTiles(tiff, heights) : ReadRows(tiff, heights))) throw Damaged(fileName);
            return heights;
        }
        catch (Exception fault) when (fault is not (BadInputException or OutOfMemoryException))
        {
            throw Damaged(fileName, fault.Message);
        }
    }

    private bool ReadTiles(Tiff tiff, float[] heights)
    {
        var size = layout.Sample.Bytes();
        var tile = new byte[layout.BlockRows * layout.BlockColumns * size];
        for (var block = 0; block < layout.BlocksDown * layout.BlocksAcross; block++)
        {
            var (top, left) = (block / layout.BlocksAcross * layout.BlockRows, block % layout.BlocksAcross * layout.BlockColumns);
            var columns = Math.Min(layout.BlockColumns, layout.Columns - left);
            var isSparse = layout.IsSparse(block);
            if (!isSparse && tiff.ReadEncodedTile(block, tile, 0, tile.Length) != tile.Length) return false;
            for (var row = 0; row < layout.BlockRows && top + row < layout.Rows; row++)
            {
                var target = heights.AsSpan(((top + row) * layout.Columns) + left, columns);
                if (isSparse) target.Fill(float.NaN);
                else ToMetres(tile.AsSpan(row * layout.BlockColumns * size, columns * size), target);
            }
        }
        return true;
    }

    // Strips are unfolded from their first row on, so rows are read in order.
    private bool ReadRows(Tiff tiff, float[] heights)
    {
        var line = new byte[layout.Columns * layout.Sample.Bytes()];
        if (tiff.ScanlineSize() != line.Length) return false;
        for (var row = 0; row < layout.Rows; row++)
        {
            var target = heights.AsSpan(row * layout.Columns, layout.Columns);
            if (layout.IsSparse(row / layout.BlockRows)) target.Fill(float.NaN);
            else if (tiff.ReadScanline(line, row)) ToMetres(line, target);
            else return false;
        }
        return true;
    }

    private void ToMetres(ReadOnlySpan<byte> samples, Span<float> target)
    {
        switch (layout.Sample)
        {
            case SampleKind.Int16: ToMetres<short>(samples, target); break;
            case SampleKind.UInt16: ToMetres<ushort>(samples, target); break;
            case SampleKind.Int32: ToMetres<int>(samples, target); break;
            case SampleKind.UInt32: ToMetres<uint>(samples, target); break;
            case SampleKind.Float32: ToMetres<float>(samples, target); break;
            default: ToMetres<double>(samples, target); break;
        }
    }

    private void ToMetres<T>(ReadOnlySpan<byte> samples, Span<float> target)
        where T : unmanaged, INumber<T>
    {
        var values = MemoryMarshal.Cast<byte, T>(samples);
        for (var i = 0; i < target.Length; i++)
        {
            var value = double.CreateTruncating(values[i]);
            target[i] = value == hole ? float.NaN : (float)((value * metresPerUnit) + offsetM);
        }
    }

    private static BadInputException Damaged(string fileName, string? why = null) =>
        new(fileName, $"Cannot be unfolded ({Complaints.Last ?? why ?? "for no stated reason"}): it is cut off, or damaged.");

    /// <summary>Keeps what the library has to say for our own refusal; by itself it would print it.</summary>
    private sealed class Complaints : TiffErrorHandler
    {
        [ThreadStatic]
        private static string? last;

        public static string? Last
        {
            get => last;
            set => last = value;
        }

        public override void ErrorHandler(Tiff tif, string method, string format, params object[] args) =>
            last ??= string.Format(CultureInfo.InvariantCulture, format, args);

        public override void WarningHandler(Tiff tif, string method, string format, params object[] args)
        {
        }
    }

    /// <summary>A stream that belongs to somebody else.</summary>
    private sealed class KeptOpen : TiffStream
    {
        public override void Close(object clientData)
        {
        }
    }
}
