namespace Glowcast.Engine.Weather;

/// <summary>Lossless packing of CCSDS 121.0-B (template 5.42): blocks of residuals, each in the code that is shortest for it.</summary>
/// <remarks>Source: CCSDS 121.0-B-3, Lossless Data Compression (2020), sections 3 and 4.</remarks>
internal ref struct CcsdsValues
{
    private const int Preprocess = 8;
    private const int Restricted = 16;
    private const int PadsIntervals = 32;
    private const int SegmentBlocks = 64;

    private readonly GribPacking packing;
    private readonly int flags;
    private readonly int block;
    private readonly int interval;
    private readonly int idBits;
    private readonly long greatest;
    private readonly Span<double> values;
    private BitReader bits;
    private int next;
    private long sample;

    private CcsdsValues(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        var head = new Octets(packing.Section);
        (this.packing, flags, block, interval) = (packing, head.U8(22), head.U8(23), head.U16(24));
        if ((flags & 1) != 0) throw new GribDamage("Its CCSDS samples are signed, which fields never are.");
        if (block is 0 or > 64 || block % 2 != 0) throw new GribDamage($"Its CCSDS blocks have {block} samples; 8, 16, 32 and 64 are known.");
        if (interval is 0 or > 4096) throw new GribDamage($"Its CCSDS reference interval has {interval} blocks; from 1 to 4096 are known.");
        idBits = packing.Bits switch
        {
            <= 2 when IsSet(Restricted) => 1,
            <= 4 when IsSet(Restricted) => 2,
            <= 8 => 3,
            <= 16 => 4,
            _ => 5,
        };
        greatest = (1L << packing.Bits) - 1;
        this.values = values;
        bits = new BitReader(data);
    }

    public static void Unpack(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        var reader = new CcsdsValues(packing, data, values);
        while (reader.next < values.Length) reader.Interval();
    }

    private void Interval()
    {
        for (var done = 0; done < interval && next < values.Length;) done += Block(done);
        if (IsSet(PadsIntervals)) bits.Align();
    }

    /// <returns>How many blocks were read: several where they are all zero.</returns>
    private int Block(int done)
    {
        var hasReference = done == 0 && IsSet(Preprocess);
        var id = (int)bits.Read(idBits);
        if (id == (1 << idBits) - 1) return Raw(hasReference);
        if (id > 0) return Split(id - 1, hasReference);
        var isSecond = bits.Read(1) == 1;
        if (hasReference) Reference();
        if (isSecond) return Pairs(hasReference);
        return Zeros(done, hasReference);
    }

    private int Raw(bool hasReference)
    {
        if (hasReference) Reference();
        for (var i = hasReference ? 1 : 0; i < block; i++) Residual((long)bits.Read(packing.Bits));
        return 1;
    }

    private int Split(int tailBits, bool hasReference)
    {
        if (hasReference) Reference();
        Span<long> counts = stackalloc long[64];
        var first = hasReference ? 1 : 0;
        for (var i = first; i < block; i++) counts[i] = bits.Zeros();
        for (var i = first; i < block; i++) Residual((counts[i] << tailBits) | (long)bits.Read(tailBits));
        return 1;
    }

    /// <summary>Two residuals in one code: the second extension.</summary>
    private int Pairs(bool hasReference)
    {
        for (var i = 0; i < block; i += 2)
        {
            long code = bits.Zeros();
            var sum = (long)((Math.Sqrt(1 + (8.0 * code)) - 1) / 2);
            while (sum * (sum + 1) / 2 > code) sum--;
            while ((sum + 1) * (sum + 2) / 2 <= code) sum++;
            var second = code - (sum * (sum + 1) / 2);
            if (i > 0 || !hasReference) Residual(sum - second);
            Residual(second);
        }
        return 1;
    }

    private int Zeros(int done, bool hasReference)
    {
        var code = bits.Zeros() + 1;
        var blocks = code switch
        {
            5 => Math.Min(SegmentBlocks - (done % SegmentBlocks), interval - done),
            > 5 => (int)Math.Min(code - 1, SegmentBlocks),
            _ => (int)code,
        };
        if (blocks > interval - done) throw new GribDamage("A run of zero blocks in its CCSDS data goes beyond its reference interval.");
        for (var i = hasReference ? 1 : 0; i < blocks * block && next < values.Length; i++) Residual(0);
        return blocks;
    }

    private void Reference()
    {
        sample = (long)bits.Read(packing.Bits);
        Keep();
    }

    private void Residual(long folded)
    {
        sample = IsSet(Preprocess) ? Unfolded(folded) : folded;
        if (sample < 0 || sample > greatest) throw new GribDamage("Its CCSDS data lead to a value that its bits cannot hold.");
        Keep();
    }

    /// <summary>From the code number of a difference to the sample: small ones alternate about the last sample, the others go one way.</summary>
    private readonly long Unfolded(long folded)
    {
        var room = Math.Min(sample, greatest - sample);
        if (folded <= 2 * room) return (folded & 1) == 0 ? sample + (folded / 2) : sample - ((folded + 1) / 2);
        return room == sample ? folded : greatest - folded;
    }

    private void Keep()
    {
        if (next < values.Length) values[next++] = packing.Value(sample);
    }

    private readonly bool IsSet(int flag) => (flags & flag) != 0;
}
