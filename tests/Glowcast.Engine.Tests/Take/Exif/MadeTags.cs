using System.Buffers.Binary;
using System.Text;

namespace Glowcast.Engine.Tests.Take;

/// <summary>TIFF structures of a few tags, written by the specification of TIFF 6.0, section 2, byte by byte.</summary>
/// <param name="isLittle">Whether numbers stand with their low byte first.</param>
internal sealed class MadeTags(bool isLittle = true)
{
    private readonly List<byte> bytes = [];

    /// <summary>How a shot was taken, in one structure: maker, model, moment, exposure and place, with a directory of EXIF and one of GPS.</summary>
    public static byte[] OfShot(bool isLittle = true, int version = 42, params (int Tag, object Value)[] more)
    {
        var made = new MadeTags(isLittle);
        made.Begin(version);
        var exif = made.Directory([.. Exposure]);
        var gps = made.Directory([.. Place]);
        made.EndAt(made.Directory([(0x010F, "Maker"), (0x0110, "Model"), (0x8769, (uint)exif), (0x8825, (uint)gps), .. more]));
        return [.. made.bytes];
    }

    /// <summary>One directory alone, as CR3 keeps each.</summary>
    public static byte[] Of(params (int Tag, object Value)[] tags)
    {
        var made = new MadeTags();
        made.Begin(42);
        made.EndAt(made.Directory(tags));
        return [.. made.bytes];
    }

    public static IEnumerable<(int Tag, object Value)> Exposure =>
        [(0x829A, new[] { (1, 125) }), (0x829D, new[] { (11, 1) }), (0x8827, (ushort)100), (0x9003, "2026:02:14 06:45:09"), (0x920A, new[] { (135, 1) })];

    public static IEnumerable<(int Tag, object Value)> Place =>
        [(1, "N"), (2, new[] { (44, 1), (15, 1), (3312, 100) }), (3, "W"), (4, new[] { (71, 1), (12, 1), (900, 100) })];

    private void Begin(int version)
    {
        bytes.AddRange(isLittle ? "II"u8 : "MM"u8);
        Write(2, (uint)version);
        Write(4, 0);
    }

    private void EndAt(int directory)
    {
        for (var i = 0; i < 4; i++) bytes[4 + i] = Byte(4, (uint)directory, i);
    }

    private int Directory(params (int Tag, object Value)[] tags)
    {
        var places = tags.OrderBy(tag => tag.Tag).Select(tag => (tag.Tag, Value: Laid(tag.Value))).ToList();
        var at = bytes.Count;
        Write(2, (uint)places.Count);
        foreach (var (tag, (type, count, value)) in places)
        {
            Write(2, (uint)tag);
            Write(2, (uint)type);
            Write(4, (uint)count);
            // A short stands in the first two of the four bytes.
            if (type == 3)
            {
                Write(2, value);
                Write(2, 0);
            }
            else
            {
                Write(4, value);
            }
        }
        Write(4, 0);
        return at;
    }

    private (int Type, int Count, uint Value) Laid(object value)
    {
        switch (value)
        {
            case ushort number: return (3, 1, number);
            case uint number: return (4, 1, number);
            case byte[] blob: return (7, blob.Length, Append(() => bytes.AddRange(blob)));
            case string text:
                var letters = Encoding.ASCII.GetBytes(text + '\0');
                return letters.Length > 4
                    ? (2, letters.Length, Append(() => bytes.AddRange(letters)))
                    : (2, letters.Length, isLittle ? BinaryPrimitives.ReadUInt32LittleEndian([.. letters, 0, 0]) : BinaryPrimitives.ReadUInt32BigEndian([.. letters, 0, 0]));
            case (int Numerator, int Denominator)[] rationals:
                return (5, rationals.Length, Append(() =>
                {
                    foreach (var (numerator, denominator) in rationals)
                    {
                        Write(4, (uint)numerator);
                        Write(4, (uint)denominator);
                    }
                }));
            default: throw new ArgumentException($"No value of a tag: {value}.", nameof(value));
        }
    }

    private uint Append(Action write)
    {
        var at = bytes.Count;
        write();
        return (uint)at;
    }

    private void Write(int size, uint number)
    {
        for (var i = 0; i < size; i++) bytes.Add(Byte(size, number, i));
    }

    private byte Byte(int size, uint number, int index) => (byte)(number >> (8 * (isLittle ? index : size - 1 - index)));
}
