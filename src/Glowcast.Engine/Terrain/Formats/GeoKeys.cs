using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The keys by which a GeoTIFF names its coordinate system (OGC 19-008r4, section 7).</summary>
internal sealed class GeoKeys
{
    private readonly Dictionary<int, (long Place, int Count, int Value)> keys = [];
    private readonly double[] numbers;
    private readonly string text;
    private readonly string fileName;

    /// <exception cref="BadInputException">There are no keys, or their directory is damaged.</exception>
    public GeoKeys(TiffDirectory tags, string fileName)
    {
        this.fileName = fileName;
        var directory = tags.Wholes(TiffTag.GeoKeyDirectory);
        numbers = tags.Doubles(TiffTag.GeoDoubleParams);
        text = tags.Text(TiffTag.GeoAsciiParams) ?? "";
        if (directory.Length < 4) throw new BadInputException(fileName, "Names no coordinate system: it is a TIFF, but not a GeoTIFF.");
        if (directory[3] > (directory.Length - 4) / 4) throw new BadInputException(fileName, $"Claims {directory[3]} geographic keys and holds {(directory.Length - 4) / 4}.");
        for (var i = 1; i <= directory[3]; i++)
            keys.TryAdd((int)directory[4 * i], (directory[(4 * i) + 1], (int)directory[(4 * i) + 2], (int)directory[(4 * i) + 3]));
    }

    public bool Has(GeoKey key) => keys.ContainsKey((int)key);

    /// <summary>A code, or the fallback where the key is missing.</summary>
    public int Code(GeoKey key, int fallback = 0)
    {
        if (!keys.TryGetValue((int)key, out var found)) return fallback;
        return found.Place == 0 ? found.Value : throw new BadInputException(fileName, $"Its key {key} is not a code.");
    }

    /// <summary>The number of the first key that is there; the fallback where none is.</summary>
    public double Number(double fallback, params ReadOnlySpan<GeoKey> anyOf)
    {
        foreach (var key in anyOf)
        {
            if (!keys.TryGetValue((int)key, out var found)) continue;
            if (found.Place == (int)TiffTag.GeoDoubleParams && found.Value < numbers.Length && double.IsFinite(numbers[found.Value])) return numbers[found.Value];
            throw new BadInputException(fileName, $"Its key {key} has no usable number.");
        }
        return fallback;
    }

    /// <summary>The text of the first key that has one; null where none has.</summary>
    public string? Text(params ReadOnlySpan<GeoKey> anyOf)
    {
        foreach (var key in anyOf)
        {
            if (!keys.TryGetValue((int)key, out var found) || found.Place != (int)TiffTag.GeoAsciiParams) continue;
            if (found.Value > text.Length || found.Count > text.Length - found.Value) continue;
            var part = text.Substring(found.Value, found.Count).TrimEnd('|', ' ');
            if (part.Length > 0) return part;
        }
        return null;
    }
}

/// <summary>Key numbers of OGC 19-008r4, annex B and C.</summary>
internal enum GeoKey
{
    ModelType = 1024,
    RasterType = 1025,
    Citation = 1026,
    GeodeticCrs = 2048,
    GeodeticCitation = 2049,
    GeodeticDatum = 2050,
    PrimeMeridian = 2051,
    AngularUnits = 2054,
    ProjectedCrs = 3072,
    ProjectedCitation = 3073,
    Projection = 3074,
    ProjectionMethod = 3075,
    LinearUnits = 3076,
    LinearUnitSize = 3077,
    Parallel1 = 3078,
    Parallel2 = 3079,
    NaturalOriginLongitude = 3080,
    NaturalOriginLatitude = 3081,
    FalseEasting = 3082,
    FalseNorthing = 3083,
    FalseOriginLongitude = 3084,
    FalseOriginLatitude = 3085,
    FalseOriginEasting = 3086,
    FalseOriginNorthing = 3087,
    CentreLongitude = 3088,
    CentreLatitude = 3089,
    ScaleAtNaturalOrigin = 3092,
    ScaleAtCentre = 3093,
    VerticalCrs = 4096,
    VerticalCitation = 4097,
    VerticalUnits = 4099,
}
