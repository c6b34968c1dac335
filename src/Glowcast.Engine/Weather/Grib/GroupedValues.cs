namespace Glowcast.Engine.Weather;

/// <summary>Complex packing: groups of values, each with its own reference and width (templates 5.2 and 5.3).</summary>
/// <remarks>Template 5.3 packs the first or second differences along the scan, of the values that are not missing.</remarks>
internal static class GroupedValues
{
    /// <summary>Of section 7 without its head, as far as the header tells.</summary>
    public static long LeastOctets(GribPacking packing)
    {
        var head = GroupHead.Of(packing);
        return head.ExtraOctets + Octets(head.Groups, packing.Bits) + Octets(head.Groups, head.WidthBits) + Octets(head.Groups, head.LengthBits);

        static long Octets(long count, int bits) => ((count * bits) + 7) / 8;
    }

    /// <param name="values">As many as are packed; missing ones become NaN.</param>
    public static void Unpack(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        var head = GroupHead.Of(packing);
        if (values.Length == 0) return;
        var differences = new Differences(head, data[..Math.Min(data.Length, head.ExtraOctets)]);
        data = data[differences.Octets..];
        // Three rows of numbers stand one behind the other, each beginning at an octet, then the values.
        BitReader references = new(data), widths = new(data), lengths = new(data), packed = new(data);
        widths.Skip(RowBits(head.Groups, packing.Bits));
        lengths.Skip(RowBits(head.Groups, packing.Bits) + RowBits(head.Groups, head.WidthBits));
        packed.Skip(RowBits(head.Groups, packing.Bits) + RowBits(head.Groups, head.WidthBits) + RowBits(head.Groups, head.LengthBits));
        var next = 0;
        for (long group = 0; group < head.Groups; group++)
        {
            var reference = (long)references.Read(packing.Bits);
            var width = head.WidthReference + (int)widths.Read(head.WidthBits);
            var scaled = (long)lengths.Read(head.LengthBits);
            var length = group == head.Groups - 1 ? head.LastLength : head.LengthReference + (head.LengthStep * scaled);
            if (width > BitReader.WidestBits) throw new GribDamage($"A group of its packed data has values of {width} bits; up to {BitReader.WidestBits} are read.");
            if (length > values.Length - next) throw new GribDamage("Its groups hold more values than the field has.");
            var highest = (1L << (width == 0 ? packing.Bits : width)) - 1;
            for (var i = 0; i < length; i++)
            {
                var offset = (long)packed.Read(width);
                var mark = highest - (width == 0 ? reference : offset);
                var isMissing = (head.Missing > 0 && mark == 0) || (head.Missing > 1 && mark == 1);
                values[next++] = isMissing ? double.NaN : packing.Value(differences.Next(reference + offset));
            }
        }
        if (next < values.Length) throw new GribDamage($"Its groups hold {next} values; the field has {values.Length}.");
    }

    private static long RowBits(long count, int bits) => ((count * bits) + 7) / 8 * 8;
}

/// <summary>What section 5 says of groups.</summary>
/// <param name="Missing">0: none; 1: primary missing values; 2: secondary ones too.</param>
/// <param name="Order">Of the differences; 0 without.</param>
internal sealed record GroupHead(
    int Missing, long Groups, int WidthReference, int WidthBits, long LengthReference, long LengthStep, long LastLength, int LengthBits, int Order, int OctetsEach)
{
    /// <summary>Before the groups: the first values and the least difference.</summary>
    public int ExtraOctets => Order == 0 ? 0 : (Order + 1) * OctetsEach;

    public static GroupHead Of(GribPacking packing)
    {
        var octets = new Octets(packing.Section);
        var head = new GroupHead(
            octets.U8(23), octets.U32(32), octets.U8(36), octets.U8(37), octets.U32(38), octets.U8(42), octets.U32(43), octets.U8(47),
            packing.Template == 3 ? octets.U8(48) : 0, packing.Template == 3 ? octets.U8(49) : 0);
        if (head.Missing > 2) throw new GribDamage($"Its missing values are managed by code {head.Missing}; 0, 1 and 2 are known.");
        if (packing.Template == 3 && head.Order is not (1 or 2)) throw new GribDamage($"Its values are differences of order {head.Order}; 1 and 2 are read.");
        if (head.OctetsEach > 7) throw new GribDamage($"Its first values have {head.OctetsEach} octets each; up to 7 are read.");
        if (head.Groups > packing.Count + 1) throw new GribDamage($"It claims {head.Groups} groups for {packing.Count} values; there cannot be more groups than values.");
        if (head.WidthBits > 32 || head.LengthBits > 32) throw new GribDamage("The widths or lengths of its groups are wider than 32 bits.");
        return head;
    }
}

/// <summary>Adds differences up again; without an order it passes values on.</summary>
internal struct Differences
{
    private readonly int order;
    private readonly long first;
    private readonly long second;
    private readonly long least;
    private long count;
    private long before;
    private long last;

    public Differences(GroupHead head, ReadOnlySpan<byte> extra)
    {
        order = head.Order;
        Octets = head.ExtraOctets;
        if (order == 0) return;
        if (extra.Length < Octets) throw new GribDamage("Its packed data end before the first values.");
        first = Signed(extra, 0, head.OctetsEach);
        second = order == 2 ? Signed(extra, head.OctetsEach, head.OctetsEach) : 0;
        least = Signed(extra, order * head.OctetsEach, head.OctetsEach);
    }

    public int Octets { get; }

    public long Next(long packed)
    {
        if (order == 0) return packed;
        var value = (count, order) switch
        {
            (0, _) => first,
            (1, 2) => second,
            (_, 1) => unchecked(packed + least + last),
            _ => unchecked(packed + least + (2 * last) - before),
        };
        count++;
        (before, last) = (last, value);
        return value;
    }

    private static long Signed(ReadOnlySpan<byte> bytes, int from, int count)
    {
        long magnitude = 0;
        for (var i = 0; i < count; i++) magnitude = (magnitude << 8) | bytes[from + i];
        if (count == 0) return 0;
        var sign = 1L << ((8 * count) - 1);
        return (magnitude & sign) == 0 ? magnitude : -(magnitude & (sign - 1));
    }
}
