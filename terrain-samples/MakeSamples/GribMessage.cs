using System.Buffers.Binary;

namespace MakeSamples;

/// <summary>What stands in the header of an invented field.</summary>
/// <param name="Parameter">Category and number, of discipline 0.</param>
/// <param name="Level">In the unit of its type.</param>
/// <param name="Hour">After the run's begin, 2026-10-24 00 UTC.</param>
internal sealed record GribHeader((byte Category, byte Number) Parameter, byte LevelType, int Level, int Hour, int Rows, int Columns, double NorthDeg, double WestDeg, double StepDeg);

/// <summary>A GRIB 2 message of one field on even steps of latitude and longitude, in tenths, simple packing.</summary>
internal static class GribMessage
{
    private const int Decimal = 1;

    public static byte[] Write(GribHeader head, IReadOnlyList<double> values)
    {
        var tenths = values.Select(value => (long)Math.Round(value * 10)).ToList();
        var (least, most) = (tenths.Min(), tenths.Max());
        var bits = 64 - System.Numerics.BitOperations.LeadingZeroCount((ulong)(most - least));
        byte[] body =
        [
            // No service made it: centre 255.
            .. Section(1, [0, 255, 0, 0, 2, 0, 1, .. Two(2026), 10, 24, 0, 0, 0, 0, 1]),
            .. Section(3, Grid(head)),
            .. Section(4, [0, 0, 0, 0, head.Parameter.Category, head.Parameter.Number, 2, 0, 255, 0, 0, 0, 1, .. Four(head.Hour), head.LevelType, 0, .. Four(head.Level), 255, 0, 255, 255, 255, 255]),
            .. Section(5, [.. Four(values.Count), 0, 0, .. Single(least), 0, 0, .. Two(Decimal), (byte)bits, 0]),
            .. Section(6, [255]),
            .. Section(7, Packed(tenths, least, bits)),
            .. "7777"u8,
        ];
        var length = new byte[8];
        BinaryPrimitives.WriteInt64BigEndian(length, 16 + body.Length);
        return [.. "GRIB"u8, 255, 255, 0, 2, .. length, .. body];
    }

    private static byte[] Grid(GribHeader head) =>
    [
        0, .. Four(head.Rows * head.Columns), 0, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        .. Four(head.Columns), .. Four(head.Rows), 0, 0, 0, 0, 255, 255, 255, 255,
        .. Degrees(head.NorthDeg), .. Degrees(head.WestDeg + 360), 48,
        .. Degrees(head.NorthDeg - ((head.Rows - 1) * head.StepDeg)), .. Degrees(head.WestDeg + 360 + ((head.Columns - 1) * head.StepDeg)), .. Degrees(head.StepDeg), .. Degrees(head.StepDeg), 0,
    ];

    private static byte[] Packed(List<long> tenths, long least, int bits)
    {
        var data = new byte[((bits * tenths.Count) + 7) / 8];
        for (var (i, at) = (0, 0); i < tenths.Count; i++)
            for (var bit = bits - 1; bit >= 0; bit--, at++)
                if ((((tenths[i] - least) >> bit) & 1) != 0) data[at >> 3] |= (byte)(0x80 >> (at & 7));
        return data;
    }

    private static byte[] Section(byte number, byte[] body) => [.. Four(body.Length + 5), number, .. body];

    private static byte[] Degrees(double degrees) => Four((int)Math.Round(degrees * 1e6));

    private static byte[] Single(float value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteSingleBigEndian(bytes, value);
        return bytes;
    }

    private static byte[] Two(int value) => [(byte)(value >> 8), (byte)value];

    private static byte[] Four(int value) => [(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value];
}
