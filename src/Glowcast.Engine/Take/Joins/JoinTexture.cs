using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace Glowcast.Engine.Take;

/// <summary>What of a view can be compared with another: its brightness in stops, without what changes slowly from left to right (sky,
/// vignette, haze), and with strong edges softened so that one ridge does not outweigh all texture.</summary>
/// <remarks>docs/model.md, Take eq. 19.</remarks>
internal sealed class JoinTexture
{
    private const double FaintestLinear = 1 / 256.0;
    private const double SoftStops = 0.35;
    private const double SlowShare = 0.11;

    private static readonly float[] Stops =
        [.. Enumerable.Range(0, 256).Select(value => (float)Math.Log2(FromSrgb(value / 255.0) + FaintestLinear))];

    private JoinTexture(int wide, int high, float[] texture)
    {
        (Wide, High, Values) = (wide, high, texture);
        (Sums, Squares) = (Table(value => value), Table(value => value * value));
    }

    public int Wide { get; }

    public int High { get; }

    /// <summary>Row by row, in about units of <see cref="SoftStops"/>.</summary>
    public float[] Values { get; }

    private double[] Sums { get; }

    private double[] Squares { get; }

    public static JoinTexture Of(View view)
    {
        var stops = new float[view.Wide * view.High];
        for (var i = 0; i < stops.Length; i++) stops[i] = Stops[view.Gray[i]];
        return new JoinTexture(view.Wide, view.High, Softened(Smoothed(stops, view.Wide, view.High), view.Wide, view.High));
    }

    /// <summary>Half as large.</summary>
    public JoinTexture Halved()
    {
        var (wide, high) = (Wide / 2, High / 2);
        var half = new float[wide * high];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
            {
                var at = (2 * y * Wide) + (2 * x);
                half[(y * wide) + x] = (Values[at] + Values[at + 1] + Values[at + Wide] + Values[at + Wide + 1]) / 4;
            }
        return new JoinTexture(wide, high, half);
    }

    /// <summary>Sum and sum of squares over a part.</summary>
    public (double Sum, double Squares) Over(int left, int top, int wide, int high) => (Over(Sums, left, top, wide, high), Over(Squares, left, top, wide, high));

    private double Over(double[] table, int left, int top, int wide, int high)
    {
        var stride = Wide + 1;
        return table[((top + high) * stride) + left + wide] - table[(top * stride) + left + wide] - table[((top + high) * stride) + left] + table[(top * stride) + left];
    }

    private double[] Table(Func<double, double> of)
    {
        var stride = Wide + 1;
        var table = new double[stride * (High + 1)];
        for (var y = 0; y < High; y++)
        {
            var line = 0.0;
            for (var x = 0; x < Wide; x++)
            {
                line += of(Values[(y * Wide) + x]);
                table[((y + 1) * stride) + x + 1] = table[(y * stride) + x + 1] + line;
            }
        }
        return table;
    }

    /// <summary>Padded to twice its size and laid out line after line, so that a product of two spectra is the sum of products at every shift.</summary>
    public Complex32[] Spectrum()
    {
        var padded = new Complex32[BitOperations.RoundUpToPowerOf2((uint)(4 * Wide * High))];
        for (var y = 0; y < High; y++)
            for (var x = 0; x < Wide; x++)
                padded[(y * 2 * Wide) + x] = Values[(y * Wide) + x];
        Fourier.Forward(padded, FourierOptions.NoScaling);
        return padded;
    }

    // 1 2 1 both ways.
    private static float[] Smoothed(float[] stops, int wide, int high)
    {
        var across = new float[stops.Length];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
                across[(y * wide) + x] = (stops[(y * wide) + Math.Max(0, x - 1)] + (2 * stops[(y * wide) + x]) + stops[(y * wide) + Math.Min(wide - 1, x + 1)]) / 4;
        var smooth = new float[stops.Length];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
                smooth[(y * wide) + x] = (across[(Math.Max(0, y - 1) * wide) + x] + (2 * across[(y * wide) + x]) + across[(Math.Min(high - 1, y + 1) * wide) + x]) / 4;
        return smooth;
    }

    private static float[] Softened(float[] stops, int wide, int high)
    {
        var reach = Math.Max(2, (int)Math.Round(SlowShare * Math.Max(wide, high)));
        var soft = new float[stops.Length];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
            {
                var (from, to) = (Math.Max(0, x - reach), Math.Min(wide - 1, x + reach));
                var sum = 0f;
                for (var near = from; near <= to; near++) sum += stops[(y * wide) + near];
                var quick = (stops[(y * wide) + x] - (sum / (to - from + 1))) / SoftStops;
                soft[(y * wide) + x] = (float)(quick / Math.Sqrt(1 + (quick * quick)));
            }
        return soft;
    }

    private static double FromSrgb(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
}
