namespace Glowcast.Engine.Weather;

/// <summary>How the values of a field are packed (GRIB 2, section 5).</summary>
/// <param name="Template">Number of the data representation template: 3 for 5.3.</param>
/// <param name="Count">How many values are packed: those that the bitmap leaves.</param>
/// <param name="Bits">To a value, or to the reference of a group.</param>
/// <param name="Reference">R.</param>
/// <param name="BinaryScale">E.</param>
/// <param name="DecimalScale">D.</param>
internal sealed record GribPacking(int Template, long Count, int Bits, double Reference, int BinaryScale, int DecimalScale, byte[] Section)
{
    private const int Ieee = 4;

    /// <summary>As users know it.</summary>
    public string Name => Template switch
    {
        0 => "simple",
        2 => "complex",
        3 => "complex with spatial differences",
        4 => "floating point",
        41 => "PNG",
        _ => "CCSDS",
    };

    /// <summary>All values are the same, and no data follow.</summary>
    public bool IsConstant => Bits == 0 && Template is (0 or 41 or 42);

    /// <summary>Its own marks say which values are missing, besides a bitmap.</summary>
    public bool MarksMissing => Template is 2 or 3 && Section[22] != 0;

    /// <exception cref="GribDamage">The section is damaged, or of a packing that is refused.</exception>
    public static GribPacking Read(byte[] section)
    {
        var packing = new Octets(section);
        var template = packing.U16(10);
        if (template == 40) throw new GribDamage("It is packed as JPEG 2000 (5.40), which is not read. Take the same fields packed another way: most services offer simple, complex or CCSDS packing, and tools that cut files can repack them ('grib_set -r -w … -s packingType=grid_simple', 'wgrib2 -set_grib_type c3').");
        if (template is not (0 or 2 or 3 or Ieee or 41 or 42)) throw new GribDamage($"It is packed by template 5.{template}, which is not read; 5.0, 5.2, 5.3, 5.4, 5.41 and 5.42 are. Take the fields in one of these packings.");
        if (template == Ieee) return new GribPacking(template, packing.U32(6), packing.U8(12) switch { 1 => 32, 2 => 64, var code => throw new GribDamage($"Its floating-point numbers are of precision {code}; 1 and 2 are read.") }, 0, 0, 0, section);
        var read = new GribPacking(template, packing.U32(6), packing.U8(20), packing.F32(12), packing.S16(16), packing.S16(18), section);
        var widest = template == 42 ? 32 : BitReader.WidestBits;
        if (read.Bits > widest) throw new GribDamage($"It claims {read.Bits} bits to a value; up to {widest} are read.");
        if (!double.IsFinite(read.Reference) || !double.IsFinite(read.Value(1L << Math.Min(read.Bits, 62)))) throw new GribDamage("Its reference value and scale make no finite numbers.");
        return read;
    }

    /// <summary>Whether data of a length can hold what is claimed.</summary>
    /// <exception cref="GribDamage">They cannot.</exception>
    public void MustFit(long octets)
    {
        var least = Template switch
        {
            0 or Ieee => ((Count * Bits) + 7) / 8,
            2 or 3 => GroupedValues.LeastOctets(this),
            _ => 0,
        };
        if (octets < least) throw new GribDamage($"Its {Count} values need {least} octets of data; there are {octets}.");
    }

    /// <summary>The value behind a packed whole number.</summary>
    public double Value(double packed)
    {
        var scaled = Reference + (BinaryScale == 0 ? packed : packed * Math.ScaleB(1, BinaryScale));
        return DecimalScale switch
        {
            0 => scaled,
            > 0 => scaled / Math.Pow(10, DecimalScale),
            _ => scaled * Math.Pow(10, -DecimalScale),
        };
    }
}
