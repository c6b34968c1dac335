namespace Glowcast.Engine.Weather;

/// <summary>Numbers of any width out of a row of bits, the highest bit first.</summary>
internal ref struct BitReader(ReadOnlySpan<byte> bytes)
{
    public const int WidestBits = 56;

    private readonly ReadOnlySpan<byte> bytes = bytes;
    private long at;

    /// <summary>How many bits are left.</summary>
    public readonly long Left => (8L * bytes.Length) - at;

    /// <summary>To the beginning of the next byte, unless it is at one.</summary>
    public void Align() => at = (at + 7) & ~7L;

    public void Skip(long bits) => at += Checked(bits);

    /// <param name="width">0 to 56; 0 reads nothing and is 0.</param>
    /// <exception cref="GribDamage">The row ends before.</exception>
    public ulong Read(int width)
    {
        if (width == 0) return 0;
        Checked(width);
        var (first, end) = ((int)(at >> 3), (int)((at + width + 7) >> 3));
        ulong gathered = 0;
        for (var i = first; i < end; i++) gathered = (gathered << 8) | bytes[i];
        var behind = (8 * (long)end) - at - width;
        at += width;
        return (gathered >> (int)behind) & (ulong.MaxValue >> (64 - width));
    }

    /// <summary>How many zeros stand before the next one, which is passed too.</summary>
    public uint Zeros()
    {
        for (uint zeros = 0; ;)
        {
            Checked(1);
            var rest = (byte)(bytes[(int)(at >> 3)] << (int)(at & 7));
            var inByte = 8 - (int)(at & 7);
            if (rest == 0)
            {
                (zeros, at) = (zeros + (uint)inByte, at + inByte);
                continue;
            }
            var leading = System.Numerics.BitOperations.LeadingZeroCount((uint)rest << 24);
            at += leading + 1;
            return zeros + (uint)leading;
        }
    }

    private readonly long Checked(long bits) =>
        bits >= 0 && bits <= Left ? bits : throw new GribDamage("Its packed data end before all values are read.");
}
