using System.Buffers.Binary;

namespace Glowcast.Engine.Weather;

/// <summary>Writes fields, or the part of them about some places, as messages of simple packing (5.0) that read back equal.</summary>
/// <remarks>Values are packed with the reference and scale that they were read with. Floating-point fields that no whole numbers of 32 bits can hold stay floating point (5.4).</remarks>
internal static class GribWriter
{
    private const int MostBits = 32;

    /// <summary>Null where none of the places lies in the grid of the field.</summary>
    public static byte[]? Cut(GribField field, IEnumerable<Measures.GeoPoint> places)
    {
        if (GridPatch.About(field.Grid, places) is not { } patch) return null;
        var values = patch.Exact(field.Values());
        var packed = Packed(field.Packing, [.. values.Where(double.IsFinite)]);
        var message = new List<byte>();
        message.AddRange([.. "GRIB"u8, 0, 0, (byte)field.Product.Discipline, 2, .. new byte[8]]);
        message.AddRange(Identification(field.Product));
        message.AddRange(patch.Section());
        message.AddRange(field.ProductSection);
        message.AddRange(packed.Section);
        message.AddRange(Bitmap(values));
        message.AddRange(Section(7, packed.Data));
        message.AddRange("7777"u8);
        var bytes = message.ToArray();
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(8), (ulong)bytes.Length);
        return bytes;
    }

    private static byte[] Identification(GribProduct product)
    {
        var at = product.Reference.InUtc();
        return Section(1, [.. Two(product.Centre), 0, 0, 2, 0, 1, .. Two(at.Year), (byte)at.Month, (byte)at.Day, (byte)at.Hour, (byte)at.Minute, (byte)at.Second, 0, 1]);
    }

    private static byte[] Bitmap(double[] values)
    {
        if (Array.TrueForAll(values, double.IsFinite)) return Section(6, [255]);
        var bits = new byte[(values.Length + 7) / 8];
        for (var i = 0; i < values.Length; i++)
            if (double.IsFinite(values[i])) bits[i >> 3] |= (byte)(0x80 >> (i & 7));
        return Section(6, [0, .. bits]);
    }

    private static (byte[] Section, byte[] Data) Packed(GribPacking read, double[] values)
    {
        var scale = read.Template == 4 ? ScaleOf(values) : (read.Reference, read.BinaryScale, read.DecimalScale);
        if (scale is { } fitting && WholeNumbers(values, fitting) is { } whole) return Simple(whole, fitting);
        var data = new byte[8 * values.Length];
        for (var i = 0; i < values.Length; i++) BinaryPrimitives.WriteDoubleBigEndian(data.AsSpan(8 * i), values[i]);
        return (Section(5, [.. Four((uint)values.Length), 0, 4, 2]), data);
    }

    private static (byte[] Section, byte[] Data) Simple(ulong[] whole, (double Reference, int Binary, int Decimal) scale)
    {
        var bits = whole.Length == 0 ? 0 : 64 - System.Numerics.BitOperations.LeadingZeroCount(whole.Max());
        var reference = new byte[4];
        BinaryPrimitives.WriteSingleBigEndian(reference, (float)scale.Reference);
        var section = Section(5, [.. Four((uint)whole.Length), 0, 0, .. reference, .. Two(Signed(scale.Binary)), .. Two(Signed(scale.Decimal)), (byte)bits, 0]);
        var data = new byte[(((long)bits * whole.Length) + 7) / 8];
        for (var (i, at) = (0, 0L); i < whole.Length; i++)
            for (var bit = bits - 1; bit >= 0; bit--, at++)
                if (((whole[i] >> bit) & 1) != 0) data[at >> 3] |= (byte)(0x80 >> (int)(at & 7));
        return (section, data);
    }

    /// <summary>The whole numbers that give just these values; null where none do.</summary>
    private static ulong[]? WholeNumbers(double[] values, (double Reference, int Binary, int Decimal) scale)
    {
        var packing = new GribPacking(0, values.Length, MostBits, scale.Reference, scale.Binary, scale.Decimal, []);
        var whole = new ulong[values.Length];
        for (var i = 0; i < values.Length; i++)
        {
            var number = Math.Round(((values[i] * Math.Pow(10, scale.Decimal)) - scale.Reference) * Math.ScaleB(1, -scale.Binary));
            if (number is not (>= 0 and <= uint.MaxValue) || packing.Value(number) != values[i]) return null;
            whole[i] = (ulong)number;
        }
        return whole;
    }

    /// <summary>The finest step that all of some single-precision numbers are multiples of; null where that is too fine.</summary>
    private static (double Reference, int Binary, int Decimal)? ScaleOf(double[] values)
    {
        var exponents = values.Where(value => value != 0).Select(Math.ILogB).ToList();
        if (exponents.Count == 0) return (0, 0, 0);
        // The reference is written in single precision.
        return (float)values.Min() == values.Min() ? (values.Min(), exponents.Min() - 23, 0) : null;
    }

    private static int Signed(int value) => value < 0 ? 0x8000 | -value : value;

    internal static byte[] Section(byte number, ReadOnlySpan<byte> body)
    {
        var section = new byte[body.Length + 5];
        BinaryPrimitives.WriteUInt32BigEndian(section, (uint)section.Length);
        section[4] = number;
        body.CopyTo(section.AsSpan(5));
        return section;
    }

    private static byte[] Two(int value) => [(byte)(value >> 8), (byte)value];

    private static byte[] Four(uint value) => [(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value];
}
