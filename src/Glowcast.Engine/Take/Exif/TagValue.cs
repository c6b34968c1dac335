using System.Text;

namespace Glowcast.Engine.Take;

/// <summary>The types of TIFF 6.0 and EXIF 2.32/3.0, section 4.6.2.</summary>
internal enum TagType
{
    Byte = 1,
    Ascii = 2,
    Short = 3,
    Long = 4,
    Rational = 5,
    Undefined = 7,
    SignedLong = 9,
    SignedRational = 10,
    Float = 11,
    Double = 12,
    Directory = 13,
    Utf8 = 129,
}

/// <summary>The beginning of what stands under a tag.</summary>
/// <param name="Count">Of the values, as the file claims it; <paramref name="Bytes"/> may hold fewer.</param>
/// <param name="At">Where they lie in the file.</param>
/// <param name="Bytes">Of the first values, at most <see cref="MostBytes"/>.</param>
internal sealed record TagValue(TagType Type, long Count, long At, byte[] Bytes, bool IsLittle)
{
    public const int MostBytes = 256;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>0 for a type that is not known here.</summary>
    public static int SizeOf(TagType type) => type switch
    {
        TagType.Byte or TagType.Ascii or TagType.Undefined or TagType.Utf8 => 1,
        TagType.Short => 2,
        TagType.Long or TagType.SignedLong or TagType.Float or TagType.Directory => 4,
        TagType.Rational or TagType.SignedRational or TagType.Double => 8,
        _ => 0,
    };

    /// <summary>Up to its closing zero, without blanks around and without control characters; null where it is no text, or empty.</summary>
    public string? Text
    {
        get
        {
            if (Type is not (TagType.Ascii or TagType.Utf8)) return null;
            var end = Array.IndexOf(Bytes, (byte)0);
            var text = string.Concat(Utf8.GetString(Bytes, 0, end < 0 ? Bytes.Length : end).Where(letter => !char.IsControl(letter))).Trim(' ');
            return text.Length > 0 ? text : null;
        }
    }

    /// <summary>How many values can be asked for.</summary>
    public int Held => SizeOf(Type) is > 0 and var size ? (int)Math.Min(Count, Bytes.Length / size) : 0;

    /// <summary>A whole number; null for numbers of other kinds.</summary>
    public long? WholeAt(int index) => index >= Held ? null : Type switch
    {
        TagType.Byte or TagType.Short or TagType.Long or TagType.Directory => Bits(index, 0, SizeOf(Type)),
        TagType.SignedLong => (int)Bits(index, 0, 4),
        _ => null,
    };

    /// <summary>Numerator and denominator; null for numbers of other kinds.</summary>
    public (long Numerator, long Denominator)? RationalAt(int index) => index >= Held ? null : Type switch
    {
        TagType.Rational => (Bits(index, 0, 4), Bits(index, 4, 4)),
        TagType.SignedRational => ((int)Bits(index, 0, 4), (int)Bits(index, 4, 4)),
        _ => null,
    };

    /// <summary>Any number that is finite; else null.</summary>
    public double? NumberAt(int index)
    {
        if (index >= Held) return null;
        double? number = Type switch
        {
            TagType.Float => BitConverter.Int32BitsToSingle((int)Bits(index, 0, 4)),
            TagType.Double => BitConverter.Int64BitsToDouble(Bits(index, 0, 8)),
            _ => RationalAt(index) is var (numerator, denominator) ? (double)numerator / denominator : WholeAt(index),
        };
        return number is { } finite && double.IsFinite(finite) ? finite : null;
    }

    private long Bits(int index, int from, int size) => PictureBytes.WholeOf(Bytes.AsSpan((index * SizeOf(Type)) + from, size), IsLittle);
}
