using System.Buffers.Binary;

namespace Glowcast.Fuzz;

/// <summary>Changes inputs at random: bits, bytes, numbers of the kind that break things, pieces cut out, doubled or taken from another
/// input, and words of the target's own language.</summary>
internal sealed class Mutator(Random random, IReadOnlyList<byte[]> words, int mostBytes)
{
    private static readonly long[] Numbers = [0, 1, 2, 7, 8, 15, 16, 31, 32, 63, 64, 100, 127, 128, 255, 256, 1000, 1023, 1024, 4095, 4096, 32767, 32768, 65535, 65536, 1 << 20, int.MaxValue, 1L << 31, uint.MaxValue, -1, -2, -128, -32768, int.MinValue, long.MaxValue];

    public byte[] Changed(byte[] input, byte[] other)
    {
        var bytes = new List<byte>(input);
        for (var change = 1 << random.Next(6); change > 0; change--) Change(bytes, other);
        if (bytes.Count > mostBytes) bytes.RemoveRange(mostBytes, bytes.Count - mostBytes);
        return [.. bytes];
    }

    private void Change(List<byte> bytes, byte[] other)
    {
        if (bytes.Count == 0) bytes.Add(0);
        var at = random.Next(bytes.Count);
        switch (random.Next(12))
        {
            case 0: bytes[at] ^= (byte)(1 << random.Next(8)); break;
            case 1: bytes[at] = (byte)random.Next(256); break;
            case 2: bytes[at] += (byte)(random.Next(35) - 17); break;
            case 3 or 4: SetNumber(bytes, at); break;
            case 5: bytes.RemoveRange(at, Math.Min(random.Next(1, 1 + Math.Min(32, bytes.Count)), bytes.Count - at)); break;
            case 6: Insert(bytes, at, Piece([.. bytes])); break;
            case 7: Insert(bytes, at, [.. Enumerable.Repeat((byte)random.Next(256), random.Next(1, 40))]); break;
            case 8: Overwrite(bytes, at, Piece([.. bytes])); break;
            case 9: Insert(bytes, at, Piece(other)); break;
            case 10 when words.Count > 0: Insert(bytes, at, words[random.Next(words.Count)]); break;
            case 11 when words.Count > 0: Overwrite(bytes, at, words[random.Next(words.Count)]); break;
            default: Overwrite(bytes, at, Piece(other)); break;
        }
    }

    private void SetNumber(List<byte> bytes, int at)
    {
        var size = 1 << random.Next(4);
        if (at + size > bytes.Count) return;
        Span<byte> number = stackalloc byte[8];
        var value = Numbers[random.Next(Numbers.Length)];
        if (random.Next(2) == 0)
        {
            BinaryPrimitives.WriteInt64LittleEndian(number, value);
            for (var i = 0; i < size; i++) bytes[at + i] = number[i];
        }
        else
        {
            BinaryPrimitives.WriteInt64BigEndian(number, value);
            for (var i = 0; i < size; i++) bytes[at + i] = number[8 - size + i];
        }
    }

    private byte[] Piece(byte[] from)
    {
        if (from.Length == 0) return [];
        var first = random.Next(from.Length);
        return from[first..Math.Min(from.Length, first + random.Next(1, 64))];
    }

    private void Insert(List<byte> bytes, int at, byte[] piece)
    {
        if (bytes.Count + piece.Length <= mostBytes) bytes.InsertRange(at, piece);
    }

    private static void Overwrite(List<byte> bytes, int at, byte[] piece)
    {
        for (var i = 0; i < piece.Length && at + i < bytes.Count; i++) bytes[at + i] = piece[i];
    }
}
