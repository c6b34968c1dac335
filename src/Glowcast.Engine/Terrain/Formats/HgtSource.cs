using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace Glowcast.Engine.Terrain;

/// <summary>The heights of an SRTM tile, a few rows at a time.</summary>
internal sealed class HgtSource(Stream stream, string name, GridPosts posts) : GridSource(name, posts, VerticalDatums.Egm96)
{
    private const short Void = -32768;
    private const int RowsAtOnce = 16;

    /// <param name="stream">Only ever read onwards.</param>
    public static void ReadRows(Stream stream, GridPosts posts, TakeHeights take)
    {
        var samples = new short[RowsAtOnce * posts.Columns];
        var heights = new float[posts.Columns];
        for (var top = 0; top < posts.Rows; top += RowsAtOnce)
        {
            var rows = Math.Min(RowsAtOnce, posts.Rows - top);
            var read = samples.AsSpan(0, rows * posts.Columns);
            stream.ReadExactly(MemoryMarshal.AsBytes(read));
            if (BitConverter.IsLittleEndian) BinaryPrimitives.ReverseEndianness(read, read);
            for (var row = 0; row < rows; row++)
            {
                ToMetres(read.Slice(row * posts.Columns, posts.Columns), heights);
                take(top + row, 0, heights);
            }
        }
    }

    private protected override void ReadPieces(GridWindow window, TakeHeights take)
    {
        stream.Position = 0;
        ReadRows(stream, Posts, take);
    }

    private static void ToMetres(ReadOnlySpan<short> samples, Span<float> heights)
    {
        for (var i = 0; i < heights.Length; i++) heights[i] = samples[i] == Void ? float.NaN : samples[i];
    }
}
