using System.Buffers.Binary;
using System.Numerics;

namespace Glowcast.Engine.Weather;

/// <summary>Turns the packed data of a field into values.</summary>
internal static class GribUnpacking
{
    /// <summary>What one field may take of memory: its packed data and its values.</summary>
    private const long MostOctets = 240L << 20;

    /// <param name="points">Of the grid.</param>
    /// <param name="bitmap">A bit to each point, set where there is a value; empty where all have one.</param>
    /// <exception cref="GribDamage">The data are damaged.</exception>
    public static GribValues Unpack(GribPacking packing, int points, ReadOnlySpan<byte> bitmap, ReadOnlySpan<byte> data)
    {
        var count = bitmap.IsEmpty ? points : Ones(bitmap, points);
        if (packing.Count != count) throw new GribDamage($"It packs {packing.Count} values where {count} points have one.");
        if (packing.IsConstant && bitmap.IsEmpty) return new GribValues(packing.Value(0), points);
        var values = new double[points];
        Packed(packing, data, values.AsSpan(0, count));
        if (!bitmap.IsEmpty) Spread(values, count, bitmap);
        return new GribValues(values);
    }

    /// <exception cref="GribDamage">The field is greater than any in use.</exception>
    public static void MustBeSensible(GribPacking packing, long points, long octets)
    {
        var values = packing.IsConstant ? 0 : 8 * points;
        if (values + octets > MostOctets) throw new GribDamage($"Its {points} points would take more than {MostOctets >> 20} MiB of memory. Cut out the area that you need.");
    }

    public static int Ones(ReadOnlySpan<byte> bitmap, int points)
    {
        var ones = 0;
        foreach (var octet in bitmap[..(points / 8)]) ones += BitOperations.PopCount(octet);
        return (points & 7) == 0 ? ones : ones + BitOperations.PopCount((uint)bitmap[points / 8] >> (8 - (points & 7)));
    }

    private static void Packed(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        if (packing.IsConstant) values.Fill(packing.Value(0));
        else if (packing.Template == 0) Simple(packing, data, values);
        else if (packing.Template == 4) Floating(packing, data, values);
        else if (packing.Template == 41) PngValues.Unpack(packing, data, values);
        else if (packing.Template == 42) CcsdsValues.Unpack(packing, data, values);
        else GroupedValues.Unpack(packing, data, values);
    }

    private static void Simple(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        var bits = new BitReader(data);
        for (var i = 0; i < values.Length; i++) values[i] = packing.Value(bits.Read(packing.Bits));
    }

    private static void Floating(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        var octets = packing.Bits / 8;
        if (data.Length < (long)octets * values.Length) throw new GribDamage("Its packed data end before all values are read.");
        for (var i = 0; i < values.Length; i++)
        {
            var number = data.Slice(i * octets, octets);
            values[i] = octets == 4 ? BinaryPrimitives.ReadSingleBigEndian(number) : BinaryPrimitives.ReadDoubleBigEndian(number);
            if (double.IsInfinity(values[i])) values[i] = double.NaN;
        }
    }

    /// <summary>Moves the values, which stand at the beginning, to the points that have one; from the end, so that none is overwritten.</summary>
    private static void Spread(double[] values, int count, ReadOnlySpan<byte> bitmap)
    {
        for (var point = values.Length - 1; point >= 0; point--)
            values[point] = (bitmap[point >> 3] & (0x80 >> (point & 7))) != 0 ? values[--count] : double.NaN;
    }
}
