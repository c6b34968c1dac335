using System.Numerics;

namespace Glowcast.Field.Pictures;

/// <summary>A colour as screens show it.</summary>
internal readonly record struct Rgb(byte R, byte G, byte B)
{
    public string Hex => $"#{R:x2}{G:x2}{B:x2}";

    public Vector3 Vector => new(R, G, B);

    /// <summary>Rounded, and kept within what screens show.</summary>
    public static Rgb Of(Vector3 colour)
    {
        var whole = Vector3.Clamp(colour, Vector3.Zero, new Vector3(255)) + new Vector3(0.5f);
        return new Rgb((byte)whole.X, (byte)whole.Y, (byte)whole.Z);
    }

    public static Rgb FromHex(string hex) => new(Convert.ToByte(hex[1..3], 16), Convert.ToByte(hex[3..5], 16), Convert.ToByte(hex[5..7], 16));
}
