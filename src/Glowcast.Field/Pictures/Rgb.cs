using System.Numerics;
using Glowcast.Engine.Sky;

namespace Glowcast.Field.Pictures;

/// <summary>A colour as screens show it.</summary>
internal readonly record struct Rgb(byte R, byte G, byte B)
{
    public string Hex => $"#{R:x2}{G:x2}{B:x2}";

    /// <summary>Rounded, and kept within what screens show.</summary>
    public static Rgb Of(Vector3 colour)
    {
        var whole = Vector3.Clamp(colour, Vector3.Zero, new Vector3(255)) + new Vector3(0.5f);
        return new Rgb((byte)whole.X, (byte)whole.Y, (byte)whole.Z);
    }

    /// <summary>The brightest colour of a hue that screens show; what lies outside their gamut is drawn to its edge.</summary>
    /// <remarks>Primaries and transfer curve of sRGB (IEC 61966-2-1).</remarks>
    public static Vector3 HueOf(Chromaticity colour)
    {
        var (x, z) = (colour.X / colour.Y, (1 - colour.X - colour.Y) / colour.Y);
        double[] linear =
        [
            Math.Max(0, (3.2406 * x) - 1.5372 - (0.4986 * z)),
            Math.Max(0, (-0.9689 * x) + 1.8758 + (0.0415 * z)),
            Math.Max(0, (0.0557 * x) - 0.2040 + (1.0570 * z)),
        ];
        var most = linear.Max();
        return new Vector3(Encoded(0), Encoded(1), Encoded(2)) * 255;

        float Encoded(int channel) => linear[channel] / most is var share && share <= 0.0031308
            ? (float)(12.92 * share)
            : (float)((1.055 * Math.Pow(share, 1 / 2.4)) - 0.055);
    }

    public static Rgb FromHex(string hex) => new(Convert.ToByte(hex[1..3], 16), Convert.ToByte(hex[3..5], 16), Convert.ToByte(hex[5..7], 16));
}
