using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The mask that a TIFF file keeps for its image: where it is 0 there is no height (TIFF 6.0, NewSubfileType and
/// PhotometricInterpretation 4).</summary>
internal sealed class TiffMask
{
    private readonly Stream stream;
    private readonly long directory;
    private readonly TiffLayout layout;
    private readonly string fileName;

    /// <exception cref="BadInputException">It is of another size than its image, or of a kind that cannot be read.</exception>
    public TiffMask(Stream stream, TiffDirectory tags, TiffLayout image, string fileName)
    {
        (this.stream, this.fileName, directory) = (stream, fileName, tags.Offset);
        layout = Described(() => TiffLayout.OfMask(tags, fileName));
        if ((layout.Rows, layout.Columns) != (image.Rows, image.Columns))
            throw new BadInputException(fileName, $"Has a mask of {layout.Columns} × {layout.Rows} for heights of {image.Columns} × {image.Rows}; both must be of one size.");
    }

    public long ReadingBytes => layout.UnfoldingBytes + (layout.Rows * ((layout.Columns + 7L) / 8));

    /// <exception cref="BadInputException">It is damaged.</exception>
    public Ground Read()
    {
        var ground = new Ground(layout.Rows, layout.Columns);
        Described(() =>
        {
            TiffBlocks.Read(stream, directory, layout, new GridWindow(0, 0, layout.Columns, layout.Rows), fileName, (row, column, columns, samples) =>
            {
                for (var i = 0; i < columns && !samples.IsEmpty; i++)
                {
                    if (IsGround(samples, i)) ground.Add(row, column + i);
                }
            });
            return true;
        });
        return ground;
    }

    // Bits stand with the leftmost post in the highest one.
    private bool IsGround(ReadOnlySpan<byte> samples, int index) =>
        layout.Sample == SampleKind.Bit ? (samples[index >> 3] & (0x80 >> (index & 7))) != 0 : samples[index] != 0;

    private T Described<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (BadInputException bad)
        {
            throw new BadInputException([.. bad.Faults.Select(fault => new Fault(fileName, $"Its mask, which says where there is no height: {fault.Message}"))]);
        }
    }

    /// <summary>Posts of an image that have a height.</summary>
    internal sealed class Ground(int rows, int columns)
    {
        private readonly int stride = (columns + 7) / 8;
        private readonly byte[] bits = new byte[(long)rows * ((columns + 7) / 8)];

        public void Add(int row, int column) => bits[((long)row * stride) + (column >> 3)] |= (byte)(1 << (column & 7));

        /// <summary>Makes holes of all others in a piece of a row.</summary>
        public void PunchHoles(int row, int column, Span<float> heights)
        {
            for (var i = 0; i < heights.Length; i++)
            {
                if ((bits[((long)row * stride) + ((column + i) >> 3)] & (1 << ((column + i) & 7))) == 0) heights[i] = float.NaN;
            }
        }
    }
}
