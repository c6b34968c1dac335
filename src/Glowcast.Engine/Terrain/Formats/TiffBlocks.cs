using System.Globalization;
using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Unfolds the samples of a TIFF image, one tile or row after another.</summary>
internal static class TiffBlocks
{
    static TiffBlocks() => Tiff.SetErrorHandler(new Complaints());

    /// <param name="directory">Where the image's tags lie in the stream; they have been checked.</param>
    /// <param name="window">Of the image's rows and columns; blocks outside it are passed over.</param>
    /// <param name="take">Gets each piece of a row.</param>
    /// <exception cref="BadInputException">The samples cannot be unfolded.</exception>
    public static void Read(Stream stream, long directory, TiffLayout layout, GridWindow window, string fileName, TakeSamples take)
    {
        Complaints.Last = null;
        stream.Position = 0;
        try
        {
            // 'h': leave the directories alone; the one to read has been chosen and checked already.
            using var tiff = Tiff.ClientOpen(fileName, "rh", stream, new KeptOpen());
            if (tiff is null || !tiff.SetSubDirectory(directory)) throw Damaged(fileName);
            if (!(layout.IsTiled ? ReadTiles(tiff, layout, window, take) : ReadRows(tiff, layout, window, take))) throw Damaged(fileName);
        }
        catch (Exception fault) when (fault is not (BadInputException or OutOfMemoryException))
        {
            throw Damaged(fileName, fault.Message);
        }
    }

    private static bool ReadTiles(Tiff tiff, TiffLayout layout, GridWindow window, TakeSamples take)
    {
        var rowBytes = (int)layout.RowBytes(layout.BlockColumns);
        var tile = new byte[layout.BlockRows * rowBytes];
        for (var block = 0; block < layout.BlocksDown * layout.BlocksAcross; block++)
        {
            var place = layout.PlaceOf(block);
            if (place.Common(window).IsEmpty) continue;
            var isSparse = layout.IsSparse(block);
            if (!isSparse && tiff.ReadEncodedTile(block, tile, 0, tile.Length) != tile.Length) return false;
            for (var row = 0; row < place.Rows; row++)
                take(place.Top + row, place.Left, place.Columns, isSparse ? [] : tile.AsSpan(row * rowBytes, (int)layout.RowBytes(place.Columns)));
        }
        return true;
    }

    // A strip is unfolded from its first row on, so rows are read in order.
    private static bool ReadRows(Tiff tiff, TiffLayout layout, GridWindow window, TakeSamples take)
    {
        var line = new byte[layout.RowBytes(layout.Columns)];
        if (tiff.ScanlineSize() != line.Length) return false;
        for (var row = window.Top - (window.Top % layout.BlockRows); row < window.Bottom; row++)
        {
            var isSparse = layout.IsSparse(row / layout.BlockRows);
            if (!isSparse && !tiff.ReadScanline(line, row)) return false;
            take(row, 0, layout.Columns, isSparse ? [] : line);
        }
        return true;
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

/// <summary>Takes samples beside one another in one row.</summary>
/// <param name="columns">How many they are.</param>
/// <param name="samples">In the machine's byte order; empty where they were never written. Only good until the call returns.</param>
internal delegate void TakeSamples(int row, int column, int columns, ReadOnlySpan<byte> samples);
