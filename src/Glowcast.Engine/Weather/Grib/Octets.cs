using System.Buffers.Binary;

namespace Glowcast.Engine.Weather;

/// <summary>The octets of a section by their numbers in the manual: the first is 1, and the first five are length and number.</summary>
/// <remarks>Signed numbers are a sign bit and a magnitude (WMO-No. 306, regulation 92.1.5).</remarks>
internal readonly ref struct Octets(ReadOnlySpan<byte> section)
{
    private readonly ReadOnlySpan<byte> section = section;

    public int Count => section.Length;

    public byte U8(int octet) => At(octet, 1)[0];

    public int U16(int octet) => BinaryPrimitives.ReadUInt16BigEndian(At(octet, 2));

    public uint U32(int octet) => BinaryPrimitives.ReadUInt32BigEndian(At(octet, 4));

    public int S8(int octet) => U8(octet) is var code && code >= 0x80 ? -(code & 0x7F) : code;

    public int S16(int octet) => U16(octet) is var code && code >= 0x8000 ? -(code & 0x7FFF) : code;

    public int S32(int octet) => U32(octet) is var code && code >= 0x8000_0000 ? -(int)(code & 0x7FFF_FFFF) : (int)code;

    public float F32(int octet) => BinaryPrimitives.ReadSingleBigEndian(At(octet, 4));

    public ReadOnlySpan<byte> From(int octet) => At(octet, Math.Max(0, section.Length - octet + 1));

    /// <exception cref="GribDamage">The section is shorter.</exception>
    private ReadOnlySpan<byte> At(int octet, int count) =>
        octet >= 1 && octet - 1 + count <= section.Length
            ? section.Slice(octet - 1, count)
            : throw new GribDamage($"Its section {(section.Length >= 5 ? section[4] : 0)} has {section.Length} octets and ends before octet {octet + count - 1}.");
}
