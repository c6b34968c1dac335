namespace Glowcast.Engine.Weather;

/// <summary>Where in the air a field lies: one surface, or the layer between two (code table 4.5).</summary>
/// <param name="Type">Its code: 1 ground, 100 pressure, 103 height above ground …</param>
/// <param name="Value">In the unit of the table, Pa or m for instance; null where the file gives none.</param>
/// <param name="SecondType">Of the other surface of a layer; null where there is one surface only.</param>
public readonly record struct GribLevel(int Type, double? Value, int? SecondType, double? SecondValue)
{
    public const int Ground = 1;
    public const int CloudBase = 2;
    public const int CloudTop = 3;
    public const int Pressure = 100;
    public const int SeaLevel = 101;
    public const int OverSea = 102;
    public const int OverGround = 103;
    public const int Hybrid = 105;

    internal static GribLevel Of(Octets product) =>
        new(product.U8(23), Scaled(product, 24), product.U8(29) is not 255 and var second ? second : null, product.U8(29) == 255 ? null : Scaled(product, 30));

    private static double? Scaled(Octets product, int octet)
    {
        if (product.U8(octet) == 0xFF || product.U32(octet + 1) == uint.MaxValue) return null;
        var (scale, value) = (product.S8(octet), product.S32(octet + 1));
        return scale >= 0 ? value / Math.Pow(10, scale) : value * Math.Pow(10, -scale);
    }
}
