using System.Globalization;
using System.Numerics;
using System.Runtime.InteropServices;
using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Unfolds the samples of a TIFF image into heights in metres, one tile or row after another.</summary>
/// <param name="directory">Where the image's tags lie in the stream.</param>
internal sealed class TiffHeights(Stream stream, long directory, TiffLayout layout, GeoTiffHeightScale scale, string fileName)
{
    // A real number in text can miss its own 32-bit form.
    private readonly double hole = layout.Sample == SampleKind.Float32 ? (float)scale.NoData : scale.NoData;

    static TiffHeights() => Tiff.SetErrorHandler(new Complaints());

    /// <param name="window">Of the image's own rows and columns.</param>
    /// <exception cref="BadInputException">The samples cannot be unfolded.</exception>
    public void Read(GridWindow window, TakeHeights take)
    {
        Complaints.Last = null;
        stream.Position = 0;
        try
        {
            // 'h': leave the directories alone; the one to read has been chosen and checked already.
            using var tiff = Tiff.ClientOpen(fileName, "rh", stream, new KeptOpen());
            if (tiff is null || !tiff.SetSubDirectory(directory)) throw Damaged();
            if (!(layout.IsTiled ? ReadTiles(tiff, window, take) : ReadRows(tiff, window, take))) throw Damaged();
        }
        catch (Exception fault) when (fault is not (BadInputException or OutOfMemoryException))
        {
            throw Damaged(fault.Message);
        }
    }

    private bool ReadTiles(Tiff tiff, GridWindow window, TakeHeights take)
    {
        var size = layout.Sample.Bytes();
        var tile = new byte[layout.BlockRows * layout.BlockColumns * size];
        var heights = new float[layout.BlockColumns];
        for (var block = 0; block < layout.BlocksDown * layout.BlocksAcross; block++)
        {
            var place = layout.PlaceOf(block);
            if (place.Common(window).IsEmpty) continue;
            var isSparse = layout.IsSparse(block);
            if (!isSparse && tiff.ReadEncodedTile(block, tile, 0, tile.Length) != tile.Length) return false;
            var piece = heights.AsSpan(0, place.Columns);
            piece.Fill(float.NaN);
            for (var row = 0; row < place.Rows; row++)
            {
                if (!isSparse) ToMetres(tile.AsSpan(row * layout.BlockColumns * size, place.Columns * size), piece);
                take(place.Top + row, place.Left, piece);
            }
        }
        return true;
    }

    // A strip is unfolded from its first row on, so rows are read in order.
    private bool ReadRows(Tiff tiff, GridWindow window, TakeHeights take)
    {
        var line = new byte[layout.Columns * layout.Sample.Bytes()];
        if (tiff.ScanlineSize() != line.Length) return false;
        var heights = new float[layout.Columns];
        for (var row = window.Top - (window.Top % layout.BlockRows); row < window.Bottom; row++)
        {
            if (layout.IsSparse(row / layout.BlockRows)) Array.Fill(heights, float.NaN);
            else if (tiff.ReadScanline(line, row)) ToMetres(line, heights);
            else return false;
            take(row, 0, heights);
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
            target[i] = value == hole ? float.NaN : (float)((value * scale.MetresPerUnit) + scale.OffsetM);
        }
    }

    private BadInputException Damaged(string? why = null) =>
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
