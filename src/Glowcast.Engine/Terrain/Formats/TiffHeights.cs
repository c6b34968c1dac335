using System.Numerics;
using System.Runtime.InteropServices;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Unfolds the samples of a TIFF image into heights in metres, one tile or row after another.</summary>
/// <param name="directory">Where the image's tags lie in the stream.</param>
/// <param name="mask">Which of the samples are heights; null where all are.</param>
internal sealed class TiffHeights(Stream stream, long directory, TiffLayout layout, TiffMask? mask, GeoTiffHeightScale scale, string fileName)
{
    // A real number in text can miss its own 32-bit form.
    private readonly double hole = layout.Sample == SampleKind.Float32 ? (float)scale.NoData : scale.NoData;

    /// <summary>Memory that reading needs besides the heights.</summary>
    public long ReadingBytes => layout.UnfoldingBytes + (mask?.ReadingBytes ?? 0);

    /// <param name="window">Of the image's own rows and columns.</param>
    /// <exception cref="BadInputException">The samples cannot be unfolded.</exception>
    public void Read(GridWindow window, TakeHeights take)
    {
        var heights = new float[layout.BlockColumns];
        var ground = mask?.Read();
        TiffBlocks.Read(stream, directory, layout, window, fileName, (row, column, columns, samples) =>
        {
            var piece = heights.AsSpan(0, columns);
            if (samples.IsEmpty) piece.Fill(float.NaN);
            else ToMetres(samples, piece);
            ground?.PunchHoles(row, column, piece);
            take(row, column, piece);
        });
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
}
